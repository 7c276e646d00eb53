import * as z from 'zod'

export const Role = z
  .enum(['owner', 'partsManager', 'scheduler', 'technician', 'viewer'])
  .meta({ id: 'Role' })
export type Role = z.output<typeof Role>

/** What a token may do: a sensor only sends temperatures; an integration reads everything and plans work. */
export const TokenScope = z.enum(['sensor', 'integration']).meta({ id: 'TokenScope' })
export type TokenScope = z.output<typeof TokenScope>

type Holder = Role | TokenScope

/**
 * Which role or token scope holds which permission. A role is held in one shop or in every shop of the chain, an
 * owner's too; the routes and services ask for a permission, never for a role. docs/access.md says it to people, and a
 * test holds the two against one another.
 */
export const PERMISSIONS = {
  readShop: ['owner', 'partsManager', 'scheduler', 'technician', 'viewer', 'integration'],
  manageChain: ['owner'],
  manageCatalogue: ['owner', 'partsManager'],
  handleStock: ['owner', 'partsManager'],
  useStock: ['owner', 'partsManager', 'technician'],
  /** Keep cartridges for joints. */
  reserveStock: ['owner', 'partsManager', 'scheduler', 'technician'],
  planWork: ['owner', 'scheduler', 'integration'],
  makeBonds: ['owner', 'technician'],
  recordTemperature: ['owner', 'partsManager', 'scheduler', 'technician', 'sensor', 'integration'],
  /** Go on although a gate refuses, with a written reason (rule 1), and dispose of incidents (rules 2 and 3). */
  takeResponsibility: ['owner', 'scheduler'],
  handleAlerts: ['owner', 'partsManager', 'scheduler', 'technician'],
  /** Add photos and notes to a vehicle, a joint or a bond, and withdraw them with a reason. */
  documentWork: ['owner', 'partsManager', 'scheduler', 'technician', 'integration'],
} as const satisfies Record<string, readonly Holder[]>

export type Permission = keyof typeof PERMISSIONS

export function holds(holder: Holder, permission: Permission): boolean {
  return (PERMISSIONS[permission] as readonly Holder[]).includes(holder)
}

/** A role or scope, where it is held: `shopId` null in every shop of the chain. */
export interface Grant {
  readonly shopId: string | null
  readonly holder: Holder
}

/** Whether a permission is held in a shop; in every shop of the chain when `shopId` is null. */
export function isHeld(grants: readonly Grant[], permission: Permission, shopId: string | null): boolean {
  return grants.some(
    (grant) => (grant.shopId === null || grant.shopId === shopId) && holds(grant.holder, permission),
  )
}

/** Whether everything that `wanted` carries is held where it counts: nobody gives, takes or touches more than he has. */
export function covers(grants: readonly Grant[], wanted: Grant): boolean {
  return (Object.keys(PERMISSIONS) as Permission[]).every(
    (permission) => !holds(wanted.holder, permission) || isHeld(grants, permission, wanted.shopId),
  )
}
