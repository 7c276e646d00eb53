import { normalQuantile } from '../normal.ts'
import { dailyDemand, type DailyDemand } from './daily-demand.ts'
import { orderLevels, type SupplyTerms } from './order-levels.ts'

/** The shelf as a policy sees it on a morning. */
export interface ShelfView {
  readonly sealed: number
  readonly onHandMl: number
  readonly onOrder: number
  /** mL asked for on each day so far. */
  readonly askedMl: readonly number[]
}

/** How many cartridges to order this morning; 0 for none. */
export type OrderPolicy = (shelf: ShelfView) => number

export interface SimulatedShop {
  readonly demand: DailyDemand
  readonly supply: SupplyTerms & { readonly freshDays: number }
  /** On the shelf at the start. */
  readonly cartridges: number
  readonly days: number
  /** Days at the start that are lived and not counted: the policy learns the demand. */
  readonly warmUpDays: number
}

export interface PolicyResult {
  /** Share of the mL asked for that was there. */
  readonly fillRate: number
  /** Jobs that had to wait. */
  readonly stockOuts: number
  readonly ordered: number
  readonly orders: number
  /** mL that expired, sealed or opened. */
  readonly wastedMl: number
  readonly wasteCost: number
  /** Orders, waste, jobs that waited, keeping: everything but the adhesive that was used. */
  readonly cost: number
}

/** What a day more teaches about the demand is too little to compute for. */
const LEARNING_DAYS = 7

interface Piece {
  leftMl: number
  expiresDay: number
  isOpened: boolean
}

/**
 * A shop's shelf lived through day by day under a policy: deliveries in the morning, then what has died goes, then the
 * policy orders, then the day's job takes the soonest to die first. A job that finds too little waits and is lost.
 *
 * @param random Numbers in [0, 1): the same numbers give the same life, so that policies can be compared on equal days.
 */
export function simulatePolicy(shop: SimulatedShop, policy: OrderPolicy, random: () => number): PolicyResult {
  const { demand, supply } = shop
  const { costs } = supply
  const future = futureOf(shop, random)
  let shelf: Piece[] = Array.from({ length: shop.cartridges }, () => fresh(supply, 0))
  const arriving: { day: number; cartridges: number }[] = []
  const askedMl: number[] = []
  const count = { asked: 0, met: 0, stockOuts: 0, ordered: 0, orders: 0, wastedMl: 0, kept: 0 }
  for (let day = 0; day < shop.warmUpDays + shop.days; day += 1) {
    const counts = day >= shop.warmUpDays ? 1 : 0
    for (const delivery of arriving.filter((each) => each.day === day))
      for (let i = 0; i < delivery.cartridges; i += 1) shelf.push(fresh(supply, day))
    for (const piece of shelf) if (piece.expiresDay <= day) count.wastedMl += counts * piece.leftMl
    shelf = shelf.filter(({ expiresDay, leftMl }) => expiresDay > day && leftMl > 0)
    count.kept += counts * shelf.length

    const order = policy({
      sealed: shelf.filter(({ isOpened }) => !isOpened).length,
      onHandMl: total(shelf),
      onOrder: arriving.filter((each) => each.day > day).reduce((n, { cartridges }) => n + cartridges, 0),
      askedMl,
    })
    if (order > 0) {
      arriving.push({ day: day + future[day]!.leadDays, cartridges: order })
      count.orders += counts
      count.ordered += counts * order
    }

    const needMl = future[day]!.askedMl
    askedMl.push(needMl)
    if (needMl === 0) continue
    count.asked += counts * needMl
    if (total(shelf) < needMl) {
      count.stockOuts += counts
      continue
    }
    take(shelf, needMl, day, supply.openLifeDays)
    count.met += counts * needMl
  }
  const wasteCost = (count.wastedMl / supply.cartridgeMl) * costs.cartridge
  return {
    fillRate: count.asked === 0 ? 1 : count.met / count.asked,
    stockOuts: count.stockOuts,
    ordered: count.ordered,
    orders: count.orders,
    wastedMl: count.wastedMl,
    wasteCost,
    cost:
      wasteCost +
      count.orders * costs.order +
      count.stockOuts * costs.waitingJob +
      count.kept * costs.keepingDay,
  }

  function futureOf({ days, warmUpDays }: SimulatedShop, next: () => number) {
    // Drawn before anything is decided: what a policy does must not shift what the next day asks.
    return Array.from({ length: days + warmUpDays }, () => {
      const isAsked = next() < demand.probability
      const size = demand.sizesMl[Math.floor(next() * demand.sizesMl.length)]!
      const late = supply.leadDeviationDays * normalQuantile(Math.min(Math.max(next(), 1e-9), 1 - 1e-9))
      return { askedMl: isAsked ? size : 0, leadDays: Math.max(1, Math.round(supply.leadDays + late)) }
    })
  }
}

/**
 * What the program proposes: levels from the demand seen so far, looked at on every review day.
 *
 * @param estimate Demand of a day from the mL of each day so far; null while there was none.
 */
export function computedPolicy(supply: SupplyTerms, estimate = dailyDemand): OrderPolicy {
  let levels = { reorderPointMl: 0, orderUpToMl: 0 }
  return ({ askedMl, onHandMl, onOrder }) => {
    const day = askedMl.length
    if (day % Math.max(1, Math.round(supply.reviewDays)) !== 0) return 0
    if (day % LEARNING_DAYS === 0) {
      const demand = estimate(askedMl)
      if (demand) levels = orderLevels(demand, supply)
    }
    const position = onHandMl + onOrder * supply.cartridgeMl
    if (position > levels.reorderPointMl) return 0
    return Math.max(0, Math.ceil((levels.orderUpToMl - position) / supply.cartridgeMl))
  }
}

/** Orders a box when the last sealed cartridge is gone and none is under way. */
export function emptyShelfPolicy(box: number): OrderPolicy {
  return ({ sealed, onOrder }) => (sealed === 0 && onOrder === 0 ? box : 0)
}

/** Orders up to a maximum when sealed and ordered cartridges fall to a minimum: the same for every product. */
export function fixedMinimumPolicy(minimum: number, maximum: number): OrderPolicy {
  return ({ sealed, onOrder }) => (sealed + onOrder <= minimum ? maximum - sealed - onOrder : 0)
}

function fresh({ cartridgeMl, freshDays }: SimulatedShop['supply'], day: number): Piece {
  return { leftMl: cartridgeMl, expiresDay: day + freshDays, isOpened: false }
}

function total(shelf: readonly Piece[]): number {
  return shelf.reduce((sum, { leftMl }) => sum + leftMl, 0)
}

function take(shelf: Piece[], needMl: number, day: number, openLifeDays: number): void {
  let need = needMl
  const inOrder = shelf.toSorted(
    (a, b) => a.expiresDay - b.expiresDay || Number(b.isOpened) - Number(a.isOpened),
  )
  for (const piece of inOrder) {
    if (need <= 0) return
    const taken = Math.min(need, piece.leftMl)
    piece.leftMl -= taken
    need -= taken
    if (!piece.isOpened) {
      piece.isOpened = true
      piece.expiresDay = Math.min(piece.expiresDay, day + openLifeDays)
    }
  }
}
