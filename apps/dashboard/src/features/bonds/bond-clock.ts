import type { ReadyInstant } from '@clampclock/cure'
import type { ServerNow } from '../../api/server-clock.ts'
import type { Bond } from '../../api/types.ts'
import { estimateAt, workTimeEndIfSteadyMs, type Estimate } from './estimate.ts'

/**
 * Where a bond stands: `open` while the joint may still be closed, `late` once the work time has run out with no
 * clamp on it, `curing` and `ready` under clamps, then over.
 */
export type Phase = 'open' | 'late' | 'curing' | 'ready' | 'released' | 'abandoned'

export interface BondClock {
  readonly phase: Phase
  readonly estimate: Estimate
  /** Until the joint must be closed, by the earliest estimate; null when it can't be said. */
  readonly workTimeEndsMs: number | null
  /** The end of the work time rests on the last measured temperature staying: there is no forecast. */
  readonly isIfSteady: boolean
  /** From when it may be moved, on the conservative estimate. */
  readonly readyAt: ReadyInstant
  readonly expectedAt: ReadyInstant
}

type Known = Parameters<typeof estimateAt>[0] & Pick<Bond, 'state'>

/**
 * The clock of a bond. What is not known of the server's time counts against us: a cure is judged as early as it may be, a
 * work time as late.
 */
export function bondClock(bond: Known, { earliestMs, latestMs }: Omit<ServerNow, 'expectedMs'>): BondClock {
  const nowMs = earliestMs
  const estimate = estimateAt(bond, nowMs)
  const forecastEnd = estimate.workTime.readyAt.earliest
  const isIfSteady = bond.state === 'applied' && forecastEnd.kind === 'never'
  const workTimeEndsMs =
    forecastEnd.kind === 'at' ? forecastEnd.atMs : isIfSteady ? workTimeEndIfSteadyMs(bond, nowMs) : undefined
  const isLate = workTimeEndsMs !== undefined && workTimeEndsMs <= latestMs
  const isReady = estimate.handlingStrength.progress.conservative >= 1
  return {
    phase: phaseOf(bond.state, isLate || estimate.workTime.progress.earliest >= 1, isReady),
    estimate,
    workTimeEndsMs: workTimeEndsMs ?? null,
    isIfSteady,
    readyAt: estimate.handlingStrength.readyAt.conservative,
    expectedAt: estimate.handlingStrength.readyAt.expected,
  }
}

function phaseOf(state: Bond['state'], isWorkTimeOver: boolean, isReady: boolean): Phase {
  if (state === 'released' || state === 'abandoned') return state
  if (state === 'applied') return isWorkTimeOver ? 'late' : 'open'
  return isReady ? 'ready' : 'curing'
}

/** The bond that keeps the vehicle longest: a joint not closed yet before everything, then the latest ready time. */
export function governing<Item extends { readonly clock: BondClock }>(
  items: readonly Item[],
): Item | undefined {
  const rank = ({ clock }: Item): number => {
    if (clock.phase === 'late') return Number.MAX_VALUE
    if (clock.phase === 'open') return Number.MAX_SAFE_INTEGER
    if (clock.phase !== 'curing' && clock.phase !== 'ready') return -1
    return clock.readyAt.kind === 'at' ? clock.readyAt.atMs : Number.MAX_SAFE_INTEGER - 1
  }
  return items.reduce<Item | undefined>(
    (best, item) => (best === undefined || rank(item) > rank(best) ? item : best),
    undefined,
  )
}
