import { bookedBetween, shareLeft } from './daily-demand.ts'
import type { ExpectedUse, Lane, Transfer, TransferableLot, TransferProblem } from './transfer-problem.ts'

export type Columns = Readonly<Record<string, object>>

/** So that no row is empty, which the text form does not allow. */
const NOTHING = '0 w0'

/** A lot may go this way: `variable` counts its cartridges. */
interface Sending {
  readonly variable: string
  readonly lot: TransferableLot
  readonly lane: Lane
  readonly trip: string
}

/** A stretch of days in which nothing dies and nothing arrives, and what is used in it. */
interface Stretch {
  readonly from: number
  readonly to: number
  readonly useMl: number
  readonly terms: string[]
}

/**
 * The program that `planTransfers` describes, in CPLEX LP text. Variables: `n` cartridges sent, `t` a trip made, `u` mL of a
 * lot used in a stretch, `w` mL lost.
 */
export class TransferModel {
  readonly #lots: readonly TransferableLot[]
  readonly #sendings: readonly Sending[]
  readonly #trips: ReadonlyMap<string, Lane>
  readonly #stretches: ReadonlyMap<string, readonly Stretch[]>
  #uses = 0

  /** @param losing Lots of these groups (`groupOf`) may be sent: where nothing is lost, sending saves nothing. */
  constructor({ lots, use, lanes }: TransferProblem, losing: ReadonlySet<string>) {
    this.#lots = lots.filter(({ cartridges }) => cartridges > 0)
    const users = new Set(use.map(groupOf))
    const trips = new Map<string, Lane>()
    const sendings: Sending[] = []
    lanes.forEach((lane, i) => {
      const trip = `t${i}`
      for (const lot of this.#lots) {
        const goes =
          lot.maySend &&
          lot.shopId === lane.fromShopId &&
          lot.usableDays > lane.days &&
          losing.has(groupOf(lot))
        if (!goes || !users.has(groupOf({ shopId: lane.toShopId, productId: lot.productId }))) continue
        trips.set(trip, lane)
        sendings.push({ variable: `n${sendings.length}`, lot, lane, trip })
      }
    })
    this.#sendings = sendings
    this.#trips = trips
    this.#stretches = new Map(use.map((each) => [groupOf(each), this.#stretchesOf(each)]))
  }

  program(): string {
    this.#uses = 0
    for (const stretches of this.#stretches.values()) for (const { terms } of stretches) terms.length = 0
    const costs: string[] = []
    const rows: string[] = []
    this.#lots.forEach((lot, i) => {
      const totalMl = lot.cartridges * lot.volumeMl
      const sent = this.#sendings.filter((sending) => sending.lot === lot)
      const here = this.#usesIn(lot, lot.shopId, 0)
      const there = sent.flatMap(({ variable, lane }) => {
        const uses = this.#usesIn(lot, lane.toShopId, lane.days)
        rows.push(`${[NOTHING, ...uses].join(' + ')} - ${lot.volumeMl} ${variable} <= 0`)
        return uses
      })
      const away = sent.map(({ variable }) => `${lot.volumeMl} ${variable}`)
      rows.push(`${[NOTHING, ...here, ...away].join(' + ')} <= ${totalMl}`)
      rows.push(`${[`w${i}`, ...here, ...there].join(' + ')} = ${totalMl}`)
      costs.push(`${lot.valueEach / lot.volumeMl} w${i}`)
      for (const { variable, lane, trip } of sent) {
        costs.push(`${lane.costEach} ${variable}`)
        rows.push(`${variable} - ${lot.cartridges} ${trip} <= 0`)
      }
    })
    for (const [trip, { tripCost }] of this.#trips) costs.push(`${tripCost} ${trip}`)
    for (const stretches of this.#stretches.values())
      for (const { terms, useMl } of stretches)
        if (terms.length > 0) rows.push(`${terms.join(' + ')} <= ${useMl}`)
    return [
      'Minimize',
      ` cost: ${costs.join('\n + ') || NOTHING}`,
      'Subject To',
      ...rows.map((row, i) => ` r${i}: ${row}`),
      ...section(
        'General',
        this.#sendings.map(({ variable }) => variable),
      ),
      ...section('Binary', [...this.#trips.keys()]),
      'End',
    ].join('\n')
  }

  /** The groups that lose something in this solution. */
  losingGroups(columns: Columns): Set<string> {
    return new Set(this.#lots.filter((_, i) => valueOf(columns, `w${i}`) > 1e-6).map(groupOf))
  }

  transfersOf(columns: Columns): Transfer[] {
    return this.#sendings
      .map(({ variable, lot, lane }) => ({
        lotId: lot.id,
        fromShopId: lane.fromShopId,
        toShopId: lane.toShopId,
        cartridges: Math.round(valueOf(columns, variable)),
      }))
      .filter(({ cartridges }) => cartridges > 0)
  }

  costOf(transfers: readonly Transfer[]): number {
    let cost = 0
    for (const { fromShopId, toShopId, tripCost, costEach } of this.#trips.values()) {
      const carried = transfers.filter(
        (transfer) => transfer.fromShopId === fromShopId && transfer.toShopId === toShopId,
      )
      if (carried.length > 0)
        cost += tripCost + carried.reduce((total, { cartridges }) => total + cartridges * costEach, 0)
    }
    return cost
  }

  /** A variable for each stretch in which the lot is alive and there; each is entered among what is used in it. */
  #usesIn(lot: TransferableLot, shopId: string, fromDay: number): string[] {
    const stretches = this.#stretches.get(groupOf({ shopId, productId: lot.productId })) ?? []
    return stretches
      .filter(({ from, to }) => from >= fromDay && to <= lot.usableDays)
      .map(({ terms }) => {
        const use = `u${this.#uses++}`
        terms.push(use)
        return use
      })
  }

  #stretchesOf(use: ExpectedUse): Stretch[] {
    const arriving = this.#sendings.filter(
      ({ lot, lane }) => lane.toShopId === use.shopId && lot.productId === use.productId,
    )
    const own = this.#lots.filter((lot) => groupOf(lot) === groupOf(use))
    const days = [
      ...own.map(({ usableDays }) => usableDays),
      ...arriving.flatMap(({ lot, lane }) => [lot.usableDays, lane.days]),
    ].filter((day) => day > 0)
    const ends = [...new Set(days)].toSorted((a, b) => a - b)
    return ends.map((to, i) => {
      const from = ends[i - 1] ?? 0
      return { from, to, useMl: expectedUseMl(use, from, to), terms: [] }
    })
  }
}

/** What is expected to be used from one day to before another, mL. */
function expectedUseMl({ perDayMl, booked }: ExpectedUse, from: number, to: number): number {
  let ml = bookedBetween(booked, from, to)
  for (let day = from; day < to; day += 1) ml += perDayMl * shareLeft(perDayMl, booked, day)
  return ml
}

function valueOf(columns: Columns, variable: string): number {
  const column = columns[variable]
  return column && 'Primal' in column && typeof column.Primal === 'number' ? column.Primal : 0
}

function groupOf({ shopId, productId }: { readonly shopId: string; readonly productId: string }): string {
  return `${shopId} ${productId}`
}

/** The text form wants short lines and knows no empty section. */
function section(title: string, names: readonly string[]): string[] {
  return names.length === 0 ? [] : [title, ...names.map((name) => ` ${name}`)]
}
