import { holds, type Permission } from '@clampclock/contracts'
import type { Me } from './types.ts'

type Holder = Pick<Me, 'memberships'>

/** Whether a person may do something in a shop; in any shop when none is given. The server decides in the end. */
export function mayDo(me: Holder, permission: Permission, shopId?: string): boolean {
  return me.memberships.some(
    (membership) =>
      (shopId === undefined || membership.shopId === null || membership.shopId === shopId) &&
      holds(membership.role, permission),
  )
}

const ROLE_WORDS = {
  owner: 'Owner',
  partsManager: 'Parts manager',
  scheduler: 'Scheduler',
  technician: 'Technician',
  viewer: 'Viewer',
} as const

export type Role = keyof typeof ROLE_WORDS

export const ROLES = Object.keys(ROLE_WORDS) as readonly Role[]

export function roleWord(role: Role): string {
  return ROLE_WORDS[role]
}

/** The roles somebody holds, each once, in plain words. */
export function rolesOf(me: Holder): string {
  return [...new Set(me.memberships.map((membership) => roleWord(membership.role)))].join(', ')
}
