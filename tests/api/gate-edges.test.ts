import type { WireResultOf, bondRoutes } from '@clampclock/contracts'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import {
  application,
  freshBay,
  makeJoint,
  makeProduct,
  makeShop,
  receive,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

type Bond = WireResultOf<typeof bondRoutes.getBond>

const MINUTE = 60_000
const after = (minutes: number) => new Date(NOON.getTime() + minutes * MINUTE)

/** What a gate lets through by one step would be let through silently: each is tried on both sides of its edge. */
describe('the edges of the gates', () => {
  let test: TestApp
  let whole: Shop
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp('embedded')
    test.clock.now = after(-120)
    whole = await makeShop(test.owner)
  })
  beforeEach(async () => {
    test.clock.now = NOON
    shop = await freshBay(test.owner, whole, NOON)
  })
  afterAll(() => test.end())

  const apply = async (
    changes: object = {},
  ): Promise<{ cartridgeId: string; jointId: string; sent: object }> => {
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    return { cartridgeId: piece!.id, jointId, sent: application(shop, piece!.id, changes) }
  }
  const start = async (changes: object = {}): Promise<Bond> => {
    const { jointId, sent } = await apply(changes)
    return test.owner.made<Bond>(`/v1/joints/${jointId}/bonds`, sent)
  }

  it('take no instant of the future: on, closed, off, given up', async () => {
    const { jointId, sent } = await apply({ appliedAt: after(1).toISOString() })
    const early = await test.owner.post(`/v1/joints/${jointId}/bonds`, sent)
    expect(early.body).toMatchObject({ status: 422, reasons: [{ field: 'body.appliedAt' }] })
    const { id } = await start()
    const ahead = { at: new Date(NOON.getTime() + 1).toISOString() }
    for (const [act, body] of [
      ['clamping', ahead],
      ['release', { ...ahead, alreadyHappened: true, reason: 'It came off on the floor' }],
      ['abandonment', { ...ahead, reason: 'Air in the bead', wasLifted: true }],
    ] as const) {
      const answer = await test.owner.post(`/v1/bonds/${id}/${act}`, body)
      expect(answer.body, act).toMatchObject({ status: 422, reasons: [{ field: 'body.at' }] })
      expect(answer.body.detail, act).toContain('is in the future')
    }
    expect((await test.owner.read<Bond>(`/v1/bonds/${id}`)).state).toBe('applied')
    await test.owner.made(`/v1/bonds/${id}/clamping`, { at: NOON.toISOString() })
  })

  it('take no cartridge before it was opened, or before it was here', async () => {
    test.clock.now = after(-60)
    const [piece] = await receive(test.owner, shop)
    test.clock.now = NOON
    await test.owner.made(`/v1/cartridges/${piece!.id}/opening`, { openedAt: after(-20).toISOString() })
    const tried = async (minutes: number) => {
      const { jointId } = await makeJoint(test.owner, shop)
      const sent = application(shop, piece!.id, { appliedAt: after(minutes).toISOString() })
      return test.owner.post(`/v1/joints/${jointId}/bonds`, sent)
    }
    const before = await tried(-21)
    expect(before.body).toMatchObject({ status: 422, reasons: [{ field: 'body.appliedAt' }] })
    expect(before.body.detail).toContain('was opened')
    expect((await tried(-61)).body.detail).toContain('was received')
    expect((await tried(-20)).status).toBe(201)
  })

  it('let no attempt at a joint count while the one before was known to be on it', async () => {
    test.clock.now = after(-30)
    const [first, second] = await receive(test.owner, shop, { cartridges: 2 })
    const { jointId } = await makeJoint(test.owner, shop)
    const { id } = await test.owner.made<Bond>(
      `/v1/joints/${jointId}/bonds`,
      application(shop, first!.id, { bayId: null }),
    )
    test.clock.now = after(-20)
    await test.owner.made(`/v1/bonds/${id}/abandonment`, { reason: 'Lifted apart', wasLifted: true })
    test.clock.now = after(-15)
    const again = (minutes: number) =>
      application(shop, second!.id, { bayId: null, appliedAt: after(minutes).toISOString() })
    for (const path of ['bonds', 'bondChecks']) {
      // Within the quarter of an hour that is believed: before the first attempt, and while it was on the joint.
      for (const minutes of [-29.9, -20.1]) {
        const refused = await test.owner.post(`/v1/joints/${jointId}/${path}`, again(minutes))
        expect(refused.body, path).toMatchObject({ status: 422, reasons: [{ field: 'body.appliedAt' }] })
        expect(refused.body.detail).toContain('is before the attempt before it was over')
      }
    }
    const bond = await test.owner.made<Bond>(`/v1/joints/${jointId}/bonds`, again(-20))
    expect(bond).toMatchObject({ appliedAt: after(-20).toISOString(), countsFrom: after(-20).toISOString() })
  })

  it('let an attempt count from when it was entered that the one before was over, whenever that is said to have been', async () => {
    test.clock.now = after(-30)
    const [first, second] = await receive(test.owner, shop, { cartridges: 2 })
    const { jointId } = await makeJoint(test.owner, shop)
    const { id } = await test.owner.made<Bond>(
      `/v1/joints/${jointId}/bonds`,
      application(shop, first!.id, { bayId: null }),
    )
    test.clock.now = after(-17)
    const said = { at: after(-29.5).toISOString(), reason: 'Lifted apart', wasLifted: true }
    await test.owner.made(`/v1/bonds/${id}/abandonment`, said)
    const bond = await test.owner.made<Bond>(
      `/v1/joints/${jointId}/bonds`,
      application(shop, second!.id, { bayId: null, appliedAt: after(-29).toISOString() }),
    )
    expect(bond).toMatchObject({ appliedAt: after(-29).toISOString(), countsFrom: after(-17).toISOString() })
    expect(bond.toldLate.appliedMinutes).toBe(12)
    const { chain } = await test.owner.read<{ chain: object }>(`/v1/bonds/${bond.id}/record`)
    expect(chain).toMatchObject({ intact: true })
  })

  it('take nothing that no clock or hygrometer shows, by name', async () => {
    const { jointId, sent } = await apply()
    for (const [changes, field] of [
      [{ appliedAt: '0001-01-01T00:00:00Z' }, 'body.appliedAt'],
      [{ relativeHumidityPercent: 1e-300 }, 'body.relativeHumidityPercent'],
      [{ amountMl: 0.0004 }, 'body.amountMl'],
    ] as const)
      for (const path of ['bonds', 'bondChecks']) {
        const answer = await test.owner.post(`/v1/joints/${jointId}/${path}`, { ...sent, ...changes })
        expect(answer.status, field).toBeLessThan(500)
        expect(answer.body.reasons, field).toContainEqual(expect.objectContaining({ field }))
      }
    const ahead = { ...sent, appliedAt: after(1).toISOString() }
    const checked = await test.owner.post(`/v1/joints/${jointId}/bondChecks`, ahead)
    expect(checked.body).toMatchObject({ status: 422, reasons: [{ field: 'body.appliedAt' }] })
    const logger = await test.owner.post(`/v1/sensors/${shop.sensorId}/readings`, {
      readings: [
        { at: NOON.toISOString(), temperatureC: 21 },
        { at: '0001-01-01T00:00:00Z', temperatureC: 21 },
      ],
    })
    expect(logger.body).toMatchObject({ status: 422, reasons: [{ field: 'body.readings.1.at' }] })
  })

  it('let nobody mix two products in a joint, whatever the reason', async () => {
    const { id: productId } = await makeProduct(test.owner)
    const [first] = await receive(test.owner, shop)
    const [second] = await receive(test.owner, { ...shop, productId })
    const { jointId } = await makeJoint(test.owner, shop)
    const sent = application(shop, first!.id, { moreCartridges: [{ cartridgeId: second!.id, amountMl: 30 }] })
    const refused = await test.owner.post(`/v1/joints/${jointId}/bonds`, sent)
    const mixed = refused.body.reasons.find(({ code }: { code: string }) => code === 'mixed-products')
    expect(mixed).toMatchObject({ overridable: false })
    const overrides = refused.body.reasons.map(({ code }: { code: string }) => ({
      code,
      reason: 'There was no more of it',
    }))
    const again = await test.owner.post(`/v1/joints/${jointId}/bonds`, { ...sent, overrides })
    expect(again.body).toMatchObject({ type: '/problems/bond-refused', status: 409 })
  })

  it('count work time by its earliest end: the minute before it is in time, from it on it is late', async () => {
    const bonds = [await start(), await start({ bayId: (await freshBay(test.owner, whole, NOON)).bayId })]
    const bond = (i: number) => test.owner.read<Bond>(`/v1/bonds/${bonds[i]!.id}`)
    const clamp = (i: number) => test.owner.made(`/v1/bonds/${bonds[i]!.id}/clamping`)
    const spent = async () => (await bond(1)).estimate.workTime.progress
    let minute = 20
    for (; (await spent()).earliest < 1; minute += 1) test.clock.now = after(minute)
    expect((await spent()).expected).toBeLessThan(1)
    await clamp(1)
    expect((await bond(1)).incidents).toMatchObject([{ kind: 'clampedAfterWorkTime', disposition: null }])
    test.clock.now = after(minute - 2)
    await clamp(0)
    expect((await bond(0)).incidents).toEqual([])
  })
})
