import { covers, holds, isHeld, type Permission } from '@clampclock/contracts'
import type { Me } from './types.ts'
import { t } from '../lib/reader.ts'

type Holder = Pick<Me, 'memberships'>

const grantsOf = ({ memberships }: Holder) =>
  memberships.map(({ shopId, role }) => ({ shopId, holder: role }))

/**
 * Whether a person may do something in a shop; in any shop when none is given; in every shop, as what counts for the
 * whole chain asks, when it is null. The server decides in the end.
 */
export function mayDo(me: Holder, permission: Permission, shopId?: string | null): boolean {
  return shopId === undefined
    ? me.memberships.some(({ role }) => holds(role, permission))
    : isHeld(grantsOf(me), permission, shopId)
}

/** Whether somebody works at the bay side and has no other part: for these the own work comes first. */
export function isBaySide({ memberships }: Holder): boolean {
  return memberships.length > 0 && memberships.every(({ role }) => role === 'technician')
}

/** Whether a person may give a role, or take it away: nobody grants more than he has. */
export function mayGrant(me: Holder, { shopId, role }: Me['memberships'][number]): boolean {
  return mayDo(me, 'manageChain', shopId) && covers(grantsOf(me), { shopId, holder: role })
}

const ROLE_WORDS = {
  get owner() {
    return t('api.owner')
  },
  get partsManager() {
    return t('api.partsManager')
  },
  get scheduler() {
    return t('api.scheduler')
  },
  get technician() {
    return t('api.technician')
  },
  get viewer() {
    return t('api.viewer')
  },
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
