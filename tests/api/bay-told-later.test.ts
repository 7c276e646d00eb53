import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import {
  application,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { ONE_KIND } from '../support/databases.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Bond {
  readonly id: string
  readonly bayId: string | null
  readonly bayFrom: string | null
  readonly estimate: {
    readonly handlingStrength: {
      readonly progress: { readonly conservative: number }
      readonly readyAt: { readonly conservative: { readonly kind: string; readonly at?: string } }
    }
  }
}
interface Board {
  readonly rows: readonly {
    readonly resource: { readonly id: string }
    readonly bonds: readonly { readonly id: string }[]
  }[]
}

describe.each(ONE_KIND)('a bond that was made in no bay, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
  })
  afterAll(() => test.end())

  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const start = async (bayId: string | null) => {
    at(0)
    const [piece] = await receive(test.owner, shop)
    const { jointId, orderId } = await makeJoint(test.owner, shop)
    const body = application(shop, piece!.id, { bayId })
    const { id } = await test.owner.made(`/v1/joints/${jointId}/bonds`, body)
    at(5)
    await test.owner.made(`/v1/bonds/${id}/clamping`)
    return { id, orderId, path: `/v1/bonds/${id}` }
  }
  const reached = ({ estimate }: Bond) => estimate.handlingStrength.progress.conservative
  const readyAt = ({ estimate }: Bond) => estimate.handlingStrength.readyAt.conservative

  it('has no time until somebody says where it stands, and no more credit for before than it had', async () => {
    shop = await freshBay(test.owner, shop, NOON)
    const untold = await start(null)
    at(180)
    const before = await test.owner.read<Bond>(untold.path)
    expect(readyAt(before).kind).toBe('never')
    const told = await test.owner.made<Bond>(`${untold.path}/bay`, { bayId: shop.bayId })
    expect(told).toMatchObject({ bayId: shop.bayId, bayFrom: test.clock.now.toISOString() })
    expect(readyAt(told).kind).toBe('at')
    expect(reached(told)).toBeLessThanOrEqual(reached(before) + 1e-9)
  })

  it('is never ready sooner than one that was known to stand there all along', async () => {
    shop = await freshBay(test.owner, shop, NOON)
    const known = await start(shop.bayId)
    at(60)
    const ofKnown = readyAt(await test.owner.read<Bond>(known.path))
    shop = await freshBay(test.owner, shop, NOON)
    const untold = await start(null)
    at(60)
    const ofTold = readyAt(await test.owner.made<Bond>(`${untold.path}/bay`, { bayId: shop.bayId }))
    expect(ofKnown.kind).toBe('at')
    expect(Date.parse(ofTold.at ?? '9999-12-31')).toBeGreaterThanOrEqual(Date.parse(ofKnown.at!))
  })

  it('stands in its record, and a table that says otherwise is named', async () => {
    shop = await freshBay(test.owner, shop, NOON)
    const { id, path } = await start(null)
    await test.owner.made(`${path}/bay`, { bayId: shop.bayId })
    const { entries } = await test.owner.read<{ entries: { kind: string; facts: object }[] }>(
      `${path}/record`,
    )
    expect(entries.at(-1)).toMatchObject({ kind: 'placed', facts: { bayId: shop.bayId, by: 'Owner' } })
    const faults = async () =>
      (await verifyRecords(test.database)).faults
        .filter(({ bondId }) => bondId === id)
        .map(({ what }) => what)
    expect(await faults()).toEqual([])
    await test.database.prisma.bond.update({ where: { id }, data: { bayFrom: null } })
    expect((await faults()).join('\n')).toMatch(/bond\.bay_from|bond\.bay_id/)
    await test.database.prisma.bond.update({ where: { id }, data: { bayFrom: test.clock.now } })
  })

  it('is told its bay once, and none where another vehicle stands', async () => {
    shop = await freshBay(test.owner, shop, NOON)
    const there = await start(shop.bayId)
    const untold = await start(null)
    const taken = await test.owner.post(`${untold.path}/bay`, { bayId: shop.bayId })
    expect(taken.status).toBe(409)
    expect((taken.body as { reasons: { code: string }[] }).reasons[0]?.code).toBe('bay-taken')
    const again = await test.owner.post(`${there.path}/bay`, { bayId: shop.bayId })
    expect(again.status).toBe(409)
    const oven = await test.owner.post(`${untold.path}/bay`, { bayId: shop.ovenId })
    expect(oven.body).toMatchObject({ reasons: [{ field: 'body.bayId' }] })
  })

  it('is on the board of the bay that its vehicle is booked in, told or not', async () => {
    shop = await freshBay(test.owner, shop, NOON)
    const { id, orderId } = await start(null)
    await test.owner.made('/v1/bookings', {
      resourceId: shop.bayId,
      repairOrderId: orderId,
      startsAt: test.clock.now.toISOString(),
      endsAt: new Date(test.clock.now.getTime() + 3_600_000).toISOString(),
    })
    const { rows } = await test.owner.read<Board>(`/v1/shops/${shop.shopId}/bayBoard`)
    const row = rows.find(({ resource }) => resource.id === shop.bayId)
    expect(row?.bonds.map((bond) => bond.id)).toEqual([id])
  })
})
