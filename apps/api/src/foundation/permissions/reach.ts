import { message, type Message } from '@clampclock/messages'
import { mayIn, requireIn, requireInChain, shopsWith, coversGrant, type Actor } from './actor.ts'
import type { Grant, Membership } from '@clampclock/contracts'
import { ProblemError } from '../problems/problem-error.ts'

/** Whether the actor keeps people and tokens in a shop; of the whole chain when `shopId` is null. */
export function mayManage(actor: Actor, shopId: string | null): boolean {
  return shopId === null ? shopsWith(actor, 'manageChain') === 'all' : mayIn(actor, 'manageChain', shopId)
}

/**
 * Nobody gives a role or a token, or takes one away, that reaches further than he does.
 *
 * @throws {ProblemError} `not-permitted`, or `not-found` for a shop that the actor doesn't even see.
 */
export function requireToGrant(actor: Actor, { shopId, holder }: Grant): void {
  if (shopId === null) requireInChain(actor, 'manageChain')
  else if (mayIn(actor, 'readShop', shopId)) requireIn(actor, 'manageChain', shopId)
  else throw beyond(message('setup-problem.reachesBeyond'))
  if (!coversGrant(actor, { shopId, holder }))
    throw beyond(message('setup-problem.moreThanYouHave', { holder }))
}

/** Whose sign-in the actor may change: who has nothing that he hasn't. */
export function requireToCover(actor: Actor, memberships: readonly Membership[]): void {
  if (memberships.every((membership) => mayGrant(actor, membership))) return
  throw beyond(message('setup-problem.personElsewhere'))
}

function mayGrant(actor: Actor, { shopId, role }: Membership): boolean {
  return mayManage(actor, shopId) && coversGrant(actor, { shopId, holder: role })
}

function beyond(detail: Message): ProblemError {
  return new ProblemError('not-permitted', detail, [
    { code: 'manageChain', message: detail, fix: message('problem.askOwnerOfEveryFix') },
  ])
}
