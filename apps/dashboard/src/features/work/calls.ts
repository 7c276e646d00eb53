import type { Phase } from '../bonds/bond-clock.ts'

/** Minutes of work time that are left when it is said aloud; 0 is its end. Common practice, no source. */
export const CALLED_AT_MINUTES = [15, 5, 1, 0] as const

/** What there is to say of a bond: how much of the work time is left, or that the time of a closed joint has come. */
export type Call =
  | { readonly kind: 'workTime'; readonly minutes: (typeof CALLED_AT_MINUTES)[number] }
  | { readonly kind: 'timeHasCome' }

/** A bond as it stood when it was last looked at. */
export interface Stood {
  readonly phase: Phase
  /** Of the work time; null where it is not known, or the joint is closed. */
  readonly leftMs: number | null
}

/**
 * What is to be said between two looks at a bond. Of several calls the latest: who comes back to a phone that slept hears
 * that one minute is left, not that there were fifteen. The first look says nothing: it is on the screen.
 */
export function callBetween(before: Stood | undefined, now: Stood): Call | undefined {
  if (before === undefined) return undefined
  if (before.phase === 'curing' && now.phase === 'ready') return { kind: 'timeHasCome' }
  if (before.phase === 'open' && now.phase === 'late') return { kind: 'workTime', minutes: 0 }
  const { leftMs } = now
  if (before.leftMs === null || leftMs === null || now.phase !== 'open') return undefined
  const wasLeftMs = before.leftMs
  const crossed = CALLED_AT_MINUTES.filter(
    (minutes) => wasLeftMs > minutes * 60_000 && leftMs <= minutes * 60_000,
  )
  const minutes = crossed.at(-1)
  return minutes === undefined ? undefined : { kind: 'workTime', minutes }
}

/** Whether somebody has to act within the minute. */
export function isUrgent(call: Call): boolean {
  return call.kind === 'workTime' && call.minutes <= 1
}
