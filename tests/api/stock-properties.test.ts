import fc from 'fast-check'
import { DateTime } from 'luxon'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { application, makeJoint, makeShop, PRODUCT, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

/** Each takes seconds: `PROPERTY_RUNS=500 npm run test:long` looks for what hides longer. */
const EFFORTS = [
  { runs: 2, tags: [] },
  { runs: Number(process.env['PROPERTY_RUNS'] ?? 16), tags: ['long'] },
]

/** What somebody does. Numbers pick among what there is, whatever its state: much of it must be refused. */
const received = {
  does: fc.constant('receive' as const),
  lot: fc.nat(3),
  days: fc.integer({ min: 0, max: 90 }),
  pieces: fc.integer({ min: 1, max: 3 }),
}
const act = fc.oneof(
  { weight: 2, arbitrary: fc.record(received) },
  {
    weight: 2,
    arbitrary: fc.record({ does: fc.constantFrom('open' as const, 'discard' as const), piece: fc.nat() }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      does: fc.constantFrom('correct' as const, 'apply' as const),
      piece: fc.nat(),
      ml: fc.integer({ min: 1, max: 220 }),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      does: fc.constantFrom('move' as const, 'send' as const),
      piece: fc.nat(),
      other: fc.nat(),
      toShelf: fc.boolean(),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      does: fc.constantFrom('arrive' as const, 'lose' as const),
      shipment: fc.nat(),
      piece: fc.option(fc.nat()),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ does: fc.constant('count' as const), seen: fc.array(fc.nat(), { maxLength: 3 }) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ does: fc.constantFrom('hold' as const, 'endHold' as const), lot: fc.nat(3) }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      does: fc.constant('reserve' as const),
      hours: fc.integer({ min: 1, max: 1200 }),
      lengthMm: fc.integer({ min: 500, max: 9000 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ does: fc.constant('wait' as const), hours: fc.integer({ min: 1, max: 400 }) }),
  },
)
const day = fc.tuple(fc.record(received), fc.array(act, { minLength: 12, maxLength: 30, size: 'max' }))
type Act = typeof act extends fc.Arbitrary<infer T> ? T : never

/** Two shops and what they have been told to do with their stock; knows the rules of neither ledger nor expiry. */
class World {
  readonly #test: TestApp
  readonly #here: Shop
  readonly #there: Shop
  readonly #name: string
  readonly pieces: string[] = []
  readonly #lots = new Map<string, string>()
  readonly #shipments: { id: string; pieces: string[] }[] = []
  #count = 0

  constructor(test: TestApp, here: Shop, there: Shop, name: string) {
    this.#test = test
    this.#here = here
    this.#there = there
    this.#name = name
  }

  async do(action: Act): Promise<void> {
    const { clock } = this.#test
    const piece = 'piece' in action ? this.#pick(this.pieces, action.piece ?? 0) : undefined
    switch (action.does) {
      case 'receive':
        return this.#receive(action)
      case 'open':
        return void (piece && (await this.#post(`/v1/cartridges/${piece}/opening`)))
      case 'discard':
        return void (
          piece && (await this.#post(`/v1/cartridges/${piece}/discard`, { reason: 'Thrown away' }))
        )
      case 'correct':
        return void (
          piece &&
          (await this.#post(`/v1/cartridges/${piece}/correction`, {
            remainingMl: action.ml,
            reason: 'Weighed',
          }))
        )
      case 'apply':
        return void (piece && (await this.#apply(piece, action.ml)))
      case 'move':
      case 'send':
        return this.#carry(action)
      case 'arrive':
      case 'lose': {
        const shipment = this.#pick(this.#shipments, action.shipment)
        if (!shipment) return
        const chosen = action.piece === null ? shipment.pieces : [this.#pick(shipment.pieces, action.piece)!]
        const way = action.does === 'arrive' ? 'arrival' : 'loss'
        await this.#post(`/v1/shipments/${shipment.id}/${way}`, {
          cartridgeIds: chosen,
          reason: 'Looked for it',
        })
        return
      }
      case 'count':
        return this.#countShelf(action.seen)
      case 'hold':
      case 'endHold': {
        const lot = this.#lots.get(`${action.lot}`)
        const way = action.does === 'hold' ? 'hold' : 'holdEnd'
        if (lot) await this.#post(`/v1/lots/${lot}/${way}`, { reason: 'Says the maker' })
        return
      }
      case 'reserve':
        return this.#reserve(action)
      case 'wait':
        clock.now = new Date(clock.now.getTime() + action.hours * 3_600_000)
    }
  }

  async #receive({ lot, days, pieces }: { lot: number; days: number; pieces: number }): Promise<void> {
    const day = DateTime.fromJSDate(this.#test.clock.now).plus({ days }).toISODate()
    const made = await this.#post(`/v1/shops/${this.#here.shopId}/receipts`, {
      productId: this.#here.productId,
      lotNumber: `${this.#name}-${lot}`,
      printedExpiry: { date: day },
      cartridges: pieces,
      locationId: this.#here.locationId,
    })
    if (!made) return
    const { lot: known, cartridges } = made as { lot: { id: string }; cartridges: { id: string }[] }
    this.#lots.set(`${lot}`, known.id)
    this.pieces.push(...cartridges.map(({ id }) => id))
  }

  async #apply(piece: string, amountMl: number): Promise<void> {
    // A short joint, which takes 10 mL with what stays in the nozzle: no amount is questioned.
    const { jointId } = await makeJoint(this.#test.owner, this.#here, { lengthMm: 100 })
    const alive = (await this.alive([piece], this.#test.clock.now.getTime())).has(piece)
    const made = await this.#post(
      `/v1/joints/${jointId}/bonds`,
      application(this.#here, piece, { bayId: null, amountMl: Math.max(10, amountMl) }),
    )
    if (made) expect(alive, `applied from ${piece}`).toBe(true)
  }

  async #carry(action: Extract<Act, { toShelf: boolean }>): Promise<void> {
    const chosen = new Set([this.#pick(this.pieces, action.piece), this.#pick(this.pieces, action.other)])
    chosen.delete(undefined)
    const cartridgeIds = [...chosen] as string[]
    if (cartridgeIds.length === 0) return
    const { shopId, locationId } = this.#here
    if (action.does === 'move') {
      await this.#post(`/v1/shops/${shopId}/moves`, {
        cartridgeIds,
        locationId: action.toShelf ? locationId : null,
      })
      return
    }
    const made = await this.#post(`/v1/shops/${shopId}/shipments`, {
      toShopId: this.#there.shopId,
      cartridgeIds,
      reason: 'They run out',
    })
    if (made) this.#shipments.push({ id: (made as { id: string }).id, pieces: cartridgeIds })
  }

  async #countShelf(seen: readonly number[]): Promise<void> {
    const { shopId, locationId } = this.#count++ % 2 === 0 ? this.#here : this.#there
    const count = (await this.#post(`/v1/shops/${shopId}/stockCounts`, { locationId })) as { id: string }
    for (const each of seen) {
      const cartridgeId = this.#pick(this.pieces, each)
      if (cartridgeId) await this.#post(`/v1/stockCounts/${count.id}/entries`, { cartridgeId })
    }
    await this.#post(`/v1/stockCounts/${count.id}/finish`)
    await this.#post(`/v1/stockCounts/${count.id}/settlement`, { reason: 'Counted' })
  }

  async #reserve({ hours, lengthMm }: { hours: number; lengthMm: number }): Promise<void> {
    const { jointId } = await makeJoint(this.#test.owner, this.#here, { lengthMm })
    const neededAt = new Date(this.#test.clock.now.getTime() + hours * 3_600_000).toISOString()
    const before = new Set((await this.keptButDead()).map(({ id }) => id))
    await this.#post(`/v1/joints/${jointId}/reservation`, { neededAt })
    const after = await this.keptButDead()
    expect(after.filter(({ id }) => !before.has(id))).toEqual([])
  }

  /** Done, or refused with a reason; nothing else. */
  async #post(path: string, body: object = {}): Promise<unknown> {
    const response = await this.#test.owner.post(path, body)
    const told = `POST ${path} ${JSON.stringify(body)}: ${JSON.stringify(response.body)}`
    expect(response.status, told).toBeOneOf([201, 404, 409, 422])
    if (response.status === 201) return response.body
    expect(response.body.detail, told).toBeTruthy()
    return undefined
  }

  #pick<T>(list: readonly T[], n: number): T | undefined {
    return list.length === 0 ? undefined : list[n % list.length]
  }

  /** Which of these count at an instant, by the printed day, the open life and the hold; opened by `openedBy` at the latest. */
  async alive(
    ids: readonly string[],
    atMs: number,
    openedBy = new Map<string, number>(),
  ): Promise<Set<string>> {
    const rows = await this.#test.database.prisma.cartridge.findMany({
      where: { id: { in: [...ids] } },
      include: { lot: true, shop: true },
    })
    return new Set(
      rows
        .filter(({ id, state, openedAt, lot, shop }) => {
          const printed = DateTime.fromISO(lot.printedExpiry.toISOString().slice(0, 10), {
            zone: shop.timeZone,
          })
          const opened = openedAt?.getTime() ?? openedBy.get(id) ?? atMs
          const openEnd = DateTime.fromMillis(opened, { zone: shop.timeZone }).plus({
            days: PRODUCT.openLifeDays,
          })
          return (
            (state === 'sealed' || state === 'opened') &&
            lot.holdReason === null &&
            atMs < printed.plus({ days: 1 }).toMillis() &&
            atMs < openEnd.toMillis()
          )
        })
        .map(({ id }) => id),
    )
  }

  /** What is kept for joints and will not do: dead on its day once the first of them has opened it, or promised twice. */
  async keptButDead(): Promise<{ id: string }[]> {
    const open = await this.#test.database.prisma.reservation.findMany({
      where: { endedAt: null, shopId: { in: [this.#here.shopId, this.#there.shopId] } },
      include: { cartridge: true },
      orderBy: [{ neededAt: 'asc' }, { id: 'asc' }],
    })
    const first = new Map<string, number>()
    for (const each of open.toReversed()) first.set(each.cartridgeId, each.neededAt.getTime())
    const taken = new Map<string, number>()
    const bad: { id: string }[] = []
    for (const { id, cartridgeId, cartridge, neededAt, amountUl, shopId } of open) {
      const sum = (taken.get(cartridgeId) ?? 0) + amountUl
      taken.set(cartridgeId, sum)
      const alive = await this.alive([cartridgeId], neededAt.getTime(), first)
      if (!alive.has(cartridgeId) || sum > cartridge.remainingUl || cartridge.shopId !== shopId)
        bad.push({ id })
    }
    return bad
  }
}

