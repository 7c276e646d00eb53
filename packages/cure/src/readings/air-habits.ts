import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { Known } from './reading-quality.ts'

/**
 * What a thermometer has done of itself while nobody doubted it (QARTOD tests 7 and 8 ask for limits from the place's
 * own past): the longest that it showed the same digits, and the furthest it rose from one reading to the next.
 */
export interface AirHabits {
  readonly longestRunMinutes: number
  readonly largestRiseC: number
}

/** A thermometer's habits are known from this much of it on, days. Common practice, no source. */
const ENOUGH_DAYS = 3
/** Readings further apart than this are no step from one to the next, minutes. Common practice, no source. */
export const STEP_MINUTES = 30

/** Over a longer silence nobody knows what it showed, minutes. Common practice, no source. */
const RUN_GAP_MINUTES = 120

/** @param past of one thermometer, by time, believed. @returns undefined where too little of it is known. */
export function habitsOf(past: readonly Known[]): AirHabits | undefined {
  const [first, last] = [past[0], past.at(-1)]
  if (!first || !last || last.atMs - first.atMs < ENOUGH_DAYS * 1440 * MS_PER_MINUTE) return undefined
  let [runFromMs, longestRunMs, largestRiseC] = [first.atMs, 0, 0]
  for (let i = 1; i < past.length; i++) {
    const [a, b] = [past[i - 1]!, past[i]!]
    const isNext = b.atMs - a.atMs <= STEP_MINUTES * MS_PER_MINUTE
    if (isNext) largestRiseC = Math.max(largestRiseC, b.temperatureC - a.temperatureC)
    if (b.temperatureC === a.temperatureC && b.atMs - a.atMs <= RUN_GAP_MINUTES * MS_PER_MINUTE) continue
    // The run that still goes on is what is asked about: only those that ended tell how long it may.
    longestRunMs = Math.max(longestRunMs, a.atMs - runFromMs)
    runFromMs = b.atMs
  }
  return { longestRunMinutes: longestRunMs / MS_PER_MINUTE, largestRiseC }
}
