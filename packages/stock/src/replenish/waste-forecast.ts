import {
  bookedBetween,
  BOOKING_WINDOW_DAYS,
  meanPerDayMl,
  requireBooked,
  shareLeft,
  type BookedUse,
  type DailyDemand,
} from './daily-demand.ts'
import { addAmount, certain, ofOneDay, overDays, sum, type Distribution } from './distribution.ts'

/** A cartridge, or all cartridges of a lot on one shelf that die at the same instant. */
export interface Perishable {
  readonly id: string
  readonly volumeMl: number
  /** Whole days from now in which it can still be used; 0 or less: it is dead. */
  readonly usableDays: number
}

export interface Waste {
  readonly id: string
  /** Expected loss by expiry, mL. */
  readonly expectedMl: number
  /** Probability that any of it is lost. */
  readonly probability: number
}

/** Fine enough for a tenth of a joint, coarse enough for a thousand shops. */
const BINS = 240
/**
 * What each cartridge will lose by expiry when the soonest to die is always used first.
 *
 * Stacked in the order in which they die, use and expiry both move one position up the stack: at the expiry of k the
 * position is at least V(k), the volume of the first k, and what it still lacked is lost. So one distribution, of the
 * position, carried from expiry to expiry, gives the exact expectation on the grid, with no simulation.
 *
 * A cartridge that is opened for a small job and dies opened is not foreseen: the loss is then larger than said.
 *
 * @param demand Of one day; null when none is known: then only bookings use anything.
 * @returns In the order given.
 * @throws {RangeError} For a volume or amount below 0.
 */
export function wasteForecast(
  stock: readonly Perishable[],
  demand: DailyDemand | null,
  booked: readonly BookedUse[] = [],
): Waste[] {
  for (const { id, volumeMl } of stock)
    if (!(volumeMl >= 0)) throw new RangeError(`volumeMl of ${id} is ${volumeMl}: give mL, not negative`)
  requireBooked(booked)
  const stack = stock.toSorted((a, b) => a.usableDays - b.usableDays || (a.id < b.id ? -1 : 1))
  const totalMl = stack.reduce((total, { volumeMl }) => total + volumeMl, 0)
  const wastes = new Map<string, Waste>()
  if (totalMl === 0) return stock.map(({ id }) => ({ id, expectedMl: 0, probability: 0 }))

  const binMl = totalMl / (BINS - 1)
  const use = new UseUpTo(demand, booked, binMl)
  let position = certain(0, binMl, BINS)
  let day = 0
  let reachedMl = 0
  for (const { id, volumeMl, usableDays } of stack) {
    if (usableDays > day) {
      position = use.between(position, day, usableDays)
      day = usableDays
    }
    reachedMl += volumeMl
    const { expectedMl, probability, after } = expire(position, reachedMl)
    position = after
    wastes.set(id, { id, expectedMl: Math.min(expectedMl, volumeMl), probability })
  }
  return stock.map(({ id }) => wastes.get(id)!)
}

/** What the position lacks at `toMl` is lost. */
function expire({ binMl, mass }: Distribution, toMl: number) {
  const after = mass.slice()
  const to = toMl / binMl
  let expectedMl = 0
  let probability = 0
  for (let i = 0; i < mass.length && i < to - 1e-9; i += 1) {
    const p = mass[i]!
    if (p === 0) continue
    expectedMl += p * (toMl - i * binMl)
    probability += p
    after[i] = 0
  }
  addAmount(after, to, probability)
  return { expectedMl, probability, after: { binMl, mass: after } }
}

/** The demand from one day to another, with each stretch computed once. */
class UseUpTo {
  readonly #demand: DailyDemand | null
  readonly #booked: readonly BookedUse[]
  readonly #binMl: number
  readonly #stretches = new Map<string, Distribution>()

  constructor(demand: DailyDemand | null, booked: readonly BookedUse[], binMl: number) {
    this.#demand = demand
    this.#booked = booked
    this.#binMl = binMl
  }

  between(position: Distribution, from: number, to: number): Distribution {
    const bookedMl = bookedBetween(this.#booked, from, to)
    let at = bookedMl > 0 ? sum(position, certain(bookedMl, this.#binMl, BINS)) : position
    if (!this.#demand) return at
    for (let start = from; start < to;) {
      const end = Math.min(to, this.#endOfStretch(start))
      at = sum(at, this.#stretch(this.#demand, start, end))
      start = end
    }
    return at
  }

  #stretch(demand: DailyDemand, from: number, to: number): Distribution {
    const share = shareLeft(meanPerDayMl(demand), this.#booked, from)
    const key = `${share}:${to - from}`
    const known = this.#stretches.get(key)
    if (known) return known
    const left = { ...demand, probability: demand.probability * share }
    const made = overDays(ofOneDay(left, this.#binMl, BINS), to - from)
    this.#stretches.set(key, made)
    return made
  }

  /** A week with bookings is a stretch of its own, weeks without run together. */
  #endOfStretch(from: number): number {
    const week = Math.floor(from / BOOKING_WINDOW_DAYS)
    const booked = this.#booked.map(({ day }) => Math.floor(day / BOOKING_WINDOW_DAYS))
    if (booked.includes(week)) return (week + 1) * BOOKING_WINDOW_DAYS
    return Math.min(...booked.filter((each) => each > week)) * BOOKING_WINDOW_DAYS
  }
}
