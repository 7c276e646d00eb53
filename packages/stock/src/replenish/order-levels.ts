import { normalLoss } from '../normal.ts'
import { meanPerDayMl, variancePerDay, type DailyDemand } from './daily-demand.ts'
import { compoundLeadDemand, normalLeadDemand, type LeadDemand } from './lead-demand.ts'

/** How a product comes into a shop, and what it costs there. */
export interface SupplyTerms {
  readonly leadDays: number
  readonly leadDeviationDays: number
  /** Days from one look at the shelf to the next; 0 when it is looked at all the time. */
  readonly reviewDays: number
  /** Least probability of not running out in a cycle, above 0 and below 1. */
  readonly serviceLevel: number
  readonly cartridgeMl: number
  /** Days of shelf life that a delivery usually has left; null when nothing is known. */
  readonly freshDays: number | null
  readonly openLifeDays: number
  /** In the smallest unit of money. */
  readonly costs: {
    readonly cartridge: number
    readonly order: number
    /** Of a job that has to wait. */
    readonly waitingJob: number
    /** Of keeping a cartridge for a day: room, money. */
    readonly keepingDay: number
  }
}

export interface OrderLevels {
  /** What is on hand and on order, mL: at or below this, order. */
  readonly reorderPointMl: number
  /** Order up to this: whole cartridges above the reorder point. */
  readonly orderUpToMl: number
  /** Whether shelf life cut the level down: more frequent, smaller orders are the cure. */
  readonly isCutByShelfLife: boolean
  /** Use with what dies opened, mL a day. */
  readonly consumptionPerDayMl: number
}

/** From this mean demand over the lead time on, in cartridges, the bell curve does: common practice, no source. */
const FAST_CARTRIDGES = 10
const MOST_CARTRIDGES = 60
const YEAR_DAYS = 365

/**
 * Reorder point and order-up-to level of least expected cost a year: orders, jobs that wait, keeping, and what dies on the
 * shelf. The reorder point is never below what keeps the service level over lead time and review; nothing is kept beyond
 * what is used, on average, before a fresh delivery expires. Small jobs leave opened cartridges to die: use is counted with that loss.
 *
 * Costs of a cycle as in Silver, Pyke & Thomas, Inventory and Production Management (order quantity and reorder point
 * together), with the shortage of the demand's own distribution in place of a normal one where use is slow.
 *
 * @throws {RangeError} Naming the figure that cannot be.
 */
export function orderLevels(demand: DailyDemand, terms: SupplyTerms): OrderLevels {
  requireTerms(terms)
  const consumed = withOpenLoss(demand, terms)
  const { cartridgeMl, leadDays, leadDeviationDays, reviewDays, serviceLevel, freshDays } = terms
  const perDayMl = meanPerDayMl(consumed)
  const isFast = perDayMl * leadDays >= FAST_CARTRIDGES * cartridgeMl
  const lead = (isFast ? normalLeadDemand : compoundLeadDemand)(
    consumed,
    leadDays + reviewDays,
    leadDeviationDays,
  )
  const floorMl = lead.quantileMl(serviceLevel)
  const usableMl = freshDays === null ? Infinity : perDayMl * freshDays
  const most = Math.max(1, Math.floor(usableMl / cartridgeMl))
  const cost = yearlyCost(consumed, terms, lead)

  let best = { reorderPointMl: floorMl, cartridges: 1, cost: Infinity }
  for (let cartridges = 1; cartridges <= Math.min(most, MOST_CARTRIDGES); cartridges += 1) {
    let low = Infinity
    for (let step = 0; step < 80; step += 1) {
      const reorderPointMl = floorMl + (step * cartridgeMl) / 4
      const here = cost(reorderPointMl, cartridges * cartridgeMl)
      if (here < best.cost) best = { reorderPointMl, cartridges, cost: here }
      // Convex in the reorder point: once it rises it goes on rising.
      if (here > low) break
      low = here
    }
  }
  const wantedMl = upToCartridges(best.reorderPointMl, cartridgeMl) + best.cartridges * cartridgeMl
  const orderUpToMl = Math.min(wantedMl, most * cartridgeMl)
  return {
    reorderPointMl: Math.min(best.reorderPointMl, orderUpToMl - 1),
    orderUpToMl,
    isCutByShelfLife: orderUpToMl < wantedMl,
    consumptionPerDayMl: perDayMl,
  }
}

/** Expected cost of a year with a reorder point and an order quantity, mL both. */
function yearlyCost(
  demand: DailyDemand,
  { cartridgeMl, costs, freshDays }: SupplyTerms,
  lead: LeadDemand,
): (reorderPointMl: number, quantityMl: number) => number {
  const perYearMl = meanPerDayMl(demand) * YEAR_DAYS
  const jobMl = demand.sizesMl.reduce((sum, ml) => sum + ml, 0) / demand.sizesMl.length
  return (reorderPointMl, quantityMl) => {
    const cycles = perYearMl / quantityMl
    const waiting = lead.shortMl(reorderPointMl) / jobMl
    const kept = Math.max(0, reorderPointMl - lead.meanMl) + quantityMl / 2
    const deadMl = freshDays === null ? 0 : unused(demand, reorderPointMl + quantityMl, freshDays)
    return (
      cycles * (costs.order + waiting * costs.waitingJob + (deadMl / cartridgeMl) * costs.cartridge) +
      (kept / cartridgeMl) * costs.keepingDay * YEAR_DAYS
    )
  }
}

/** Expected rest of a stock after so many days, the use taken as normal. */
function unused(demand: DailyDemand, stockMl: number, days: number): number {
  const deviation = Math.sqrt(variancePerDay(demand) * days)
  const rest = stockMl - meanPerDayMl(demand) * days
  return deviation === 0 ? Math.max(0, rest) : deviation * normalLoss(-rest / deviation)
}

/** Of an opened cartridge only what its open life lets be used counts: each job then costs more than its bead. */
function withOpenLoss(demand: DailyDemand, { cartridgeMl, openLifeDays }: SupplyTerms): DailyDemand {
  const jobMl = demand.sizesMl.reduce((sum, ml) => sum + ml, 0) / demand.sizesMl.length
  const usedMl = Math.min(cartridgeMl, jobMl + meanPerDayMl(demand) * openLifeDays)
  return { ...demand, sizesMl: demand.sizesMl.map((ml) => (ml * cartridgeMl) / usedMl) }
}

function upToCartridges(ml: number, cartridgeMl: number): number {
  return Math.ceil(ml / cartridgeMl - 1e-9) * cartridgeMl
}

function requireTerms({ serviceLevel, cartridgeMl, costs, ...days }: SupplyTerms): void {
  for (const [name, value] of Object.entries(days))
    if (value !== null && !(value >= 0)) throw new RangeError(`${name} is ${value}: give days, 0 or more`)
  for (const [name, value] of Object.entries(costs))
    if (!(value >= 0)) throw new RangeError(`costs.${name} is ${value}: give money, 0 or more`)
  if (!(serviceLevel > 0 && serviceLevel < 1))
    throw new RangeError(`serviceLevel is ${serviceLevel}: give a probability above 0 and below 1`)
  if (!(cartridgeMl > 0)) throw new RangeError(`cartridgeMl is ${cartridgeMl}: give mL above 0`)
}
