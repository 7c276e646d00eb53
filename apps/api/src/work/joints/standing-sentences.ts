import type { ProblemReason } from '@clampclock/contracts'
import type { AgainstBake } from '@clampclock/cure'
import { heldBy, jointsOf, type AttemptRow } from './standing.ts'

const INSPECT = 'Have somebody entitled inspect and accept it, or make the joint again'
const SCRAPE = 'Scrape both faces and bond again, or have somebody entitled inspect it'

const WORDS: Readonly<
  Record<AgainstBake, { readonly code: string; readonly message: string; readonly fix: string }>
> = {
  open: {
    code: 'not-clamped',
    message: 'the work time is over, and it is not clamped',
    fix: 'Abandon it, or record when it was clamped',
  },
  releasedEarly: {
    code: 'released-early',
    message: 'it was released before handling strength',
    fix: INSPECT,
  },
  appliedAgainstRefusal: {
    code: 'applied-against-refusal',
    message: 'the adhesive went on although a gate refused',
    fix: INSPECT,
  },
  closedLate: {
    code: 'clamped-late',
    message: 'it was clamped after the work time had run out',
    fix: 'Abandon it, or have somebody entitled inspect and accept it',
  },
  lifted: {
    code: 'adhesive-left',
    message: 'the panels were lifted apart, adhesive is on both faces',
    fix: SCRAPE,
  },
  abandoned: {
    code: 'adhesive-left',
    message: 'the attempt was abandoned, its adhesive is on the joint',
    fix: SCRAPE,
  },
  toBeRedone: {
    code: 'to-be-redone',
    message: 'it is to be made again',
    fix: 'Bond it again; once that is released ready, the vehicle may be moved',
  },
}

/** Why a person has to do something about a joint first. */
export function heldReason(jointName: string, state: AgainstBake): ProblemReason {
  const { code, message, fix } = WORDS[state]
  return { code, message: `${jointName}: ${message}`, fix }
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
