import { expect, it } from 'vitest'
import type { OrderFact } from '../problem/facts.ts'
import { priceOf } from './left-out.ts'
import { MONDAY_MS, order, shopFacts } from '../problem/testing.ts'

const DAY = 1440
const HORIZON = 14 * DAY
const price = (more: Partial<OrderFact>) =>
  priceOf(shopFacts({ orders: [order('car-1', more), order('car-2')] }), [{ orderId: 'car-1' }])
const inDays = (days: number) => MONDAY_MS + days * DAY * 60_000

it('a vehicle left out costs more than any plan that is merely late with it, by its priority', () => {
  const latest = 4 * (HORIZON - 2 * DAY)
  expect(price({ promisedAtMs: inDays(2), priority: 'high' })).toEqual({
    orders: 1,
    cost: latest + 4 * HORIZON,
  })
})

it.each([
  ['without a promise', null, HORIZON],
  ['promised beyond what is planned', inDays(40), HORIZON],
  ['that should have been done already', inDays(-3), 2 * HORIZON],
])('one %s costs too', (_, promisedAtMs, cost) => {
  expect(price({ promisedAtMs, priority: 'low' }).cost).toBe(cost)
})

it('nothing left out costs nothing', () => {
  expect(priceOf(shopFacts(), [])).toEqual({ orders: 0, cost: 0 })
})
