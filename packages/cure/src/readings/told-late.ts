/**
 * What is entered longer than this after it happened is a claim about the past, minutes: a person at the bay side enters it
 * at once, a phone without network when it has one again. Common practice, no source.
 */
export const TOLD_LATE_MINUTES = 15

const TOLD_LATE_MS = TOLD_LATE_MINUTES * 60_000

/**
 * From when something that is said to have happened may make anything ready sooner, ms: from then, but at the earliest
 * fifteen minutes before it was entered. Nobody's word about the past finishes a cure.
 */
export function creditedFromMs(happenedAtMs: number, enteredAtMs: number): number {
  return Math.max(happenedAtMs, enteredAtMs - TOLD_LATE_MS)
}

/** How long after it is said to have happened it was entered, whole minutes; null where that makes no difference. */
export function toldLateMinutes(happenedAtMs: number, enteredAtMs: number): number | null {
  const lateMs = enteredAtMs - happenedAtMs
  return lateMs > TOLD_LATE_MS ? Math.floor(lateMs / 60_000) : null
}
