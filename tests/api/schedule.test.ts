import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { ONE_KIND } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Booking {
  readonly id: string
  readonly startsAt: string
  readonly endsAt: string
  readonly version: number
  readonly curingUntil: { kind: string; at: string } | null
  readonly clash: { withBookingId: string; message: string; proposal: string } | null
}

interface Alert {
  readonly kind: string
  readonly message: string
  readonly subject: { readonly id: string }
}

const HOUR = 3_600_000

describe.each(ONE_KIND)('bays and ovens, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
  })
  afterAll(() => test.end())

  const iso = (hours: number) => new Date(NOON.getTime() + hours * HOUR).toISOString()
  const at = (hours: number) => {
    test.clock.now = new Date(NOON.getTime() + hours * HOUR)
  }
  const book = (resourceId: string, repairOrderId: string, from: number, to: number, more: object = {}) =>
    test.owner.post('/v1/bookings', {
      resourceId,
      repairOrderId,
      startsAt: iso(from),
      endsAt: iso(to),
      ...more,
    })
  const bookings = async () =>
    (
      await test.owner.read<{ items: Booking[] }>(
        `/v1/bookings?shopId=${shop.shopId}&from=${iso(-24)}&to=${iso(96)}`,
      )
    ).items
  const alerts = async (of: string) =>
    (await test.owner.read<{ items: Alert[] }>(`/v1/alerts?kind=${of}&shopId=${shop.shopId}`)).items

  /** A vehicle in bay 1 with a clamped bond that needs a little over three hours at 23 degC. */
  const curing = async (bookedHours: number) => {
    at(0)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    const booking = (await book(shop.bayId, orderId, -1, bookedHours)).body as Booking
    const bond = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
    return { orderId, booking, bondId: bond.id }
  }

  it('books no time that is over, nor a year that was mistyped', async () => {
    const { orderId, booking } = await curing(2)
    const over = await book(shop.bayId, orderId, -3, -2)
    expect([over.status, over.body.reasons[0].field]).toEqual([422, 'body.endsAt'])
    const mistyped = await book(shop.bayId, orderId, 968 * 365 * 24, 968 * 365 * 24 + 1)
    expect([mistyped.status, mistyped.body.reasons[0].field]).toEqual([422, 'body.startsAt'])
    const moved = await test.owner.patch(
      `/v1/bookings/${booking.id}`,
      { startsAt: iso(24 * 4000), endsAt: iso(24 * 4000 + 1) },
      booking.version,
    )
    expect([moved.status, moved.body.reasons[0].field]).toEqual([422, 'body.startsAt'])
  })

  it('moves no vehicle whose order is done', async () => {
    at(0)
    shop = await makeShop(test.owner)
    const { orderId } = await makeJoint(test.owner, shop)
    const done = await test.owner.patch(`/v1/repairOrders/${orderId}`, { state: 'done' }, 1)
    expect(done.status, JSON.stringify(done.body)).toBe(200)
    const move = await test.owner.post(`/v1/repairOrders/${orderId}/move`)
    expect(move.status).toBe(409)
    expect(move.body.type).toBe('/problems/wrong-state')
  })

  it('keeps a bay booked until the bond on it is ready', async () => {
    const { booking } = await curing(1)
    const [kept] = await bookings()
    expect(kept!.id).toBe(booking.id)
    expect(Date.parse(kept!.endsAt)).toBeGreaterThanOrEqual(Date.parse(kept!.curingUntil!.at))
    expect(Date.parse(kept!.endsAt) - NOON.getTime()).toBeGreaterThan(3 * HOUR)
    const shorter = await test.owner.patch(`/v1/bookings/${booking.id}`, { endsAt: iso(2) }, kept!.version)
    expect(shorter.body).toMatchObject({
      type: '/problems/not-ready',
      reasons: [{ code: 'handling-strength' }],
    })
    expect((await test.owner.delete(`/v1/bookings/${booking.id}`)).status).toBe(409)
    const longer = await test.owner.patch(`/v1/bookings/${booking.id}`, { endsAt: iso(12) }, kept!.version)
    expect(longer.status).toBe(200)
  })

  it('never overwrites the next booking: the clash is told, with a proposal', async () => {
    at(0)
    const { orderId } = await curing(1)
    expect(orderId).toBeTruthy()
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const first = await makeJoint(test.owner, shop)
    const second = await makeJoint(test.owner, shop)
    await book(shop.bayId, first.orderId, -1, 2)
    const next = (await book(shop.bayId, second.orderId, 2, 6)).body as Booking
    await test.owner.made(`/v1/joints/${first.jointId}/bonds`, application(shop, piece!.id))
    const [mine, theirs] = await bookings()
    expect(theirs).toMatchObject({ id: next.id, startsAt: iso(2), endsAt: iso(6) })
    expect(mine!.endsAt).toBe(iso(2))
    expect(mine!.clash).toMatchObject({ withBookingId: next.id })
    expect(mine!.clash!.proposal).toContain('Bay 2, which is free then')
    expect(await alerts('bayClash')).toHaveLength(1)
    // The proposal is taken: the clash is over, and the bay is kept as long as it needs to be.
    await test.owner.patch(`/v1/bookings/${next.id}`, { resourceId: shop.otherBayId }, 1)
    await watchAll(test.database, test.clock.now)
    expect(await alerts('bayClash')).toHaveLength(0)
    expect(Date.parse((await bookings()).find(({ id }) => id === mine!.id)!.endsAt)).toBeGreaterThan(
      Date.parse(iso(3)),
    )
  })

  it("takes the vehicle's own next booking of the bay for no clash, and keeps it as long as the cure", async () => {
    at(0)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    // Bonded earlier than planned: its bookings begin in an hour.
    const own = (await book(shop.bayId, orderId, 1, 2)).body as Booking
    const later = (await book(shop.bayId, orderId, 3, 4)).body as Booking
    await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    await watchAll(test.database, test.clock.now)
    expect(await alerts('bayClash')).toEqual([])
    const kept = await bookings()
    expect(kept.every(({ clash }) => clash === null)).toBe(true)
    expect(kept.find(({ id }) => id === own.id)).toMatchObject({ startsAt: iso(1), endsAt: iso(3) })
    expect(kept.find(({ id }) => id === later.id)).toMatchObject({ startsAt: iso(3) })
    // And the vehicle stands there from now.
    expect(kept.some(({ startsAt, endsAt }) => startsAt === iso(0) && endsAt === iso(1))).toBe(true)
  })

  it('flags a vehicle that is planned to be elsewhere before it is ready', async () => {
    const { orderId } = await curing(4)
    const elsewhere = (await book(shop.otherBayId, orderId, 1, 2)).body as Booking
    await watchAll(test.database, test.clock.now)
    const [alert] = await alerts('plannedMoveBeforeReady')
    expect(alert!.subject.id).toBe(elsewhere.id)
    const overview = await test.owner.read<{
      shops: { shop: { id: string }; bonds: { plannedTooEarly: number } }[]
    }>('/v1/overview')
    expect(overview.shops.find((each) => each.shop.id === shop.shopId)!.bonds.plannedTooEarly).toBe(1)
    await test.owner.delete(`/v1/bookings/${elsewhere.id}`)
    await watchAll(test.database, test.clock.now)
    expect(await alerts('plannedMoveBeforeReady')).toHaveLength(0)
  })

  it('flags a held vehicle that is planned to be elsewhere: no waiting makes it ready', async () => {
    const { orderId, bondId } = await curing(4)
    const given = { reason: 'Air in the bead', wasLifted: true }
    await test.owner.made(`/v1/bonds/${bondId}/abandonment`, given)
    const elsewhere = (await book(shop.otherBayId, orderId, 5, 6)).body as Booking
    await watchAll(test.database, test.clock.now)
    const [alert] = await alerts('plannedMoveBeforeReady')
    expect(alert!.subject.id).toBe(elsewhere.id)
    expect(alert!.message).toContain('lifted apart')
    await test.owner.delete(`/v1/bookings/${elsewhere.id}`)
    await watchAll(test.database, test.clock.now)
    expect(await alerts('plannedMoveBeforeReady')).toHaveLength(0)
  })

  it('refuses a bake that comes too soon or gets too hot, each joint and number named', async () => {
    const { orderId } = await curing(4)
    const soon = await book(shop.ovenId, orderId, 2, 3, { purpose: 'bake', highestMetalC: 60 })
    expect(soon.body).toMatchObject({
      type: '/problems/bake-refused',
      reasons: [{ code: 'handling-strength' }],
    })
    const hot = await book(shop.ovenId, orderId, 12, 13, { purpose: 'bake', highestMetalC: 130 })
    expect(hot.body.reasons).toMatchObject([{ code: 'service-range' }])
    expect(hot.body.reasons[0].message).toContain('rated to 120.0 °C')
    const order = await test.owner.read<{ version: number }>(`/v1/repairOrders/${orderId}`)
    await test.owner.patch(`/v1/repairOrders/${orderId}`, { ovenLimitC: 55 }, order.version)
    const delicate = await book(shop.ovenId, orderId, 12, 13, { purpose: 'bake', highestMetalC: 60 })
    expect(delicate.body.reasons).toMatchObject([{ code: 'vehicle-limit' }])
    expect((await book(shop.ovenId, orderId, 12, 13, { purpose: 'bake', highestMetalC: 55 })).status).toBe(
      201,
    )
  })

  it('lengthens what it keeps when the night turns cold', async () => {
    const { booking } = await curing(4)
    const before = (await bookings()).find(({ id }) => id === booking.id)!
    at(1)
    // The heating failed: 11 degC, seen by the bay's own thermometer.
    await test.owner.made(`/v1/sensors/${shop.sensorId}/readings`, {
      readings: [{ at: iso(0.9), temperatureC: 11 }],
    })
    await watchAll(test.database, test.clock.now)
    const after = (await bookings()).find(({ id }) => id === booking.id)!
    expect(Date.parse(after.endsAt)).toBeGreaterThan(Date.parse(before.endsAt))
  })

  it('shows on the board what stands where, and what comes next', async () => {
    const { orderId, bondId } = await curing(4)
    await book(shop.bayId, orderId, 30, 31)
    const board = await test.owner.read<{
      rows: {
        resource: { name: string }
        current: Booking | null
        next: Booking | null
        bonds: { id: string }[]
        temperatureC: number | null
      }[]
    }>(`/v1/shops/${shop.shopId}/bayBoard`)
    expect(board.rows.map(({ resource }) => resource.name)).toEqual(['Bay 1', 'Bay 2', 'Oven'])
    const [first, second] = board.rows
    expect(first).toMatchObject({ bonds: [{ id: bondId }], temperatureC: 23, next: { startsAt: iso(30) } })
    expect(second).toMatchObject({ current: null, next: null, bonds: [] })
  })
})
