import { describe, expect, it } from 'vitest'
import {
  computedPolicy,
  emptyShelfPolicy,
  fixedMinimumPolicy,
  simulatePolicy,
  type SimulatedShop,
} from './simulate.ts'

const shop: SimulatedShop = {
  demand: { probability: 1, sizesMl: [50] },
  supply: {
    leadDays: 4,
    leadDeviationDays: 0,
    reviewDays: 1,
    serviceLevel: 0.95,
    cartridgeMl: 200,
    freshDays: 300,
    openLifeDays: 30,
    costs: { cartridge: 4000, order: 1000, waitingJob: 20_000, keepingDay: 1 },
  },
  cartridges: 4,
  days: 400,
  warmUpDays: 0,
}
const half = () => 0.5

describe('simulatePolicy', () => {
  it('lives by hand-counted numbers: a cartridge is four days, an order takes four', () => {
    const never = simulatePolicy({ ...shop, days: 20 }, () => 0, half)
    // 800 mL last 16 days; then four jobs wait.
    expect(never).toMatchObject({ stockOuts: 4, orders: 0, wastedMl: 0, fillRate: 0.8 })
    const weekly = simulatePolicy({ ...shop, days: 400 }, fixedMinimumPolicy(2, 4), half)
    expect(weekly.stockOuts).toBe(0)
    expect(weekly.fillRate).toBe(1)
  })

  it('waits for the box when the shelf looks empty', () => {
    const result = simulatePolicy({ ...shop, days: 24 }, emptyShelfPolicy(4), half)
    // The last sealed one is opened on day 12; ordered on 13, there on 17; the opened one lasts to day 15.
    expect(result).toMatchObject({ orders: 1, stockOuts: 1 })
  })

  it('throws away what its open life ends, and what its shelf life ends', () => {
    const seldom = { ...shop, demand: { probability: 0, sizesMl: [50] }, days: 400 }
    expect(simulatePolicy(seldom, () => 0, half).wastedMl).toBe(800)
    const once = { ...shop, supply: { ...shop.supply, openLifeDays: 1 }, cartridges: 1, days: 20 }
    expect(simulatePolicy(once, () => 0, half)).toMatchObject({ wastedMl: 150, stockOuts: 19 })
  })

  it('gives two policies the same days', () => {
    const chancy = { ...shop, demand: { probability: 0.3, sizesMl: [40, 90] } }
    const random = () => {
      let state = 11
      return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
    }
    const plenty = { ...chancy, cartridges: 1000, days: 250 }
    const a = simulatePolicy(plenty, () => 0, random())
    const b = simulatePolicy(plenty, fixedMinimumPolicy(2000, 2001), random())
    expect(a.fillRate).toBe(1)
    expect(b.fillRate).toBe(1)
    const learnt = simulatePolicy({ ...chancy, warmUpDays: 120 }, computedPolicy(shop.supply), random())
    expect(learnt.fillRate).toBeGreaterThan(0.95)
  })
})
