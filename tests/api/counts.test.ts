import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { ONE_KIND } from '../support/databases.ts'
import { makeShop, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Count {
  readonly id: string
  readonly entries: { cartridgeId: string }[]
  readonly differences: { cartridgeId: string; kind: string; settled: { how: string } | null }[] | null
}

describe.each(ONE_KIND)('stock counts, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let other: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    other = await makeShop(test.owner)
  })
  afterAll(() => test.end())
  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const start = (locationId: string | null = shop.locationId) =>
    test.owner.made<Count>(`/v1/shops/${shop.shopId}/stockCounts`, { locationId })
  const see = (count: Count, cartridgeId: string) =>
    test.owner.made<Count>(`/v1/stockCounts/${count.id}/entries`, { cartridgeId })
  const finish = (count: Count) => test.owner.made<Count>(`/v1/stockCounts/${count.id}/finish`)
  const settle = (count: Count, changes: object = {}) =>
    test.owner.made<Count>(`/v1/stockCounts/${count.id}/settlement`, { reason: 'Counted twice', ...changes })
  const state = async (id: string) =>
    test.owner.read<{ state: string; shopId: string; locationId: string | null }>(`/v1/cartridges/${id}`)
  const kinds = ({ differences }: Count) =>
    Object.fromEntries((differences ?? []).map(({ cartridgeId, kind: each }) => [cartridgeId, each]))

  it('is cancelled while nothing was counted, and finished once something was', async () => {
    at(0)
    shop = await makeShop(test.owner)
    const [piece] = await receive(test.owner, shop)
    const mistaken = await start()
    expect((await test.owner.delete(`/v1/stockCounts/${mistaken.id}`)).status).toBe(204)
    expect((await test.owner.get(`/v1/stockCounts/${mistaken.id}`)).status).toBe(404)
    const count = await start()
    await see(count, piece!.id)
    const refused = await test.owner.delete(`/v1/stockCounts/${count.id}`)
    expect([refused.status, refused.body.type]).toEqual([409, '/problems/wrong-state'])
    await finish(count)
    expect((await test.owner.delete(`/v1/stockCounts/${count.id}`)).status).toBe(409)
  })

  it('tells nothing of the record until it is finished, then everything that differs, and books it', async () => {
    at(0)
    shop = await makeShop(test.owner)
    const [seen, unseen, moved, gone, sent, lost] = await receive(test.owner, shop, { cartridges: 6 })
    const [foreign] = await receive(test.owner, other)
    await test.owner.made(`/v1/shops/${shop.shopId}/moves`, { cartridgeIds: [moved!.id], locationId: null })
    await test.owner.made(`/v1/cartridges/${gone!.id}/discard`, { reason: 'Set hard in the nozzle' })
    const shipment = await test.owner.made(`/v1/shops/${shop.shopId}/shipments`, {
      toShopId: other.shopId,
      cartridgeIds: [sent!.id, lost!.id],
      reason: 'They run out',
    })
    await test.owner.made(`/v1/shipments/${shipment.id}/loss`, {
      cartridgeIds: [lost!.id],
      reason: 'Not in the box',
    })
    at(10)
    const count = await start()
    expect(count.differences).toBeNull()
    for (const piece of [seen, moved, gone, sent, lost, foreign]) await see(count, piece!.id)
    // Twice is once, and a slip can be taken back.
    await see(count, seen!.id)
    await see(count, unseen!.id)
    await test.owner.delete(`/v1/stockCounts/${count.id}/entries/${unseen!.id}`)
    at(20)
    const finished = await finish(count)
    expect(kinds(finished)).toEqual({
      [unseen!.id]: 'notFound',
      [moved!.id]: 'otherShelf',
      [gone!.id]: 'gone',
      [sent!.id]: 'inTransit',
      [lost!.id]: 'missing',
      [foreign!.id]: 'otherShop',
    })
    // Finished once: a second finish finds the same.
    expect(await finish(count)).toEqual(finished)
    await watchAll(test.database, test.clock.now)
    const alerts = () =>
      test.owner.read<{ items: { subject: { id: string } }[] }>('/v1/alerts?kind=countDiffers')
    expect((await alerts()).items.map(({ subject }) => subject.id)).toEqual([count.id])

    at(30)
    await settle(count)
    expect(await state(unseen!.id)).toMatchObject({ state: 'missing' })
    for (const piece of [moved, sent, lost, foreign])
      expect(await state(piece!.id)).toMatchObject({
        state: 'sealed',
        shopId: shop.shopId,
        locationId: shop.locationId,
      })
    expect(await state(gone!.id)).toMatchObject({ state: 'discarded' })
    expect(await verifyLedger(test.database)).toEqual([])
    await watchAll(test.database, test.clock.now)
    expect((await alerts()).items).toEqual([])
    // All booked, so once more books nothing.
    const { items: before } = await test.owner.read<{ items: object[] }>(
      `/v1/stockMovements?shopId=${shop.shopId}`,
    )
    await settle(count)
    const { items: after } = await test.owner.read<{ items: object[] }>(
      `/v1/stockMovements?shopId=${shop.shopId}`,
    )
    expect(after).toHaveLength(before.length)

    // Found behind the cabinet the week after: the next count brings it back.
    at(40)
    const next = await start(null)
    await see(next, unseen!.id)
    at(50)
    await finish(next)
    at(60)
    await settle(next)
    expect(await state(unseen!.id)).toMatchObject({ state: 'sealed', locationId: null })
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('leaves out what moved while it ran, and what was dealt with before it was booked', async () => {
    at(100)
    shop = await makeShop(test.owner)
    const [used, late, opened, binned] = await receive(test.owner, shop, { cartridges: 4 })
    at(110)
    const count = await start()
    await see(count, used!.id)
    at(115)
    // Seen, then thrown away; another is put on the shelf after it was walked past.
    await test.owner.made(`/v1/cartridges/${used!.id}/discard`, { reason: 'Set hard in the nozzle' })
    const [fresh] = await receive(test.owner, shop)
    // Somebody had it at a job while the shelf was counted.
    await test.owner.made(`/v1/cartridges/${opened!.id}/opening`)
    at(120)
    const finished = await finish(count)
    expect(kinds(finished)).toEqual({ [late!.id]: 'notFound', [binned!.id]: 'notFound' })
    // Thrown away in the same instant.
    await test.owner.made(`/v1/cartridges/${binned!.id}/discard`, { reason: 'Fell off the shelf' })
    expect(finished.differences!.some(({ cartridgeId }) => cartridgeId === fresh!.id)).toBe(false)
    at(130)
    await test.owner.made(`/v1/shops/${shop.shopId}/moves`, { cartridgeIds: [late!.id], locationId: null })
    at(140)
    const settled = await settle(count)
    for (const { settled: how } of settled.differences!) expect(how).toMatchObject({ how: 'changedSince' })
    expect(await state(binned!.id)).toMatchObject({ state: 'discarded' })
    expect(await state(late!.id)).toMatchObject({ state: 'sealed' })
  })

  it('is one count for ten who start at once, and one settlement for ten who book it', async () => {
    at(200)
    shop = await makeShop(test.owner)
    const pieces = await receive(test.owner, shop, { cartridges: 5 })
    at(210)
    const counts = await Promise.all(Array.from({ length: 10 }, () => start()))
    expect(new Set(counts.map(({ id }) => id)).size).toBe(1)
    await Promise.all(counts.map((count, i) => see(count, pieces[i % 4]!.id)))
    at(220)
    await Promise.all(counts.map(finish))
    at(230)
    await Promise.all(counts.map((count) => settle(count)))
    const { items } = await test.owner.read<{ items: { kind: string }[] }>(
      `/v1/stockMovements?cartridgeId=${pieces[4]!.id}`,
    )
    expect(items.map(({ kind: each }) => each)).toEqual(['corrected', 'received'])
    expect(await verifyLedger(test.database)).toEqual([])
    const closed = await test.owner.post(`/v1/stockCounts/${counts[0]!.id}/entries`, {
      cartridgeId: pieces[0]!.id,
    })
    expect(closed.body.type).toBe('/problems/wrong-state')
  })
})