describe('whatever is done with the stock, in whatever order', () => {
  let test: TestApp
  let run = 0
  beforeAll(async () => {
    test = await startTestApp('embedded')
    // Some wait for longer than a sign-in lasts, and the next run begins at noon again.
    await test.database.prisma.signInSession.updateMany({ data: { expiresAt: new Date('2041-01-01') } })
  })
  afterAll(() => test.end())

  for (const { runs, tags } of EFFORTS)
    it(
      `adds up, tells who, when and why, uses nothing that is dead, and keeps only what will do, in ${runs} runs`,
      { tags, timeout: 60_000 + runs * 10_000 },
      async () => {
        await fc.assert(
          fc.asyncProperty(day, async ([first, acts]) => {
            test.clock.now = NOON
            const [here, there] = [
              await makeShop(test.owner),
              await makeShop(test.owner, 'America/Los_Angeles'),
            ]
            const world = new World(test, here, there, `Run ${(run += 1)}`)
            for (const each of [first, ...acts]) {
              await world.do(each)
              expect(await verifyLedger(test.database), JSON.stringify(each)).toEqual([])
            }
            await watchAll(test.database, test.clock.now)
            expect(await world.keptButDead()).toEqual([])
            const movements = await test.database.prisma.stockMovement.findMany({
              where: { cartridgeId: { in: world.pieces } },
            })
            for (const { recordedBy, reason, at, recordedAt } of movements) {
              expect(recordedBy).toBe('Owner')
              expect(reason).not.toBe('')
              expect(at.getTime()).toBeLessThanOrEqual(test.clock.now.getTime())
              expect(recordedAt).toBeInstanceOf(Date)
            }
          }),
          // Looking for a smaller counterexample must end before the test does, or none is told.
          { numRuns: runs, interruptAfterTimeLimit: 40_000 + runs * 8000 },
        )
      },
    )
})
