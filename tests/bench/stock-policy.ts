/**
 * What the ordering policy is worth: the program's levels beside the same levels by Croston's rate, beside 'order when the
 * shelf looks empty' and one fixed minimum for everything, on the same seeded days. Three products of a shop: one used daily, one now and then, one seldom.
 * Invented figures; money in cents.
 *
 * npm run bench -- stock-policy [--runs 200] [--days 365]
 */
import { parseArgs } from 'node:util'
import {
  computedPolicy,
  croston,
  dailyDemand,
  emptyShelfPolicy,
  fixedMinimumPolicy,
  simulatePolicy,
  type DailyDemand,
  type OrderPolicy,
  type PolicyResult,
  type SimulatedShop,
} from '@clampclock/stock'
import { Random } from '../../packages/planner/src/search/random.ts'

const { values } = parseArgs({
  options: { runs: { type: 'string', default: '200' }, days: { type: 'string', default: '365' } },
})
const runs = Number(values.runs)

const base: Omit<SimulatedShop, 'demand'> = {
  supply: {
    leadDays: 5,
    leadDeviationDays: 2,
    reviewDays: 1,
    serviceLevel: 0.97,
    cartridgeMl: 200,
    freshDays: 270,
    openLifeDays: 21,
    costs: { cartridge: 4200, order: 1200, waitingJob: 15_000, keepingDay: 2 },
  },
  cartridges: 4,
  days: Number(values.days),
  warmUpDays: 180,
}
const products: Record<string, SimulatedShop> = {
  daily: { ...base, demand: { probability: 0.7, sizesMl: [45, 60, 80, 120, 150] } },
  nowAndThen: { ...base, demand: { probability: 0.15, sizesMl: [40, 60, 90] } },
  seldom: { ...base, demand: { probability: 0.02, sizesMl: [50, 80] }, cartridges: 2 },
}
/** Croston's rate less the bias of Syntetos & Boylan, with the sizes that occurred. */
function crostonDemand(usedMl: readonly number[]): DailyDemand | null {
  const rate = croston(usedMl)
  const daily = dailyDemand(usedMl)
  if (!rate || !daily) return null
  const { sizesMl } = daily
  const meanMl = sizesMl.reduce((sum, ml) => sum + ml, 0) / sizesMl.length
  return { sizesMl, probability: Math.min(1, rate.perPeriod / meanMl) }
}
const policies: Record<string, (shop: SimulatedShop) => OrderPolicy> = {
  computed: ({ supply }) => computedPolicy(supply),
  byCroston: ({ supply }) => computedPolicy(supply, crostonDemand),
  emptyShelf: () => emptyShelfPolicy(6),
  fixedMinimum: () => fixedMinimumPolicy(3, 6),
}
const FIGURES = ['fillRate', 'stockOuts', 'wastedMl', 'cost'] as const

const table: Record<string, Record<string, Record<(typeof FIGURES)[number], number>>> = {}
for (const [product, shop] of Object.entries(products)) {
  table[product] = {}
  for (const [name, make] of Object.entries(policies)) {
    const results = Array.from({ length: runs }, (_, seed) => {
      const random = new Random(seed + 1)
      return simulatePolicy(shop, make(shop), () => random.unit())
    })
    const mean = (figure: keyof PolicyResult) =>
      Math.round((results.reduce((sum, each) => sum + each[figure], 0) / runs) * 1e4) / 1e4
    const row = Object.fromEntries(FIGURES.map((figure) => [figure, mean(figure)]))
    table[product][name] = row as Record<(typeof FIGURES)[number], number>
    console.log(product.padEnd(12), name.padEnd(14), FIGURES.map((f) => `${f} ${row[f]}`).join('  '))
  }
}
console.log(JSON.stringify({ bench: 'stock-policy', runs, days: base.days, table }))
