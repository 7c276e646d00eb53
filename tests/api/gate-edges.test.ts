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
