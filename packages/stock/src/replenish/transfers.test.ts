import fc from 'fast-check'
import loadHighs from 'highs'
import { describe, expect, it } from 'vitest'
import type { Lane, Transfer, TransferProblem } from './transfer-problem.ts'
import { planTransfers } from './transfers.ts'

const highs = await loadHighs()

const lane = (fromShopId: string, toShopId: string, tripCost: number, days = 1): Lane => ({
  fromShopId,
  toShopId,
  days,
  tripCost,
  costEach: 50,
})
const lot = (id: string, shopId: string, cartridges: number, usableDays: number) => ({
  id,
  shopId,
  productId: 'p',
  cartridges,
  volumeMl: 200,
  usableDays,
  valueEach: 4000,
  maySend: true,
})
const use = (shopId: string, perDayMl: number) => ({ shopId, productId: 'p', perDayMl, booked: [] })

describe('planTransfers', () => {
  it('sends what would die to where it is used, as much as is used there in time', async () => {
    const plan = await planTransfers(
      {
        lots: [lot('old', 'a', 5, 11)],
        use: [use('a', 20), use('b', 60)],
        lanes: [lane('a', 'b', 1500)],
      },
      highs,
    )
    // A uses 220 mL of 1000, B 600 mL in the ten days after a day's way: three cartridges.
    expect(plan.transfers).toEqual([{ lotId: 'old', fromShopId: 'a', toShopId: 'b', cartridges: 3 }])
    expect(plan).toMatchObject({ isOptimal: true, transferCost: 1650 })
    expect(plan.wasteWithout).toBeCloseTo((780 / 200) * 4000, 6)
    expect(plan.wasteWith).toBeCloseTo((180 / 200) * 4000, 6)
  })

  it('sends nothing for less than the trip costs, nor what would die on the way', async () => {
    const cheap = { lots: [lot('old', 'a', 1, 11)], use: [use('b', 60)], lanes: [lane('a', 'b', 4000)] }
    expect((await planTransfers(cheap, highs)).transfers).toEqual([])
    const slow = { ...cheap, lanes: [lane('a', 'b', 0, 11)] }
    expect((await planTransfers(slow, highs)).transfers).toEqual([])
  })

  it('lets one trip carry several lots', async () => {
    const lots = [lot('x', 'a', 1, 20), lot('y', 'a', 1, 25)]
    const plan = await planTransfers({ lots, use: [use('b', 40)], lanes: [lane('a', 'b', 5000)] }, highs)
    expect(plan.transfers).toHaveLength(2)
    expect(plan.transferCost).toBe(5100)
  })

  it('counts bookings as part of the expected use of their week', async () => {
    const booked = [{ day: 3, amountMl: 400 }]
    const only = { ...use('b', 0), booked }
    const lots = [lot('old', 'a', 4, 20)]
    const plan = await planTransfers({ lots, use: [only], lanes: [lane('a', 'b', 100)] }, highs)
    expect(plan.transfers[0]?.cartridges).toBe(2)
  })

  it.each([
    ['lots[0].volumeMl', { lots: [{ ...lot('x', 'a', 1, 5), volumeMl: 0 }] }],
    ['use[0].perDayMl', { use: [use('a', -1)] }],
    ['lanes has a to b twice', { lanes: [lane('a', 'b', 1), lane('a', 'b', 2)] }],
  ])('refuses %s', async (named, part) => {
    await expect(planTransfers({ lots: [], use: [], lanes: [], ...part }, highs)).rejects.toThrow(named)
  })

  it('is as good as trying everything, on 200 random networks', async () => {
    const shops = ['a', 'b', 'c']
    const shop = fc.constantFrom(...shops)
    const network = fc.record({
      lots: fc
        .array(fc.tuple(shop, fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 25 })), {
          minLength: 1,
          maxLength: 4,
        })
        .map((rows) => rows.map(([at, n, days], i) => lot(`lot-${i}`, at, n, days))),
      use: fc
        .array(fc.integer({ min: 0, max: 60 }), { minLength: 3, maxLength: 3 })
        .map((rates) => rates.map((rate, i) => use(shops[i]!, rate))),
      lanes: fc
        .uniqueArray(
          fc
            .tuple(shop, shop, fc.integer({ min: 0, max: 6000 }), fc.integer({ min: 0, max: 5 }))
            .filter(([from, to]) => from !== to),
          { maxLength: 4, selector: ([from, to]) => `${from}${to}` },
        )
        .map((rows) => rows.map(([from, to, cost, days]) => lane(from, to, cost, days))),
    })
    let paying = 0
    await fc.assert(
      fc.asyncProperty(network, async (problem) => {
        const plan = await planTransfers(problem, highs)
        expect(plan.isOptimal).toBe(true)
        const best = cheapest(problem)
        expect(plan.wasteWith + plan.transferCost).toBeCloseTo(best, 4)
        expect(costOf(problem, plan.transfers)).toBeCloseTo(best, 4)
        if (plan.transfers.length > 0) paying += 1
      }),
      { numRuns: 200, seed: 20_261_125 },
    )
    expect(paying).toBeGreaterThan(30)
  })
})

