import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { KINDS } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, type Shop } from '../support/fixtures.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

describe.each(KINDS)('an Idempotency-Key, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  const order = (number: string) => ({ number, vehicle: 'Invented Estate' })
  const path = () => `/v1/shops/${shop.shopId}/repairOrders`

  it('answers a retry with what the first one did, and does it once', async () => {
    const first = await test.owner.post(path(), order('K-1')).set('idempotency-key', '"one"')
    const retry = await test.owner.post(path(), order('K-1')).set('idempotency-key', '"one"')
    expect(retry.status).toBe(201)
    expect(retry.body).toEqual(first.body)
    const without = await test.owner.post(path(), order('K-1'))
    expect(without.body).toMatchObject({
      type: '/problems/already-exists',
      reasons: [{ field: 'body.number' }],
    })
  })

  it('refuses the key of another request', async () => {
    await test.owner.post(path(), order('K-2')).set('idempotency-key', '"two"')
    const other = await test.owner.post(path(), order('K-3')).set('idempotency-key', '"two"')
    expect(other.body.type).toBe('/problems/key-reused')
    expect(other.status).toBe(422)
  })

  it('keeps no key of what was refused, so that it can be put right', async () => {
    const [piece] = await receive(test.owner, shop)
    const discard = (reason: string) =>
      test.owner.post(`/v1/cartridges/${piece!.id}/discard`, { reason }).set('idempotency-key', '"three"')
    expect((await discard('no')).status).toBe(422)
    expect((await discard('Nozzle set hard')).status).toBe(201)
  })

  it('does nothing in the name of somebody else than whose act it is', async () => {
    const { id } = await test.owner.read<{ id: string }>('/v1/me')
    const byOther = await test.owner
      .post(path(), order('K-4'))
      .set('idempotency-key', '"four"')
      .set('acting-person', '00000000-0000-4000-8000-000000000000')
    expect(byOther.status).toBe(401)
    expect(byOther.body).toMatchObject({
      type: '/problems/not-signed-in',
      detail: 'Sign in as the person who did it: somebody else has signed in meanwhile',
    })
    // It keeps no key either: the one whose act it is does it with the same.
    const byOwn = await test.owner
      .post(path(), order('K-4'))
      .set('idempotency-key', '"four"')
      .set('acting-person', id)
    expect(byOwn.status).toBe(201)
  })

  it('does it once for twenty at the same moment', async () => {
    const [piece] = await receive(test.owner, shop)
    const answers = await Promise.all(
      Array.from({ length: 20 }, () =>
        test.owner.post(`/v1/cartridges/${piece!.id}/opening`).set('idempotency-key', `"burst ${piece!.id}"`),
      ),
    )
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([201]))
    const { items } = await test.owner.read<{ items: object[] }>(
      `/v1/stockMovements?cartridgeId=${piece!.id}`,
    )
    expect(items).toHaveLength(2)
  })

  it('keeps no key of what changed nothing', async () => {
    const { jointId } = await makeJoint(test.owner, shop)
    const [piece] = await receive(test.owner, shop)
    const keys = () => test.database.prisma.idempotencyKey.count({ where: { key: { startsWith: 'asked' } } })
    const ask = () =>
      test.owner
        .post(`/v1/joints/${jointId}/bondChecks`, application(shop, piece!.id))
        .set('idempotency-key', '"asked only"')
    expect((await ask()).status).toBeLessThan(300)
    expect((await ask()).status).toBeLessThan(300)
    expect(await keys()).toBe(0)
    const done = await test.owner
      .post(`/v1/cartridges/${piece!.id}/opening`)
      .set('idempotency-key', '"asked and done"')
    expect(done.status).toBeLessThan(300)
    expect(await keys()).toBe(1)
  })

  it('takes a delivery in once, and counts a cartridge once, for scans whose answers were lost', async () => {
    const delivery = {
      productId: shop.productId,
      lotNumber: 'LOST-ANSWER',
      printedExpiry: { date: '2031-12-31' },
      cartridges: 3,
    }
    const answers = await Promise.all(
      Array.from({ length: 8 }, () =>
        test.owner.post(`/v1/shops/${shop.shopId}/receipts`, delivery).set('idempotency-key', '"receipt"'),
      ),
    )
    expect(new Set(answers.map(({ body }) => body.receiptId)).size).toBe(1)
    const [piece] = answers[0]!.body.cartridges as { id: string }[]
    const { items } = await test.owner.read<{ items: object[] }>('/v1/lots?lotNumber=LOST-ANSWER')
    expect(items).toMatchObject([{ onHand: [{ sealed: 3 }] }])

    const { id } = await test.owner.made(`/v1/shops/${shop.shopId}/stockCounts`, { locationId: null })
    const entries = `/v1/stockCounts/${id}/entries`
    const see = () =>
      test.owner.post(entries, { cartridgeId: piece!.id }).set('idempotency-key', '"entry of a scan"')
    for (const { status } of await Promise.all([see(), see(), see()])) expect(status).toBe(201)
    await test.owner.delete(`${entries}/${piece!.id}`)
    // Taken back meanwhile, a late retry does not put it in again.
    expect((await see()).status).toBe(201)
    expect(await test.owner.read(`/v1/stockCounts/${id}`)).toMatchObject({ entries: [] })
  })

  it('names a key that cannot be read', async () => {
    const bad = await test.owner.post(path(), order('K-4')).set('idempotency-key', '"unclosed')
    expect(bad.body).toMatchObject({
      type: '/problems/invalid-key',
      reasons: [{ field: 'headers.idempotency-key' }],
    })
  })
})
