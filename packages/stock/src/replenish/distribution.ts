import type { DailyDemand } from './daily-demand.ts'

/**
 * Probability of each amount `i * binMl`; the last bin holds all that is as much or more. Amounts between two bins are
 * shared between them so that the mean stays exact (below the last bin).
 */
export interface Distribution {
  readonly binMl: number
  readonly mass: Float64Array
}

export function certain(amountMl: number, binMl: number, bins: number): Distribution {
  const mass = new Float64Array(bins)
  addAmount(mass, amountMl / binMl, 1)
  return { binMl, mass }
}

/** @throws {RangeError} For a probability outside 0 to 1, a size not above 0, or no size. */
export function ofOneDay({ probability, sizesMl }: DailyDemand, binMl: number, bins: number): Distribution {
  if (!(probability >= 0 && probability <= 1))
    throw new RangeError(`probability is ${probability}: give a share from 0 to 1`)
  if (sizesMl.length === 0) throw new RangeError('sizesMl is empty: give at least one size')
  const mass = new Float64Array(bins)
  mass[0] = 1 - probability
  sizesMl.forEach((ml, i) => {
    if (!(ml > 0)) throw new RangeError(`sizesMl[${i}] is ${ml}: give mL above 0`)
    addAmount(mass, ml / binMl, probability / sizesMl.length)
  })
  return { binMl, mass }
}

/** Of the sum of two independent amounts. */
export function sum(a: Distribution, b: Distribution): Distribution {
  const bins = a.mass.length
  const mass = new Float64Array(bins)
  const last = lastUsed(b.mass)
  for (let i = 0; i < bins; i += 1) {
    const p = a.mass[i]!
    if (p === 0) continue
    for (let j = 0; j <= last; j += 1) mass[Math.min(i + j, bins - 1)]! += p * b.mass[j]!
  }
  return { binMl: a.binMl, mass }
}

/** Of so many independent days of the same, by repeated squaring. */
export function overDays(day: Distribution, days: number): Distribution {
  let result = certain(0, day.binMl, day.mass.length)
  let power = day
  for (let left = days; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result = sum(result, power)
    if (left > 1) power = sum(power, power)
  }
  return result
}

/** The mixture of several, by weight; the weights add up to 1. */
export function mixture(
  parts: readonly { readonly weight: number; readonly of: Distribution }[],
): Distribution {
  const { binMl, mass: first } = parts[0]!.of
  const mass = new Float64Array(first.length)
  for (const { weight, of } of parts) of.mass.forEach((p, i) => (mass[i]! += weight * p))
  return { binMl, mass }
}

/** The least amount, mL, that suffices with this probability; the top of the grid when none below it does. */
export function quantileMl({ binMl, mass }: Distribution, probability: number): number {
  let total = 0
  for (let i = 0; i < mass.length; i += 1) {
    total += mass[i]!
    // Rounding of the sum is no reason for one more bin.
    if (total >= probability - 1e-12) return i * binMl
  }
  return (mass.length - 1) * binMl
}

/** Adds a probability at a place between two bins. */
export function addAmount(mass: Float64Array, position: number, probability: number): void {
  const top = mass.length - 1
  const below = Math.min(Math.floor(position), top)
  const share = Math.min(position, top) - below
  mass[below]! += probability * (1 - share)
  if (share > 0) mass[below + 1]! += probability * share
}

function lastUsed(mass: Float64Array): number {
  let last = mass.length - 1
  while (last > 0 && mass[last] === 0) last -= 1
  return last
}
