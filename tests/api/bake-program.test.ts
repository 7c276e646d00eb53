import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  acceptance,
  application,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Window {
  readonly mayBake: boolean
  readonly metalStartC: number
  readonly peakMetalC: number | null
  readonly windowMinutes: { readonly expected: number; readonly conservative: number }
  readonly panels: readonly {
    readonly name: string
    readonly tauMinutes: number
    readonly peakMetalC: number
  }[]
  readonly bonds: readonly {
    readonly joint: string
    readonly gained: { readonly expected: number; readonly conservative: number }
    readonly fullCureProgress: { readonly expected: number }
  }[]
  readonly limits: { readonly vehicleC: number | null; readonly rated: readonly object[] }
  readonly refusals: readonly { readonly code: string; readonly field: string; readonly message: string }[]
  readonly points: readonly {
    readonly atMinutes: number
    readonly airC: number
    readonly metalC: readonly number[]
  }[]
}

interface Booking {
  readonly id: string
  readonly highestMetalC: number | null
  readonly bakeProgram: object | null
  readonly metalStartC: number | null
  readonly version: number
}

const PROGRAM = {
  airStartC: 25,
  setPointC: 70,
  rampCPerMinute: 5,
  airToleranceC: 3,
  metalTargetC: 60,
  dwellMinutes: 30,
  coolAirC: 22,
  touchC: 40,
}

