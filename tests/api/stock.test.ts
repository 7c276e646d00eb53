import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { ONE_KIND } from '../support/databases.ts'
import { makeShop, PRODUCT, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Cartridge {
  readonly id: string
  readonly state: string
  readonly remainingMl: number
  readonly effectiveExpiryAt: string
  readonly expiryLimit: string
  readonly expiryReason: string
  readonly fitsDispenser: boolean
}

describe.each(ONE_KIND)('stock, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())
  const cartridge = (id: string) => test.owner.read<Cartridge>(`/v1/cartridges/${id}`)

  it('takes a month without a day as its last day', async () => {
    const body = {
      productId: shop.productId,
      lotNumber: 'MONTH',
      printedExpiry: { month: '2032-02' },
      cartridges: 1,
    }
    const { lot } = await test.owner.made<{ lot: { printedExpiry: string } }>(
      `/v1/shops/${shop.shopId}/receipts`,
      body,
    )
    expect(lot.printedExpiry).toBe('2032-02-29')
  })

  it('refuses the same lot with another expiry, and takes more of it with the same', async () => {
    await receive(test.owner, shop, { lotNumber: 'SAME', date: '2031-08-31' })
    await receive(test.owner, shop, { lotNumber: 'SAME', date: '2031-08-31', cartridges: 2 })
    const { items } = await test.owner.read<{ items: { onHand: object[] }[] }>('/v1/lots?lotNumber=SAME')
    expect(items[0]!.onHand).toMatchObject([{ sealed: 3, opened: 0, volumeMl: 600 }])
    const other = await test.owner.post(`/v1/shops/${shop.shopId}/receipts`, {
      productId: shop.productId,
      lotNumber: 'SAME',
      printedExpiry: { date: '2031-09-30' },
      cartridges: 1,
    })
    expect(other.status).toBe(422)
    expect(other.body.reasons[0].field).toBe('body.printedExpiry')
  })

  it('says when no gun of the shop takes the cartridge', async () => {
    const { id: productId } = await test.owner.made('/v1/products', {
      ...PRODUCT,
      name: `Wide ${kind}`,
      cartridgeForm: 'wide 300',
    })
    const body = { productId, lotNumber: 'WIDE', printedExpiry: { date: '2031-12-31' }, cartridges: 1 }
    const { warnings, cartridges } = await test.owner.made<{ warnings: string[]; cartridges: Cartridge[] }>(
      `/v1/shops/${shop.shopId}/receipts`,
      body,
    )
    expect(warnings.join()).toContain('No dispenser of this shop takes a wide 300 cartridge')
    expect(cartridges[0]!.fitsDispenser).toBe(false)
  })

  it('dies by its open life, from the instant of opening', async () => {
    const [piece] = await receive(test.owner, shop)
    const opened = await test.owner.made<Cartridge>(`/v1/cartridges/${piece!.id}/opening`)
    expect(opened).toMatchObject({
      state: 'opened',
      expiryLimit: 'openLife',
      effectiveExpiryAt: '2031-06-06T16:00:00.000Z',
    })
    const twice = await test.owner.post(`/v1/cartridges/${piece!.id}/opening`)
    expect(twice.body.type).toBe('/problems/wrong-state')
  })

  it.each([
    ['the future', 1, 'is in the future'],
    ['before it was here', -1, 'is before the cartridge was received'],
  ])('is opened at no instant of %s', async (_, byMs, detail) => {
    const [piece] = await receive(test.owner, shop)
    const openedAt = new Date(NOON.getTime() + byMs).toISOString()
    const answer = await test.owner.post(`/v1/cartridges/${piece!.id}/opening`, { openedAt })
    expect(answer.body).toMatchObject({ status: 422, reasons: [{ field: 'body.openedAt' }] })
    expect(answer.body.detail).toContain(detail)
    expect((await cartridge(piece!.id)).state).toBe('sealed')
  })

  it('loses life in warm storage: readings late, twice and out of order come to the same', async () => {
    const [piece] = await receive(test.owner, shop)
    // Ten degrees above the label for 48 h takes 48 h off (Q10 = 2).
    const reading = (hours: number) => ({
      at: new Date(NOON.getTime() + hours * 3_600_000).toISOString(),
      temperatureC: 33,
    })
    test.clock.now = new Date(NOON.getTime() + 48 * 3_600_000)
    const send = (readings: object[]) =>
      test.owner.made<{ stored: number; alreadyThere: number }>(
        `/v1/sensors/${shop.storageSensorId}/readings`,
        { readings },
      )
    await send([reading(48), reading(12)])
    await send([reading(0), reading(36), reading(12)])
    expect(await send([reading(0), reading(24)])).toMatchObject({ stored: 1, alreadyThere: 1 })
    const warm = await cartridge(piece!.id)
    expect(warm.expiryLimit).toBe('warmStorage')
    // The end of 2031-12-31 in New York, less 48 h.
    expect(Date.parse('2032-01-01T05:00:00Z') - Date.parse(warm.effectiveExpiryAt)).toBeCloseTo(
      48 * 3_600_000,
      -2,
    )
    expect(warm.expiryReason).toContain('2 days')
    test.clock.now = NOON
  })

  it('takes a table of a logger: twice, out of order, in °F, and names the line of a fault', async () => {
    const fresh = await makeShop(test.owner)
    const send = (csv: string) =>
      test.owner.post(`/v1/sensors/${fresh.storageSensorId}/readingsTable`, { csv })
    const table =
      'at;temperatureF;battery\r\n2031-05-07T14:00:00Z;91.4;ok\r\n2031-05-07T10:00:00-04:00;91.4;ok\r\n2031-05-07T13:00:00Z;77;ok\r\n'
    expect((await send(table)).body).toMatchObject({ stored: 2, alreadyThere: 1, differing: 0 })
    expect((await send(table)).body).toEqual({ stored: 0, alreadyThere: 3, differing: 0, suspect: 0 })
    const bad = await send(
      'at,temperatureC\n2031-05-07T12:00:00Z,20\nyesterday,20\n2031-05-07T12:30:00Z,warm\n',
    )
    expect(bad.status).toBe(422)
    expect(bad.body.reasons.map(({ message }: { message: string }) => message)).toEqual([
      expect.stringContaining('Line 3, at: must be an instant with an offset'),
      expect.stringContaining('Line 4, temperatureC'),
    ])
    const ahead = await send('at,temperatureC\n2031-05-08T12:00:00Z,20\n')
    expect(ahead.body.detail).toContain('is in the future')
    expect((await send('"at,temperatureC\n')).status).toBe(422)
  })

  it('pages through everything once, the soonest to die first', async () => {
    await receive(test.owner, shop, { cartridges: 7 })
    const seen: string[] = []
    const expiries: string[] = []
    let cursor = ''
    do {
      const page = await test.owner.read<{ items: Cartridge[]; nextCursor: string | null }>(
        `/v1/cartridges?limit=3&shopId=${shop.shopId}${cursor}`,
      )
      seen.push(...page.items.map(({ id }) => id))
      expiries.push(...page.items.map(({ effectiveExpiryAt }) => effectiveExpiryAt))
      cursor = page.nextCursor ? `&cursor=${page.nextCursor}` : ''
    } while (cursor)
    expect(new Set(seen).size).toBe(seen.length)
    expect(expiries).toEqual(expiries.toSorted())
    const all = await test.owner.read<{ items: Cartridge[] }>(
      `/v1/cartridges?limit=500&shopId=${shop.shopId}`,
    )
    expect(seen).toHaveLength(all.items.length)
  })

  it('fills each further nozzle from the cartridge, and is empty when no more than that was left', async () => {
    const [piece] = await receive(test.owner, shop)
    const change = () => test.owner.post(`/v1/cartridges/${piece!.id}/nozzleChange`)
    expect((await change()).body).toMatchObject({ type: '/problems/wrong-state', status: 409 })
    await test.owner.made(`/v1/cartridges/${piece!.id}/opening`)
    expect((await change()).body).toMatchObject({ state: 'opened', remainingMl: 192 })
    const weighed = { remainingMl: 5, reason: 'Weighed it' }
    await test.owner.made(`/v1/cartridges/${piece!.id}/correction`, weighed)
    expect((await change()).body).toMatchObject({ state: 'empty', remainingMl: 0 })
    const { items } = await test.owner.read<{ items: { kind: string; volumeChangeMl: number }[] }>(
      `/v1/stockMovements?cartridgeId=${piece!.id}`,
    )
    expect(items.map(({ kind, volumeChangeMl }) => [kind, volumeChangeMl]).toReversed()).toEqual([
      ['received', 200],
      ['opened', 0],
      ['used', -8],
      ['corrected', -187],
      ['used', -5],
      ['emptied', 0],
    ])
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('keeps a ledger that adds up, and says who, when and why', async () => {
    const [piece] = await receive(test.owner, shop)
    await test.owner.made(`/v1/cartridges/${piece!.id}/opening`)
    await test.owner.made(`/v1/cartridges/${piece!.id}/correction`, {
      remainingMl: 120.5,
      reason: 'Weighed it',
    })
    await test.owner.made(`/v1/cartridges/${piece!.id}/discard`, { reason: 'Nozzle set hard' })
    const { items } = await test.owner.read<{
      items: { kind: string; volumeChangeMl: number; by: string; reason: string }[]
    }>(`/v1/stockMovements?cartridgeId=${piece!.id}`)
    expect(items.map(({ kind: each, volumeChangeMl }) => [each, volumeChangeMl])).toEqual([
      ['discarded', -120.5],
      ['corrected', -79.5],
      ['opened', 0],
      ['received', 200],
    ])
    expect(items[0]).toMatchObject({ by: 'Owner', reason: 'Nozzle set hard' })
    expect(await verifyLedger(test.database)).toEqual([])
  })
})
