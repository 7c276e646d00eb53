/** A storage temperature, degC, at an instant in ms. */
export interface StorageReading {
  readonly atMs: number
  readonly temperatureC: number
}

/** How a product's shelf life depends on where it lies. */
export interface StorageRule {
  /** The storage temperature that the printed expiry assumes, degC. */
  readonly labelStorageC: number
  /** How many times as fast life is used up for each 10 degC above it; at least 1. ASTM F1980 takes 2 when unknown. */
  readonly q10: number
}

/**
 * Shelf life that warm storage has used up beyond clock time, ms: the integral of Q10^((T - T_label)/10) - 1 while
 * T is above T_label (the ageing factor of ASTM F1980). Cooler storage earns no credit. Readings are joined linearly;
 * time before the first and after the last of them counts as stored at the label temperature.
 *
 * @param readings Sorted by instant.
 * @returns At least 0 ms.
 * @throws {RangeError} When readings are out of order, or Q10 is below 1.
 */
export function warmStorageLossMs(
  readings: readonly StorageReading[],
  rule: StorageRule,
  fromMs: number,
  toMs: number,
): number {
  if (!(rule.q10 >= 1)) throw new RangeError(`q10 is ${rule.q10}: give 1 or more`)
  let loss = 0
  for (let i = 1; i < readings.length; i += 1) {
    const before = readings[i - 1]!
    const after = readings[i]!
    if (!(after.atMs > before.atMs)) {
      throw new RangeError(
        `readings[${i}].atMs is ${after.atMs}, not later than the one before: sort them, one for an instant`,
      )
    }
    const startMs = Math.max(before.atMs, fromMs)
    const endMs = Math.min(after.atMs, toMs)
    if (startMs >= endMs) continue
    const at = (ms: number) =>
      before.temperatureC +
      ((after.temperatureC - before.temperatureC) * (ms - before.atMs)) / (after.atMs - before.atMs)
    loss += lossOverRamp(
      at(startMs) - rule.labelStorageC,
      at(endMs) - rule.labelStorageC,
      endMs - startMs,
      rule.q10,
    )
  }
  return loss
}

/** Closed form over a ramp from `a` to `b` degC above the label temperature: no steps, so no step-size error. */
function lossOverRamp(a: number, b: number, durationMs: number, q10: number): number {
  if (a <= 0 && b <= 0) return 0
  if (a < 0 || b < 0) {
    // Only the part above the label temperature counts.
    const share = Math.max(a, b) / Math.abs(b - a)
    return lossOverRamp(0, Math.max(a, b), durationMs * share, q10)
  }
  const k = Math.log(q10) / 10
  const span = k * (b - a)
  // The mean of e^x over [ka, kb]; by its series where the difference quotient would lose its digits.
  const meanFactor =
    Math.abs(span) < 1e-6 ? Math.exp(k * a) * (1 + span / 2) : (Math.exp(k * b) - Math.exp(k * a)) / span
  return durationMs * (meanFactor - 1)
}
