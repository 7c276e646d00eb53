/** Two readings further apart than this say nothing of the time between them, ms. Common practice, no source. */
export const LONGEST_MEASURED_GAP_MS = 2 * 3_600_000

export interface Stretch {
  readonly fromMs: number
  readonly toMs: number
}

/**
 * How much of a stretch was measured, ms: the time between each two neighbouring readings that are no further apart than
 * `LONGEST_MEASURED_GAP_MS`. A single reading measures nothing, nor does one of before or after.
 *
 * @param readingsMs Instants, sorted, of the place where it lay.
 */
export function measuredMs(readingsMs: readonly number[], { fromMs, toMs }: Stretch): number {
  let sum = 0
  for (let i = 1; i < readingsMs.length; i += 1) {
    const before = readingsMs[i - 1]!
    const after = readingsMs[i]!
    if (after - before > LONGEST_MEASURED_GAP_MS) continue
    sum += Math.max(0, Math.min(after, toMs) - Math.max(before, fromMs))
  }
  return sum
}
