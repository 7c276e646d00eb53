import type { ReadyInstant } from '@clampclock/cure'
import type { MoveCheck } from '../../api/types.ts'
import type { BondClock } from './bond-clock.ts'

export type MoveAnswer =
  | { readonly kind: 'yes' }
  /** Time alone does it: from `atMs` on. */
  | { readonly kind: 'notYet'; readonly atMs: number }
  /** No time can be given, or something other than time is missing. */
  | { readonly kind: 'no'; readonly reason: Extract<ReadyInstant, { kind: 'never' }>['reason'] | null }
  /** Cured, but something that no waiting brings is missing: readings, a disposition. */
  | { readonly kind: 'lacking' }
  /** A person must do something about a joint first: no waiting brings that. */
  | { readonly kind: 'held' }
  /** By the clock here it is ready: the server is asked again, and its answer counts. */
  | { readonly kind: 'asking' }

/** Reasons that a joint waits for a person: as the service names them. */
const HELD: ReadonlySet<string> = new Set([
  'released-early',
  'applied-against-refusal',
  'clamped-late',
  'adhesive-left',
  'to-be-redone',
])

/**
 * May it be moved? Yes only when the server's gate says so and the clock here agrees: whichever of the two is more
 * careful is believed. An answer in doubt (old, or something has happened since) is never a yes.
 */
export function moveAnswer(
  check: Pick<MoveCheck, 'mayMove' | 'reasons'>,
  clocks: readonly BondClock[],
  isInDoubt: boolean,
): MoveAnswer {
  const holding = clocks.filter(({ phase }) => phase !== 'released' && phase !== 'abandoned')
  if (check.reasons.some(({ code }) => HELD.has(code))) return { kind: 'held' }
  if (holding.some(({ phase }) => phase === 'open' || phase === 'late')) return { kind: 'no', reason: null }
  const curing = holding.filter(({ phase }) => phase === 'curing')
  if (curing.length === 0) {
    // A yes is of now, or it is none.
    if (check.mayMove) return { kind: isInDoubt ? 'asking' : 'yes' }
    if (holding.length === 0) return { kind: 'no', reason: null }
    const isCured =
      check.reasons.length > 0 && !check.reasons.some(({ code }) => code === 'handling-strength')
    return { kind: isCured ? 'lacking' : 'asking' }
  }
  let latestMs = -Infinity
  for (const { readyAt } of curing) {
    if (readyAt.kind === 'never') return { kind: 'no', reason: readyAt.reason }
    latestMs = Math.max(latestMs, readyAt.atMs)
  }
  return { kind: 'notYet', atMs: latestMs }
}
