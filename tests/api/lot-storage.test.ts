import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import { makeShop, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Storage {
  readonly meanKineticC: number | null
  readonly places: {
    locationName: string
    meanKineticC: number | null
    cartridges: number
    until: string | null
  }[]
  readonly warmestLoss: { code: string; days: number; reason: string } | null
  readonly holds: { kind: string; by: string }[]
}

describe.each(ONE_KIND)("a lot's storage, on the %s database", (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  it('tells each shelf with its temperatures, what warmth took off, and every hold', async () => {
    const [piece] = await receive(test.owner, shop, { cartridges: 2, lotNumber: 'STORED' })
    const { lotId } = await test.owner.read<{ lotId: string }>(`/v1/cartridges/${piece!.id}`)
    const storage = () => test.owner.read<Storage>(`/v1/lots/${lotId}/storage`)
    expect(await storage()).toMatchObject({ meanKineticC: null, warmestLoss: null, holds: [] })

    test.clock.now = new Date(NOON.getTime() + 11 * 86_400_000)
    const { id: other } = await test.owner.made(`/v1/shops/${shop.shopId}/storageLocations`, {
      name: 'Cold shelf',
    })
    await test.owner.made(`/v1/shops/${shop.shopId}/moves`, { cartridgeIds: [piece!.id], locationId: other })
    const readings = Array.from({ length: 12 }, (_, day) => ({
      at: new Date(NOON.getTime() + day * 86_400_000).toISOString(),
      temperatureC: 33,
    }))
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, { readings })
    const after = await storage()
    // A steady 33 degC is its own mean, and takes a day for each day (Q10 = 2, label 23 degC); it is out of range, too.
    expect(after.meanKineticC).toBeCloseTo(33, 6)
    expect(after.places.map(({ locationName, cartridges }) => [locationName, cartridges])).toEqual([
      ['Cold shelf', 1],
      ['Cabinet', 2],
    ])
    expect(after.places[0]!.meanKineticC).toBeNull()
    expect(after.places[1]!.until).toBeNull()
    expect(after.warmestLoss!.days).toBeCloseTo(11, 6)
    expect(after.warmestLoss!.reason).toContain('Warm storage took 11 days off')
    expect(after.holds).toMatchObject([{ kind: 'held', by: 'Storage watch' }])
    test.clock.now = NOON
  })

  it('tells in which month what is on hand dies, by the calendar of the shop', async () => {
    const fresh = await makeShop(test.owner, 'Pacific/Auckland')
    await receive(test.owner, fresh, { date: '2031-08-31', cartridges: 2 })
    await receive(test.owner, fresh, { date: '2031-04-30' })
    const expiries = (query: string) => test.owner.read<{ thisMonth: string }>(`/v1/expiries${query}`)
    const ofShop = `?shopId=${fresh.shopId}`
    expect(await expiries(ofShop)).toEqual({
      thisMonth: '2031-05',
      soonDays: 30,
      items: [
        { month: '2031-04', cartridges: 1, volumeMl: 200, expired: 1, soon: 0 },
        { month: '2031-08', cartridges: 2, volumeMl: 400, expired: 0, soon: 0 },
      ],
    })
    // In August the 31st is in sight; in Auckland it is August half a day before it is in New York.
    test.clock.now = new Date('2031-07-31T18:00:00Z')
    const owner = await test.signIn('owner@test.example')
    const august = await owner.read<object>(`/v1/expiries${ofShop}`)
    expect(august).toMatchObject({ thisMonth: '2031-08', items: [{ expired: 1 }, { soon: 0 }] })
    expect(await owner.read('/v1/expiries')).toMatchObject({ thisMonth: '2031-07' })
    test.clock.now = new Date('2031-08-02T18:00:00Z')
    expect(await owner.read(`/v1/expiries${ofShop}`)).toMatchObject({ items: [{ soon: 0 }, { soon: 2 }] })
    test.clock.now = NOON
  })
})