describe('a bake by its program', () => {
  let test: TestApp
  let shop: Shop
  let orderId: string
  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const made = await makeJoint(test.owner, shop)
    orderId = made.orderId
    const bond = await test.owner.made(`/v1/joints/${made.jointId}/bonds`, application(shop, piece!.id))
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
  })
  afterAll(() => test.end())

  const iso = (hours: number) => new Date(NOON.getTime() + hours * 3_600_000).toISOString()
  const check = (hours: number, changes: object = {}, id = orderId) =>
    test.owner.made<Window>(`/v1/repairOrders/${id}/ovenCheck`, {
      startsAt: iso(hours),
      bakeProgram: { ...PROGRAM, ...changes },
    })
  const book = (from: number, minutes: number, changes: object = {}) =>
    test.owner.post('/v1/bookings', {
      resourceId: shop.ovenId,
      repairOrderId: orderId,
      purpose: 'bake',
      startsAt: iso(from),
      endsAt: iso(from + minutes / 60),
      bakeProgram: { ...PROGRAM, ...changes },
    })

  it('is worked out from the joints: times, peak, and what it gives the bond', async () => {
    const window = await check(10)
    expect(window.mayBake).toBe(true)
    const [panel] = window.panels
    // Mild steel 2 x 0.8 mm with 0.25 mm of adhesive, 25 W/(m2 K) on both sides: 6069 J/(m2 K) / 50 = 2.02 min.
    expect(panel!.tauMinutes).toBeCloseTo(2.023, 3)
    // Air as warm as 73 degC for many time constants.
    expect(window.peakMetalC).toBeGreaterThan(72.9)
    expect(window.peakMetalC).toBeLessThanOrEqual(73)
    // The ramp reaches 70 degC after 9 min; the panel then is about 10 degC behind it.
    expect(window.windowMinutes.expected).toBeGreaterThan(40)
    expect(window.windowMinutes.expected).toBeLessThan(window.windowMinutes.conservative)
    const [bond] = window.bonds
    // Ten hours of 24 are 0.42 of full cure at 23 degC; half an hour at 60 to 70 degC gives more than an hour and less than a day.
    expect(bond!.gained.expected).toBeGreaterThan(1 / 24)
    expect(bond!.fullCureProgress.expected - bond!.gained.expected).toBeCloseTo(10 / 24, 1)
    expect(window.points[0]).toMatchObject({ atMinutes: 0, airC: 25 })
    expect(window.points[0]!.metalC[0]).toBeCloseTo(23, 0)
    expect(window.points.at(-1)!.metalC[0]).toBeCloseTo(40, 3)
  })

  it('refuses with each joint and number', async () => {
    const soon = await check(1)
    expect(soon.refusals.map(({ code, field }) => [code, field])).toEqual([
      ['handling-strength', 'body.startsAt'],
    ])
    expect(soon.refusals[0]!.message).toMatch(/^Door skin, left reaches handling strength only Wed 1[56]:/)
    const hot = await check(10, { setPointC: 120, airToleranceC: 5 })
    expect(hot.refusals.map(({ code }) => code)).toEqual(['service-range'])
    expect(hot.refusals[0]!.message).toContain('on Door skin, left is rated to 120.0 °C')
    expect((await check(10, { setPointC: 62 })).refusals.map(({ code }) => code)).toEqual([
      'target-not-reached',
    ])
    const order = await test.owner.read<{ version: number }>(`/v1/repairOrders/${orderId}`)
    await test.owner.patch(`/v1/repairOrders/${orderId}`, { ovenLimitC: 65 }, order.version)
    expect((await check(10)).refusals.map(({ code }) => code)).toEqual(['vehicle-limit'])
    const after = await test.owner.read<{ version: number }>(`/v1/repairOrders/${orderId}`)
    await test.owner.patch(`/v1/repairOrders/${orderId}`, { ovenLimitC: null }, after.version)
  })

  it('says what the metal was held against, and tells it in the degrees of the shop', async () => {
    expect((await check(10)).limits).toEqual({
      vehicleC: null,
      rated: [expect.objectContaining({ joint: 'Door skin, left', rangeC: { min: -40, max: 120 } })],
    })
    const path = `/v1/shops/${shop.shopId}`
    const { items } = await test.owner.read<{ items: { id: string; version: number }[] }>('/v1/shops')
    const { version } = items.find(({ id }) => id === shop.shopId)!
    await test.owner.patch(path, { temperatureUnit: 'F' }, version)
    const hot = { setPointC: 120, airToleranceC: 5 }
    const byProgram = await check(10, hot)
    expect(byProgram.refusals[0]!.message).toContain('is rated to 248.0 °F')
    // Told as a number instead, it is judged by the same judge and told in the same words.
    const byNumber = await test.owner.post('/v1/bookings', {
      resourceId: shop.ovenId,
      repairOrderId: orderId,
      purpose: 'bake',
      startsAt: iso(10),
      endsAt: iso(12),
      highestMetalC: byProgram.peakMetalC,
    })
    expect(byNumber.body.reasons).toEqual([{ ...byProgram.refusals[0], field: 'body.highestMetalC' }])
    await test.owner.patch(path, { temperatureUnit: 'C' }, version + 1)
  })

  it('takes longer from cold metal, and is booked and moved with it', async () => {
    const startsAt = iso(20)
    // Hot at once: then nothing but the metal is waited for.
    const bakeProgram = { ...PROGRAM, rampCPerMinute: undefined }
    const path = `/v1/repairOrders/${orderId}/ovenCheck`
    const asExpected = await test.owner.made<Window>(path, { startsAt, bakeProgram })
    const cold = await test.owner.made<Window>(path, { startsAt, bakeProgram, metalStartC: -40 })
    const minutes = Math.ceil(asExpected.windowMinutes.conservative)
    expect(cold.windowMinutes.conservative).toBeGreaterThan(minutes)
    const body = {
      resourceId: shop.ovenId,
      repairOrderId: orderId,
      purpose: 'bake',
      startsAt,
      endsAt: iso(20 + minutes / 60),
      bakeProgram,
      metalStartC: -40,
    }
    const short = await test.owner.post('/v1/bookings', body)
    expect(short.body.reasons).toMatchObject([{ code: 'window-too-short' }])
    const byNumber = { ...body, bakeProgram: null, highestMetalC: 60 }
    const refused = await test.owner.post('/v1/bookings', byNumber)
    expect(refused.body.reasons).toMatchObject([{ field: 'body.metalStartC' }])
    const endsAt = iso(20 + Math.ceil(cold.windowMinutes.conservative) / 60)
    const booked = await test.owner.made<Booking>('/v1/bookings', { ...body, endsAt })
    expect(booked.metalStartC).toBe(-40)
    const moved = { startsAt: iso(24), endsAt: iso(24 + minutes / 60) }
    const again = await test.owner.patch(`/v1/bookings/${booked.id}`, moved, booked.version)
    expect(again.body.reasons).toMatchObject([{ code: 'window-too-short' }])
  })

  it('starts from the air that is forecast for its hour, not from that of now', async () => {
    const cold = await makeShop(test.owner)
    await steadyAir(test.owner, cold.sensorId, 23, new Date(NOON.getTime() - 900_000), 10 * 24)
    await steadyAir(test.owner, cold.sensorId, 12, NOON, 0.25)
    const { orderId: id } = await makeJoint(test.owner, cold)
    await test.owner.made('/v1/bookings', {
      resourceId: cold.bayId,
      repairOrderId: id,
      purpose: 'work',
      startsAt: iso(0),
      endsAt: iso(30),
    })
    expect((await check(0, {}, id)).metalStartC).toBeCloseTo(12, 0)
    expect((await check(24, {}, id)).metalStartC).toBeGreaterThan(16)
  })

  it('is booked with its program and the peak that follows from it, for as long as it takes', async () => {
    const { windowMinutes, peakMetalC } = await check(10)
    const short = await book(10, windowMinutes.conservative - 1)
    expect(short.body).toMatchObject({
      type: '/problems/bake-refused',
      reasons: [{ code: 'window-too-short', field: 'body.endsAt' }],
    })
    expect((await book(1, 90)).body.reasons).toMatchObject([{ code: 'handling-strength' }])
    const booked = await book(10, Math.ceil(windowMinutes.conservative))
    expect(booked.status, JSON.stringify(booked.body)).toBe(201)
    const { id, highestMetalC, bakeProgram, version } = booked.body as Booking
    expect(bakeProgram).toEqual(PROGRAM)
    expect(highestMetalC).toBeCloseTo(peakMetalC!, 6)
    // Moved to where the bond is not ready, it is refused as it was when it was booked.
    const early = await test.owner.patch(`/v1/bookings/${id}`, { startsAt: iso(1), endsAt: iso(3) }, version)
    expect(early.body).toMatchObject({
      type: '/problems/bake-refused',
      reasons: [{ code: 'handling-strength' }],
    })
    const later = await test.owner.patch(
      `/v1/bookings/${id}`,
      { startsAt: iso(12), endsAt: iso(14) },
      version,
    )
    expect(later.body).toMatchObject({ bakeProgram: PROGRAM })
  })

  it('takes a program or a temperature, not both, and names a program that cannot be', async () => {
    const both = await test.owner.post('/v1/bookings', {
      resourceId: shop.ovenId,
      repairOrderId: orderId,
      purpose: 'bake',
      startsAt: iso(30),
      endsAt: iso(32),
      highestMetalC: 60,
      bakeProgram: PROGRAM,
    })
    expect(both.body.reasons[0].field).toBe('body.highestMetalC')
    const impossible = await book(30, 120, { setPointC: 320 })
    expect(impossible.status).toBe(422)
    expect(impossible.body.reasons[0].field).toBe('body.bakeProgram.setPointC')
    const { id } = await test.owner.made(`/v1/shops/${shop.shopId}/repairOrders`, {
      number: 'BARE',
      vehicle: 'Bare',
    })
    const bare = await test.owner.post(`/v1/repairOrders/${id}/ovenCheck`, {
      startsAt: iso(1),
      bakeProgram: PROGRAM,
    })
    expect(bare.body.reasons[0].field).toBe('body.bakeProgram')
  })

  it('waits for somebody to look at a joint that was pulled early, by either form', async () => {
    const [piece] = await receive(test.owner, shop)
    const { orderId: id, jointId } = await makeJoint(test.owner, shop)
    const bond = await test.owner.made(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, { bayId: null }),
    )
    const told = { alreadyHappened: true, reason: 'Pulled to make room' }
    const { incidents } = await test.owner.made<{ incidents: { id: string }[] }>(
      `/v1/bonds/${bond.id}/release`,
      told,
    )
    expect((await check(10, {}, id)).refusals.map(({ code }) => code)).toEqual(['released-early'])
    const bare = () =>
      test.owner.post('/v1/bookings', {
        resourceId: shop.ovenId,
        repairOrderId: id,
        purpose: 'bake',
        startsAt: iso(50),
        endsAt: iso(51),
        highestMetalC: 60,
      })
    expect((await bare()).body.reasons).toMatchObject([{ code: 'released-early' }])
    const pulledAt = test.clock.now
    // It lies where it is until its adhesive can have cured; nobody measured there.
    test.clock.now = new Date(pulledAt.getTime() + 48 * 3_600_000)
    const accepted = await acceptance(test.owner, incidents[0]!.id)
    await test.owner.made(`/v1/incidents/${incidents[0]!.id}/disposition`, accepted)
    expect((await check(58, {}, id)).mayBake).toBe(true)
    expect((await bare()).status).toBe(201)
    test.clock.now = pulledAt
  })

  it('leaves out an attempt that is to be redone: what is scraped off is not baked', async () => {
    shop = await freshBay(test.owner, shop, NOON)
    const { orderId: id, jointId } = await makeJoint(test.owner, shop)
    const [piece] = await receive(test.owner, shop)
    const bond = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    const told = { alreadyHappened: true, reason: 'Moved for another job' }
    const { incidents } = await test.owner.made<{ incidents: { id: string }[] }>(
      `/v1/bonds/${bond.id}/release`,
      told,
    )
    const redone = { kind: 'redone', reason: 'Scraped off on both sides' }
    await test.owner.made(`/v1/incidents/${incidents[0]!.id}/disposition`, redone)
    const window = await check(10, {}, id)
    expect(window.bonds).toEqual([])
    // Nor is the vehicle, until it is bonded again.
    expect(window.refusals).toMatchObject([{ code: 'to-be-redone' }])
  })

  it('does not take clamps that came off late for a joint that was ready late', async () => {
    shop = await freshBay(test.owner, shop, NOON)
    const { orderId: id, jointId } = await makeJoint(test.owner, shop)
    const [piece] = await receive(test.owner, shop)
    const bond = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
    test.clock.now = new Date(NOON.getTime() + 11 * 3_600_000)
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 12)
    await test.owner.made(`/v1/bonds/${bond.id}/release`)
    // In the oven since before the clamps were written off, and ready hours before that.
    expect((await check(10.9, {}, id)).refusals).toEqual([])
    test.clock.now = NOON
  })

  it('does not guess for a panel that one temperature cannot stand for', async () => {
    const thick = await makeJoint(test.owner, shop, { panelMaterial: 'glassFibre', panelThicknessMm: 4 })
    const window = await check(10, {}, thick.orderId)
    expect(window).toMatchObject({ mayBake: false, peakMetalC: null, points: [] })
    expect(window.refusals).toMatchObject([{ code: 'panel-not-lumped' }])
  })
})
