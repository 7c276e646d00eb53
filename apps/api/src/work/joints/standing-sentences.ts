import type { ProblemReason } from '@clampclock/contracts'
import type { AgainstBake } from '@clampclock/cure'
import { message, type Message } from '@clampclock/messages'
import { heldBy, jointsOf, type AttemptRow } from './standing.ts'

const CODES: Readonly<Record<AgainstBake, string>> = {
  open: 'not-clamped',
  releasedEarly: 'released-early',
  appliedAgainstRefusal: 'applied-against-refusal',
  closedLate: 'clamped-late',
  lifted: 'adhesive-left',
  abandoned: 'adhesive-left',
  toBeRedone: 'to-be-redone',
}

/** Why a person has to do something about a joint first. */
export function heldReason(joint: string, state: AgainstBake): ProblemReason {
  return { code: CODES[state], ...wordsOf(joint, state) }
}

function wordsOf(joint: string, state: AgainstBake): { readonly message: Message; readonly fix: Message } {
  switch (state) {
    case 'open':
      return { message: message('reason.heldOpen', { joint }), fix: message('reason.heldOpenFix') }
    case 'releasedEarly':
      return {
        message: message('reason.heldReleasedEarly', { joint }),
        fix: message('reason.heldInspectFix'),
      }
    case 'appliedAgainstRefusal':
      return {
        message: message('reason.heldAppliedAgainstRefusal', { joint }),
        fix: message('reason.heldInspectFix'),
      }
    case 'closedLate':
      return {
        message: message('reason.heldClosedLate', { joint }),
        fix: message('reason.heldClosedLateFix'),
      }
    case 'lifted':
      return { message: message('reason.heldLifted', { joint }), fix: message('reason.heldScrapeFix') }
    case 'abandoned':
      return { message: message('reason.heldAbandoned', { joint }), fix: message('reason.heldScrapeFix') }
    case 'toBeRedone':
      return {
        message: message('reason.heldToBeRedone', { joint }),
        fix: message('reason.heldToBeRedoneFix'),
      }
  }
}

/** Of every joint of a vehicle, its attempts in their order. */
export function heldReasons(
  rows: readonly (AttemptRow & { readonly jointId: string; readonly joint: { readonly name: string } })[],
): ProblemReason[] {
  return jointsOf(rows).flatMap((attempts) => {
    const state = heldBy(attempts)
    return state === null ? [] : [heldReason(attempts[0]!.joint.name, state)]
  })
}
