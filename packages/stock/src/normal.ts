/** Density of the standard normal. */
export function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
}

/** Distribution function of the standard normal, to about 1e-14: the error function by its series near zero, by its continued fraction in the tail. */
export function normalCdf(z: number): number {
  return erfc(-z / Math.SQRT2) / 2
}

/**
 * Quantile of the standard normal: P. J. Acklam's rational approximation (2003, relative error 1.15e-9), then one step of
 * Halley's method on the distribution function, which leaves rounding only.
 *
 * @throws {RangeError} Unless 0 < p < 1.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`p is ${p}: give a probability above 0 and below 1`)
  const z = acklam(p)
  const error = normalCdf(z) - p
  const u = error / normalDensity(z)
  return z - u / (1 + (z * u) / 2)
}

/** Unit normal loss, E[max(0, Z - z)]: what is short on average when z standard deviations are kept. */
export function normalLoss(z: number): number {
  return normalDensity(z) - z * normalCdf(-z)
}

const A = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1,
  2.506628277459239,
]
const B = [
  -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1,
  1,
]
const C = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
]
const D = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1]
const TAIL = 0.02425

function acklam(p: number): number {
  if (p < TAIL) {
    const q = Math.sqrt(-2 * Math.log(p))
    return horner(C, q) / horner(D, q)
  }
  if (p > 1 - TAIL) return -acklam(1 - p)
  const q = p - 0.5
  const r = q * q
  return (q * horner(A, r)) / horner(B, r)
}

function horner(coefficients: readonly number[], x: number): number {
  return coefficients.reduce((sum, coefficient) => sum * x + coefficient, 0)
}

/** By its power series near zero and its continued fraction beyond. */
function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x)
  // Further out the terms cancel: at 2.5 a part in 1e10 would be lost.
  if (x < 1.5) {
    let term = x
    let sum = x
    for (let n = 1; Math.abs(term) > 1e-18 * Math.abs(sum) + 1e-300; n += 1) {
      term *= (-x * x) / n
      sum += term / (2 * n + 1)
    }
    return 1 - (2 / Math.sqrt(Math.PI)) * sum
  }
  // Lentz would do; the tail converges so fast that a fixed depth is simpler and as exact.
  let fraction = 0
  for (let n = 120; n >= 1; n -= 1) fraction = n / 2 / (x + fraction)
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * (x + fraction))
}
