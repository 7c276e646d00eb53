import {
  covers,
  holds,
  type Grant,
  type Membership,
  type Permission,
  type Preferences,
  type TokenScope,
} from '@clampclock/contracts'
import { message } from '@clampclock/messages'
import { ProblemError } from '../problems/problem-error.ts'

/** Whoever makes a request: a person who signed in, or a token of a sensor or integration. */
export interface Actor {
  readonly kind: 'person' | 'token'
  readonly id: string
  readonly name: string
  readonly email: string | null
  readonly organization: { readonly id: string; readonly name: string }
  readonly memberships: readonly Membership[]
  /** A token has none: all null. */
  readonly preferences: Preferences
  /** Of a token; `shopId` null: every shop. */
  readonly token: { readonly scope: TokenScope; readonly shopId: string | null } | null
  /** Of a person who signed in; a token has none. */
  readonly session: Session | null
}

export interface Session {
  readonly id: string
  /** The password was set by somebody else: nothing but the choice of another is open. */
  readonly mustChangePassword: boolean
  /** The secret is to be changed with the next answer that can carry another. */
  readonly isToRotate: boolean
}

/** As the browser says, in everything. */
export const NO_PREFERENCES: Preferences = {
  language: null,
  temperature: null,
  volume: null,
  length: null,
  clock: null,
  firstDay: null,
}

/** What he may see and do depends on nothing else of an actor: who has the same roles is told the same. */
export type Viewer = Pick<Actor, 'organization' | 'memberships' | 'token'>

function grantsOf(actor: Viewer): readonly Grant[] {
  return actor.token
    ? [{ shopId: actor.token.shopId, holder: actor.token.scope }]
    : actor.memberships.map(({ shopId, role }) => ({ shopId, holder: role }))
}

/** 'all', or the shops in which the actor holds the permission. */
export function shopsWith(actor: Viewer, permission: Permission): 'all' | ReadonlySet<string> {
  const shops = new Set<string>()
  for (const { shopId, holder } of grantsOf(actor)) {
    if (!holds(holder, permission)) continue
    if (shopId === null) return 'all'
    shops.add(shopId)
  }
  return shops
}

export function mayIn(actor: Viewer, permission: Permission, shopId: string): boolean {
  const shops = shopsWith(actor, permission)
  return shops === 'all' || shops.has(shopId)
}

export function maySomewhere(actor: Actor, permission: Permission): boolean {
  const shops = shopsWith(actor, permission)
  return shops === 'all' || shops.size > 0
}

/**
 * @throws {ProblemError} `not-found` when the actor may not even see the shop (who may not see a thing does not
 *   learn that it is there), else `not-permitted`.
 */
export function requireIn(actor: Viewer, permission: Permission, shopId: string): void {
  if (mayIn(actor, permission, shopId)) return
  if (!mayIn(actor, 'readShop', shopId) && permission !== 'recordTemperature') {
    throw new ProblemError('not-found', message('problem.notVisible'))
  }
  throw new ProblemError('not-permitted', message('problem.needsPermissionInShop', { permission }), [
    {
      code: permission,
      message: message('problem.roleLacksInShop', { permission }),
      fix: message('problem.askOwnerOfChainFix'),
    },
  ])
}

/** For what belongs to the whole chain: held in every shop. */
export function requireInChain(actor: Actor, permission: Permission): void {
  if (shopsWith(actor, permission) === 'all') return
  throw new ProblemError('not-permitted', message('problem.needsPermissionInChain', { permission }), [
    {
      code: permission,
      message: message('problem.roleLacksInChain', { permission }),
      fix: message('problem.askOwnerOfEveryFix'),
    },
  ])
}

/** For what reaches into several shops, none of them given: held in each of them, however many may be seen. */
export function requireInEach(actor: Actor, permission: Permission, shopIds: readonly string[]): void {
  if (shopIds.every((shopId) => mayIn(actor, permission, shopId))) return
  throw new ProblemError('not-permitted', message('problem.needsPermissionInEach', { permission }), [
    {
      code: permission,
      message: message('problem.roleLacksInEach', { permission }),
      fix: message('problem.askOtherRoleFix'),
    },
  ])
}

/** Whether the actor holds whatever a role or scope carries, where it counts: nobody grants more than he has. */
export function coversGrant(actor: Actor, wanted: Grant): boolean {
  return covers(grantsOf(actor), wanted)
}

/** A filter on shops: what was asked for, cut down to what may be seen. */
export function visibleShops(actor: Viewer, wanted?: string): { in: string[] } | undefined {
  const shops = shopsWith(actor, 'readShop')
  if (wanted !== undefined) {
    if (shops !== 'all' && !shops.has(wanted))
      throw new ProblemError('not-found', message('problem.noShop', { id: wanted }))
    return { in: [wanted] }
  }
  return shops === 'all' ? undefined : { in: [...shops] }
}
