import { describe, expect, it } from 'vitest'
import type { DailyDemand } from './daily-demand.ts'
import { orderLevels, type SupplyTerms } from './order-levels.ts'

const terms: SupplyTerms = {
  leadDays: 1000,
  leadDeviationDays: 0,
  reviewDays: 0,
  serviceLevel: 0.9,
  cartridgeMl: 1,
  freshDays: null,
  openLifeDays: 1000,
  costs: { cartridge: 0, order: 0, waitingJob: 0, keepingDay: 1 },
}
/** One unit on few of a thousand days: as good as Poisson. */
const rare = (mean: number): DailyDemand => ({ probability: mean / 1000, sizesMl: [1] })

describe('orderLevels', () => {
  it.each([
    [0.5, [1, 2, 3]],
    [1, [2, 3, 4]],
    [2, [4, 5, 6]],
    [3, [5, 6, 8]],
    [5, [8, 9, 11]],
  ])(
    'Poisson demand of mean %d: least stock at 0.90, 0.95, 0.99 is %o (Poisson distribution, computed)',
    (mean, levels) => {
      const found = [0.9, 0.95, 0.99].map((serviceLevel) =>
        Math.round(orderLevels(rare(mean), { ...terms, serviceLevel }).reorderPointMl + 1e-6),
      )
      expect(found).toEqual(levels)
    },
  )

  const steady: DailyDemand = { probability: 0.4, sizesMl: [40, 60, 120] }
  const usual: SupplyTerms = {
    ...terms,
    leadDays: 5,
    leadDeviationDays: 2,
    reviewDays: 7,
    cartridgeMl: 200,
    openLifeDays: 30,
    costs: { cartridge: 4000, order: 1000, waitingJob: 0, keepingDay: 2 },
  }

  it('asks for more when the lead time varies, is longer, service is to be better, or a waiting job is dear', () => {
    const { reorderPointMl } = orderLevels(steady, usual)
    for (const harder of [
      { leadDeviationDays: 6 },
      { leadDays: 15 },
      { serviceLevel: 0.995 },
      { costs: { ...usual.costs, waitingJob: 50_000 } },
    ])
      expect(orderLevels(steady, { ...usual, ...harder }).reorderPointMl).toBeGreaterThan(reorderPointMl)
  })

  it('orders the economic quantity: 304.05 (Snyder & Shen, example 3.1), here in whole units', () => {
    // 1300 a year, 8 an order, 0.225 to keep one for a year.
    const demand: DailyDemand = { probability: 1, sizesMl: [1300 / 365] }
    const levels = orderLevels(demand, {
      ...terms,
      leadDays: 0,
      cartridgeMl: 10,
      costs: { cartridge: 0, order: 8, waitingJob: 0, keepingDay: (0.225 * 10) / 365 },
    })
    expect(levels.orderUpToMl - levels.reorderPointMl).toBeCloseTo(300, -1)
  })

  it('keeps whole cartridges, and no more than is used before a fresh one dies', () => {
    const { orderUpToMl, reorderPointMl } = orderLevels(steady, usual)
    expect(orderUpToMl % 200).toBe(0)
    expect(reorderPointMl).toBeLessThan(orderUpToMl)
    const short = orderLevels(steady, { ...usual, freshDays: 10 })
    expect(short).toMatchObject({ isCutByShelfLife: true, orderUpToMl: 200 })
  })

  it('counts what dies opened: of a cartridge opened for one small job little is used', () => {
    const seldom: DailyDemand = { probability: 0.01, sizesMl: [50] }
    expect(orderLevels(seldom, { ...usual, openLifeDays: 1 }).consumptionPerDayMl).toBeCloseTo(1.98, 2)
    expect(orderLevels(seldom, { ...usual, openLifeDays: 1000 }).consumptionPerDayMl).toBeCloseTo(0.5, 9)
  })

  it('takes the normal formula for what is used fast, and the two agree where they meet', () => {
    const fast: DailyDemand = { probability: 1, sizesMl: [380, 400, 420] }
    const slow = orderLevels(fast, { ...usual, leadDays: 4.99, leadDeviationDays: 0 })
    const quick = orderLevels(fast, { ...usual, leadDays: 5.01, leadDeviationDays: 0 })
    expect(Math.abs(slow.reorderPointMl - quick.reorderPointMl)).toBeLessThanOrEqual(100)
  })

  it.each([
    ['leadDays', { leadDays: -1 }],
    ['serviceLevel', { serviceLevel: 1 }],
    ['cartridgeMl', { cartridgeMl: 0 }],
    ['costs.order', { costs: { ...usual.costs, order: -1 } }],
  ])('refuses a wrong %s', (name, part) => {
    expect(() => orderLevels(steady, { ...usual, ...part })).toThrow(name)
  })
})