/** The oracle: every number of cartridges of each lot on each lane, judged by using the soonest to die first, day by day. */
function cheapest(problem: TransferProblem): number {
  let best = Infinity
  const ways = problem.lots.flatMap((each) =>
    problem.lanes
      .filter(({ fromShopId }) => fromShopId === each.shopId)
      .map(({ fromShopId, toShopId }) => ({ lotId: each.id, fromShopId, toShopId, most: each.cartridges })),
  )
  const visit = (i: number, chosen: readonly Transfer[]): void => {
    const way = ways[i]
    if (!way) {
      best = Math.min(best, costOf(problem, chosen))
      return
    }
    const gone = chosen.filter(({ lotId }) => lotId === way.lotId).reduce((n, each) => n + each.cartridges, 0)
    for (let cartridges = 0; cartridges <= way.most - gone; cartridges += 1)
      visit(i + 1, cartridges === 0 ? chosen : [...chosen, { ...way, cartridges }])
  }
  visit(0, [])
  return best
}

function costOf({ lots, lanes, use: uses }: TransferProblem, transfers: readonly Transfer[]): number {
  let cost = 0
  for (const way of lanes) {
    const carried = transfers.filter((t) => t.fromShopId === way.fromShopId && t.toShopId === way.toShopId)
    if (carried.length > 0) cost += way.tripCost
    for (const { cartridges } of carried) cost += cartridges * way.costEach
  }
  for (const { shopId, perDayMl } of uses) {
    const shelf = lots
      .flatMap((each) => {
        const sent = transfers.filter(({ lotId }) => lotId === each.id)
        const here = sent
          .filter(({ toShopId }) => toShopId === shopId)
          .map(({ cartridges, fromShopId }) => {
            const way = lanes.find((l) => l.fromShopId === fromShopId && l.toShopId === shopId)!
            return { ...each, left: cartridges * each.volumeMl, from: way.days }
          })
        const stayed = each.cartridges - sent.reduce((n, { cartridges }) => n + cartridges, 0)
        return each.shopId === shopId ? [...here, { ...each, left: stayed * each.volumeMl, from: 0 }] : here
      })
      .toSorted((x, y) => x.usableDays - y.usableDays)
    for (let day = 0; day < 26; day += 1) {
      let need = perDayMl
      for (const piece of shelf) {
        if (piece.from > day || piece.usableDays <= day) continue
        const taken = Math.min(need, piece.left)
        piece.left -= taken
        need -= taken
      }
    }
    for (const { left, volumeMl, valueEach } of shelf) cost += (left / volumeMl) * valueEach
  }
  return cost
}
