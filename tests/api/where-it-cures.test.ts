import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import {
  addJoint,
  application,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Board {
  readonly rows: {
    readonly resource: { readonly id: string }
    readonly current: { readonly repairOrderId: string } | null
    readonly bonds: { readonly id: string }[]
  }[]
}

const after = (minutes: number) => new Date(NOON.getTime() + minutes * 60_000)

describe('where a joint cures', () => {
  let test: TestApp
  let whole: Shop
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp('embedded')
    whole = await makeShop(test.owner)
  })
  beforeEach(async () => {
    test.clock.now = NOON
    shop = await freshBay(test.owner, whole, NOON)
  })
  afterAll(() => test.end())

  const bonded = async (changes: object = {}) => {
    const [piece] = await receive(test.owner, shop)
    const joint = await makeJoint(test.owner, shop)
    const bond = await test.owner.made<{ id: string; estimate: object }>(
      `/v1/joints/${joint.jointId}/bonds`,
      application(shop, piece!.id, changes),
    )
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
    return { ...joint, bondId: bond.id }
  }
  const rowOf = async (bayId: string) =>
    (await test.owner.read<Board>(`/v1/shops/${shop.shopId}/bayBoard`)).rows.find(
      ({ resource }) => resource.id === bayId,
    )
  const bayOf = async (orderId: string) =>
    (await test.owner.read<{ bay: { id: string } | null }>(`/v1/repairOrders/${orderId}`)).bay?.id
  const book = (orderId: string, resourceId: string, from: number, until: number) =>
    test.owner.post('/v1/bookings', {
      resourceId,
      repairOrderId: orderId,
      startsAt: after(from).toISOString(),
      endsAt: after(until).toISOString(),
    })

  it('has its bay kept though nobody can say when it is ready, and nobody else is booked into it', async () => {
    // Nothing was ever measured there: no forecast, so no ready time.
    const { id: bayId } = await test.owner.made(`/v1/shops/${shop.shopId}/resources`, {
      kind: 'bay',
      name: `Unmeasured ${shop.bayId.slice(0, 8)}`,
    })
    shop = { ...shop, bayId }
    const { orderId, bondId } = await bonded()
    const { moveCheck } = await test.owner.read<{ moveCheck: object }>(`/v1/bonds/${bondId}`)
    expect(moveCheck).toMatchObject({ mayMove: false, readyAt: { kind: 'never' } })
    expect(await rowOf(bayId)).toMatchObject({
      current: { repairOrderId: orderId },
      bonds: [{ id: bondId }],
    })
    expect(await bayOf(orderId)).toBe(bayId)
    const other = await makeJoint(test.owner, shop)
    expect((await book(other.orderId, bayId, 60, 120)).status).toBe(409)
    // And for another day once half of the first is over.
    test.clock.now = after(13 * 60)
    await test.owner.made(`/v1/bonds/${bondId}/readings`, { temperatureC: 8 })
    expect((await book(other.orderId, bayId, 30 * 60, 31 * 60)).status).toBe(409)
  })

  it('is where the vehicle stands, whatever is booked elsewhere', async () => {
    const { orderId } = await bonded()
    await test.owner.made('/v1/bookings', {
      resourceId: whole.otherBayId,
      repairOrderId: orderId,
      startsAt: after(5).toISOString(),
      endsAt: after(60).toISOString(),
    })
    test.clock.now = after(10)
    expect(await bayOf(orderId)).toBe(shop.bayId)
  })

  it('is shown while it cures, also in a bay that is taken out of use', async () => {
    const { bondId } = await bonded()
    const answer = await test.owner.patch(`/v1/resources/${shop.bayId}`, { active: false }, 1)
    expect(answer.status).toBe(200)
    expect((await rowOf(shop.bayId))?.bonds).toMatchObject([{ id: bondId }])
    await test.owner.made(`/v1/bonds/${bondId}/abandonment`, { reason: 'Never mind', wasLifted: true })
    expect(await rowOf(shop.bayId)).toBeUndefined()
  })

  it('lets nothing be begun on the vehicle in another bay', async () => {
    const { orderId } = await bonded()
    const jointId = await addJoint(test.owner, shop, orderId, { name: 'Rocker, left' })
    await test.owner.made(`/v1/repairOrders/${orderId}/operations`, { template: 'doorSkin', jointId })
    const { items } = await test.owner.read<{ items: { id: string; kind: string }[] }>(
      `/v1/repairOrders/${orderId}/operations`,
    )
    const { id } = items.find(({ kind }) => kind !== 'bondAndClamp' && kind !== 'cure')!
    const refused = await test.owner.post(`/v1/operations/${id}/start`, { placeId: whole.otherBayId })
    expect(refused.body).toMatchObject({
      status: 409,
      reasons: [{ code: 'stands-elsewhere', field: 'body.placeId' }],
    })
    await test.owner.made(`/v1/operations/${id}/start`, { placeId: shop.bayId })
  })

  it('has what was used although the cartridge was gone is told in the record as it was booked', async () => {
    const [gone, low] = await receive(test.owner, shop, { cartridges: 2 })
    await test.owner.made(`/v1/cartridges/${gone!.id}/discard`, { reason: 'Cap was off' })
    await test.owner.made(`/v1/cartridges/${low!.id}/opening`)
    await test.owner.made(`/v1/cartridges/${low!.id}/correction`, {
      remainingMl: 2,
      reason: 'It was nearly empty',
    })
    for (const cartridge of [gone!, low!]) {
      const { jointId } = await makeJoint(test.owner, shop)
      const told = { bayId: null, alreadyHappened: true, reason: 'It is on the car already' }
      const bond = await test.owner.made<{ id: string }>(
        `/v1/joints/${jointId}/bonds`,
        application(shop, cartridge.id, told),
      )
      const record = await test.owner.read<{ chain: object; application: { cartridges: object[] } }>(
        `/v1/bonds/${bond.id}/record`,
      )
      expect(record.chain).toMatchObject({ intact: true })
      expect(record.application.cartridges).toMatchObject([
        { amountMl: 50, bookedMl: cartridge === gone ? 0 : 2 },
      ])
    }
    expect((await verifyRecords(test.database)).faults).toEqual([])
  })
})
