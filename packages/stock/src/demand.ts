/** Smoothing constants of an intermittent demand, each above 0 and at most 1. */
export interface Smoothing {
  /** Of the size of a demand. */
  readonly size: number
  /** Of the interval between demands. */
  readonly interval: number
}

export interface DemandRate {
  /** Mean size of a demand when there is one. */
  readonly size: number
  /** Mean number of periods from one demand to the next. */
  readonly interval: number
  /** Expected demand a period: Croston's ratio, less its bias where that was asked for. */
  readonly perPeriod: number
}

const USUAL: Smoothing = { size: 0.1, interval: 0.1 }

/**
 * Croston's forecast (1972) of a demand that comes now and then: sizes and intervals are smoothed apart, and only when there
 * is a demand. `syntetosBoylan` takes off the bias that the ratio has (Syntetos & Boylan 2005): times 1 - interval/2.
 * The first size and interval start the smoothing.
 *
 * @param demands Demand of each period, oldest first; not negative.
 * @returns Null while there has been no demand at all.
 * @throws {RangeError} For a negative demand or a constant that is not above 0 and at most 1.
 */
export function croston(
  demands: readonly number[],
  smoothing = USUAL,
  syntetosBoylan = true,
): DemandRate | null {
  for (const [name, value] of Object.entries(smoothing)) {
    if (!(value > 0 && value <= 1))
      throw new RangeError(`smoothing.${name} is ${value}: give a share above 0 and at most 1`)
  }
  let size: number | undefined
  let interval = 0
  let sinceLast = 0
  demands.forEach((demand, i) => {
    if (!(demand >= 0)) throw new RangeError(`demands[${i}] is ${demand}: give 0 or more`)
    sinceLast += 1
    if (demand === 0) return
    interval = size === undefined ? sinceLast : interval + smoothing.interval * (sinceLast - interval)
    size = size === undefined ? demand : size + smoothing.size * (demand - size)
    sinceLast = 0
  })
  if (size === undefined) return null
  const ratio = size / interval
  return { size, interval, perPeriod: syntetosBoylan ? ratio * (1 - smoothing.interval / 2) : ratio }
}

/**
 * Probability that a period has a demand, smoothed in every period (Teunter, Syntetos & Babai 2011, from memory) and not
 * only when one comes: it falls while nothing is asked for. The first periods count alike, as long as that gives the
 * latest more weight than the smoothing constant does; so no single early demand sets it for long.
 *
 * @param demands Demand of each period, oldest first; not negative.
 * @param smoothing Above 0 and at most 1: 1/90 remembers about the last 180 periods.
 * @returns From 0 to 1; 0 without periods.
 * @throws {RangeError} For a negative demand or a constant that is not above 0 and at most 1.
 */
export function demandProbability(demands: readonly number[], smoothing: number): number {
  if (!(smoothing > 0 && smoothing <= 1))
    throw new RangeError(`smoothing is ${smoothing}: give a share above 0 and at most 1`)
  return demands.reduce((probability, demand, i) => {
    if (!(demand >= 0)) throw new RangeError(`demands[${i}] is ${demand}: give 0 or more`)
    return probability + Math.max(1 / (i + 1), smoothing) * (Number(demand > 0) - probability)
  }, 0)
}
