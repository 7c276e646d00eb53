import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { Known } from './reading-quality.ts'

/** Two thermometers read the same air within this, minutes. Common practice, no source. */
const TOGETHER_MINUTES = 20
/** A door, a draught and a flicker even out over so long, and so many readings. Common practice, no source. */
const LEAST_MINUTES = 90
const LEAST_PAIRS = 6

/**
 * How far `a` has read above `b` on average (below: negative), degC, where that is more than both accuracies explain: for one
 * moment two thermometers of a bay may be further apart, for hours they may not. Null where they may both be right, or where
 * they were not together for long enough.
 *
 * @param a of one thermometer of a bay, of late, by time, believed; `b` of another.
 */
export function apartOnAverage(a: readonly Known[], b: readonly Known[]): number | null {
  const pairs = a.flatMap((one) => {
    const other = nearest(b, one.atMs)
    return other === undefined ? [] : [{ one, other }]
  })
  const [first, last] = [pairs[0], pairs.at(-1)]
  if (!first || !last || pairs.length < LEAST_PAIRS) return null
  if (last.one.atMs - first.one.atMs < LEAST_MINUTES * MS_PER_MINUTE) return null
  const mean = (value: (pair: (typeof pairs)[number]) => number): number =>
    pairs.reduce((sum, pair) => sum + value(pair), 0) / pairs.length
  const apartC = mean(({ one, other }) => one.temperatureC - other.temperatureC)
  return Math.abs(apartC) > mean(({ one, other }) => one.accuracyC + other.accuracyC) ? apartC : null
}

function nearest(readings: readonly Known[], atMs: number): Known | undefined {
  let best: Known | undefined
  for (const reading of readings) {
    const far = Math.abs(reading.atMs - atMs)
    if (far <= TOGETHER_MINUTES * MS_PER_MINUTE && (!best || far < Math.abs(best.atMs - atMs))) best = reading
  }
  return best
}
