import { normalLoss, normalQuantile } from './normal.ts'

/** Demand and lead time in the same period (days, say), each with its standard deviation. */
export interface ReorderInput {
  readonly demandPerPeriod: number
  readonly demandDeviation: number
  readonly leadPeriods: number
  readonly leadDeviation: number
  /** Periods from one look at the shelf to the next; 0 when it is looked at all the time. */
  readonly reviewPeriods: number
  /** Probability of not running out in a cycle, above 0 and below 1. */
  readonly serviceLevel: number
  /** What will be in date and used before it dies, at most: nothing is ordered beyond it. Null where nothing expires. */
  readonly usableBeforeExpiry: number | null
}

export interface ReorderLevels {
  readonly safetyStock: number
  /** At or below this on hand and on order, order. */
  readonly reorderPoint: number
  /** Order up to this. */
  readonly orderUpTo: number
  /** Whether shelf life cut the level down: then the service level is not kept, and more frequent orders are the cure. */
  readonly cutByShelfLife: boolean
}

/**
 * Levels of a periodic review with a service level: over review and lead time the demand is taken as normal with variance
 * (R + L) s_d^2 + d^2 s_L^2 (Chopra & Meindl, Supply Chain Management, safety inventory; the same in Snyder & Shen).
 *
 * @throws {RangeError} Naming the figure that cannot be.
 */
export function reorderLevels(input: ReorderInput): ReorderLevels {
  const {
    demandPerPeriod: d,
    demandDeviation,
    leadPeriods,
    leadDeviation,
    reviewPeriods,
    serviceLevel,
    usableBeforeExpiry,
  } = input
  for (const [name, value] of Object.entries({
    demandPerPeriod: d,
    demandDeviation,
    leadPeriods,
    leadDeviation,
    reviewPeriods,
  })) {
    if (!(value >= 0)) throw new RangeError(`${name} is ${value}: give 0 or more`)
  }
  const z = Math.max(0, normalQuantile(serviceLevel))
  const cover = (periods: number) => ({
    mean: d * periods,
    deviation: Math.sqrt(periods * demandDeviation ** 2 + d ** 2 * leadDeviation ** 2),
  })
  const overLead = cover(leadPeriods)
  const overReview = cover(leadPeriods + reviewPeriods)
  const reorderPoint = overLead.mean + z * overLead.deviation
  const wanted = overReview.mean + z * overReview.deviation
  const orderUpTo = usableBeforeExpiry === null ? wanted : Math.min(wanted, usableBeforeExpiry)
  return {
    safetyStock: z * overLead.deviation,
    reorderPoint: Math.min(reorderPoint, orderUpTo),
    orderUpTo,
    cutByShelfLife: orderUpTo < wanted,
  }
}

/** Expected units short in a cycle, and the share of demand that is met from the shelf. */
export function fillRate(
  safetyStock: number,
  deviation: number,
  orderQuantity: number,
): { readonly shortPerCycle: number; readonly fill: number } {
  const shortPerCycle = deviation === 0 ? 0 : deviation * normalLoss(safetyStock / deviation)
  return { shortPerCycle, fill: 1 - shortPerCycle / orderQuantity }
}

/** Economic order quantity (Harris 1913): the root of 2 K d / h. @throws {RangeError} For a figure not above zero. */
export function economicOrderQuantity(
  orderCost: number,
  demandPerPeriod: number,
  holdingCost: number,
): number {
  for (const [name, value] of Object.entries({ orderCost, demandPerPeriod, holdingCost })) {
    if (!(value > 0)) throw new RangeError(`${name} is ${value}: give a figure above 0`)
  }
  return Math.sqrt((2 * orderCost * demandPerPeriod) / holdingCost)
}

/**
 * Newsvendor: how much to have when what is left over costs `overCost` and what is missing `underCost`; demand is
 * normal. The quantity and its expected cost (Snyder & Shen, Fundamentals of Supply Chain Theory, section 4.3).
 */
export function newsvendor(
  overCost: number,
  underCost: number,
  mean: number,
  deviation: number,
): { readonly quantity: number; readonly cost: number } {
  for (const [name, value] of Object.entries({ overCost, underCost, deviation })) {
    if (!(value > 0)) throw new RangeError(`${name} is ${value}: give a figure above 0`)
  }
  const z = normalQuantile(underCost / (underCost + overCost))
  const quantity = mean + z * deviation
  const cost = deviation * (overCost * z + (overCost + underCost) * normalLoss(z))
  return { quantity, cost }
}
