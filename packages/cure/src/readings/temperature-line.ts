import type { Reading } from './reading.ts'

/** Values of the three lines: cold (conservative), expected, warm (earliest). */
export type Triple = readonly [cold: number, expected: number, warm: number]

export const LINES = [0, 1, 2] as const
export type Line = (typeof LINES)[number]

/** What the sensor may have seen: the band that came with the reading, or its accuracy taken off and added. */
export function readingBand(reading: Reading): Triple {
  const { temperatureC, accuracyC, lowC, highC } = reading
  return [lowC ?? temperatureC - accuracyC, temperatureC, highC ?? temperatureC + accuracyC]
}
