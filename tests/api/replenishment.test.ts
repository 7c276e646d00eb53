import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { PurchaseOrder, ReplenishmentLine, TransferPlan, WasteLine } from '@clampclock/contracts'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { ONE_KIND } from '../support/databases.ts'
import { application, makeJoint, makeShop, PRODUCT, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const DAY_MS = 86_400_000
type Wire<T> = { [Key in keyof T]: T[Key] extends Date | null ? string | null : T[Key] }

describe.each(ONE_KIND)('replenishment, on the %s database', (kind) => {
  let test: TestApp
  let owner: Client
  let shop: Shop
  let other: Shop
  let supplierId: string
  const supplier = { name: 'Invented Supply', leadDays: 5, leadDeviationDays: 2, orderCostCents: 1200 }
  const supply = () => ({ supplierId, unitPriceCents: 4000, boxOf: 4, freshDays: 270 })
  const line = async (where = shop): Promise<ReplenishmentLine | undefined> => {
    const { items } = await owner.read<{ items: ReplenishmentLine[] }>(
      `/v1/shops/${where.shopId}/replenishment`,
    )
    return items.find(({ productId }) => productId === shop.productId)
  }
  const order = (cartridges: number) =>
    owner.made<PurchaseOrder>(`/v1/shops/${shop.shopId}/orders`, {
      supplierId,
      lines: [{ productId: shop.productId, cartridges }],
    })

  beforeAll(async () => {
    test = await startTestApp(kind, new Date(NOON.getTime() - 90 * DAY_MS))
    owner = test.owner
    shop = await makeShop(owner)
    other = await makeShop(owner)
    supplierId = (await owner.made('/v1/suppliers', supplier)).id
  })
  afterAll(() => test.end())

  it('says what is missing before it can compute', async () => {
    await receive(owner, shop, { cartridges: 20, date: '2031-12-31' })
    expect(await line()).toMatchObject({
      sealed: 20,
      onHandMl: 4000,
      suggestedCartridges: 0,
      reason: 'Nobody has said where it is ordered',
    })
    await owner.made(`/v1/products/${shop.productId}/supply`, supply())
    expect((await line())?.reason).toBe('It was never used here: there is nothing to go by')
    const again = await owner.post(`/v1/products/${shop.productId}/supply`, supply())
    expect(again.status).toBe(409)
  })

  it('learns from the ledger what a product is used, and proposes whole boxes up to the level', async () => {
    const { items } = await owner.read<{ items: { id: string }[] }>(
      `/v1/cartridges?shopId=${shop.shopId}&limit=500`,
    )
    // A 60 mL joint on every third day for ninety days: 1800 mL of 4000.
    for (let i = 0; i < 30; i += 1) {
      test.clock.now = new Date(NOON.getTime() - (90 - 3 * i) * DAY_MS)
      if (i % 5 === 0) owner = await test.signIn('owner@test.example')
      const { jointId } = await makeJoint(owner, shop)
      const cartridgeId = items[Math.floor(i / 3)]!.id
      const bond = await owner.made(
        `/v1/joints/${jointId}/bonds`,
        application(shop, cartridgeId, { amountMl: 60 }),
      )
      await owner.made(`/v1/bonds/${bond.id}/abandonment`, { reason: 'Only the use counts here' })
    }
    test.clock.now = NOON
    owner = await test.signIn('owner@test.example')
    const stands = (await line())!
    expect(stands.usedMl).toBeCloseTo(1800, 6)
    expect(stands.historyDays).toBe(91)
    // 20 mL a day, and a third of each opened cartridge, 20 mL of 200, dies with it.
    expect(stands.consumptionPerDayMl).toBeGreaterThan(19)
    expect(stands.consumptionPerDayMl).toBeLessThan(24)
    expect(stands.suggestedCartridges).toBe(0)
    expect(stands.reorderPointMl).toBeGreaterThan(100)

    const left = (
      await owner.read<{ items: { id: string }[] }>(`/v1/cartridges?shopId=${shop.shopId}&limit=500`)
    ).items
    for (const { id } of left)
      await owner.made(`/v1/cartridges/${id}/discard`, { reason: 'Fell off the shelf' })
    const empty = (await line())!
    expect(empty).toMatchObject({ onHandMl: 0, reason: expect.stringContaining('reorder point') })
    expect(empty.suggestedCartridges % 4).toBe(0)
    expect(empty.suggestedCartridges * 200).toBeGreaterThanOrEqual(empty.orderUpToMl!)
  })

  it('tells the parts manager when to order, until it is ordered', async () => {
    const told = async () => {
      await watchAll(test.database, test.clock.now)
      const { items } = await owner.read<{ items: { shopId: string; subject: object; message: string }[] }>(
        '/v1/alerts?kind=belowReorderPoint',
      )
      return items
    }
    expect(await told()).toMatchObject([
      { shopId: shop.shopId, subject: { kind: 'product', id: shop.productId } },
    ])
    const { id } = await order(40)
    await owner.made(`/v1/orders/${id}/placing`)
    expect(await told()).toEqual([])
    await owner.made(`/v1/orders/${id}/cancellation`, { reason: 'Only to see the alert close' })
    expect(await told()).toHaveLength(1)
  })

  it('counts what is on order, what comes of it, and closes an order that has come whole', async () => {
    const drafted = await order(8)
    expect(drafted).toMatchObject({ state: 'draft', number: 2, totalCents: 32_000, currency: 'USD' })
    expect((await line())?.onOrder).toBe(0)
    await owner.made(`/v1/orders/${drafted.id}/placing`)
    expect((await owner.post(`/v1/orders/${drafted.id}/placing`)).status).toBe(409)
    expect((await line())?.onOrder).toBe(8)
    await receive(owner, shop, { cartridges: 5 })
    expect((await line())?.onOrder).toBe(3)
    test.clock.now = new Date(NOON.getTime() + 60_000)
    const later = await order(2)
    await owner.made(`/v1/orders/${later.id}/placing`)
    await receive(owner, shop, { cartridges: 4 })
    const { items } = await owner.read<{ items: PurchaseOrder[] }>(`/v1/orders?shopId=${shop.shopId}`)
    const newest = items.toSorted((a, b) => b.number - a.number)
    expect(newest.map(({ number, state, lines }) => [number, state, lines[0]!.receivedCartridges])).toEqual([
      [3, 'placed', 1],
      [2, 'received', 8],
      [1, 'cancelled', 0],
    ])
    const cancelled = await owner.made<PurchaseOrder>(`/v1/orders/${later.id}/cancellation`, {
      reason: 'Supplier has none left',
    })
    expect(cancelled).toMatchObject({ state: 'cancelled', note: 'Supplier has none left' })
    expect((await line())?.onOrder).toBe(0)
  })

  it('writes the order as CSV and PDF, and refuses what another supplier delivers', async () => {
    const { id } = await order(3)
    const csv = await owner.get(`/v1/orders/${id}/csv`)
    expect(csv.headers['content-type']).toContain('text/csv')
    expect(csv.text).toContain('Order,Supplier,Product,Cartridges,Received,Unit price,Currency\r\n')
    expect(csv.text).toContain(`Invented Supply,${PRODUCT.name}`)
    const pdf = await owner.get(`/v1/orders/${id}/pdf`).buffer()
    expect(pdf.headers['content-type']).toContain('application/pdf')
    const stranger = await owner.made('/v1/suppliers', { ...supplier, name: 'Other Supply' })
    const refused = await owner.post(`/v1/shops/${shop.shopId}/orders`, {
      supplierId: stranger.id,
      lines: [{ productId: shop.productId, cartridges: 1 }],
    })
    expect(refused.status).toBe(422)
    expect(refused.body.reasons[0].field).toBe('body.lines.0.productId')
  })

  it('gives two who draft at once two numbers', async () => {
    const made = await Promise.all([order(1), order(1), order(1)])
    expect(new Set(made.map(({ number }) => number)).size).toBe(3)
  })

  it('foresees what will be lost, and proposes to send it where it is used', async () => {
    const before = await owner.read<{ items: Wire<WasteLine>[] }>('/v1/wasteForecast')
    expect(before.items.filter(({ shopId }) => shopId === other.shopId)).toEqual([])
    // The other shop never uses it: all of a short-dated lot there will be lost.
    const body = {
      productId: shop.productId,
      lotNumber: `SHORT-${kind}`,
      printedExpiry: { date: '2031-06-30' },
      cartridges: 3,
      locationId: other.locationId,
    }
    await owner.made(`/v1/shops/${other.shopId}/receipts`, body)
    const waste = await owner.read<{ expectedCents: number; items: Wire<WasteLine>[] }>(
      `/v1/wasteForecast?shopId=${other.shopId}`,
    )
    expect(waste.items).toMatchObject([
      {
        lotNumber: body.lotNumber,
        cartridges: 3,
        volumeMl: 600,
        expectedMl: 600,
        probability: 1,
        expectedCents: 12_000,
      },
    ])

    const nowhere = await owner.made<TransferPlan>('/v1/transferPlans')
    expect(nowhere).toMatchObject({ transfers: [], savedCents: 0 })
    expect(nowhere.notes[0]).toContain('no way between two shops')
    const lane = `/v1/shops/${other.shopId}/lanes/${shop.shopId}`
    expect((await owner.put(lane, { days: 1, tripCents: 2000 })).status).toBe(200)
    // The shop's own stock outlasts it, so the short-dated goes first there.
    const plan = await owner.made<TransferPlan>('/v1/transferPlans')
    expect(plan.isOptimal).toBe(true)
    expect(plan.transfers).toMatchObject([
      { fromShopId: other.shopId, toShopId: shop.shopId, lotNumber: body.lotNumber, cartridges: 3 },
    ])
    expect(plan.transfers[0]!.codes).toHaveLength(3)
    expect(plan.savedCents).toBe(plan.wasteWithoutCents - plan.wasteWithCents - plan.transferCostCents)
    expect(plan.savedCents).toBeGreaterThan(0)
    expect(plan.transferCostCents).toBe(2000 + 3 * 150)
  })

  it('leaves what is kept for a joint where it is, and counts what is on its way as coming', async () => {
    const { items } = await owner.read<{ items: { id: string; code: string }[] }>(
      `/v1/cartridges?shopId=${other.shopId}`,
    )
    const { jointId } = await makeJoint(owner, { ...other, productId: shop.productId })
    const kept = await owner.made<{ items: { code: string }[] }>(`/v1/joints/${jointId}/reservation`)
    const plan = await owner.made<TransferPlan>('/v1/transferPlans')
    const sent = plan.transfers.flatMap(({ codes }) => codes)
    expect(sent.length).toBeGreaterThan(0)
    for (const { code } of kept.items) expect(sent).not.toContain(code)
    const before = (await line())!.onOrder
    const cartridgeIds = items.filter(({ code }) => sent.includes(code)).map(({ id }) => id)
    await owner.made(`/v1/shops/${other.shopId}/shipments`, {
      toShopId: shop.shopId,
      cartridgeIds,
      reason: 'Used there before it dies',
    })
    expect((await line())!.onOrder).toBe(before + cartridgeIds.length)
  })

  it('keeps policy and suppliers from being edited from an old version', async () => {
    const policy = await owner.read<{ version: number }>('/v1/replenishmentPolicy')
    const edit = { serviceLevel: 0.98 }
    expect((await owner.patch('/v1/replenishmentPolicy', edit, policy.version)).body).toMatchObject(edit)
    expect((await owner.patch('/v1/replenishmentPolicy', edit, policy.version)).status).toBe(412)
    const gone = await owner.patch(`/v1/suppliers/${supplierId}`, { active: false }, 1)
    expect(gone.body).toMatchObject({ active: false, version: 2 })
    const refused = await owner.post(`/v1/shops/${shop.shopId}/orders`, {
      supplierId,
      lines: [{ productId: shop.productId, cartridges: 1 }],
    })
    expect(refused.body.reasons[0]).toMatchObject({ field: 'body.supplierId' })
  })
})
