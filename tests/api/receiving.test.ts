import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import { makeShop, PRODUCT, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

const GS = '\u001D'
// An invented company prefix; the last digit is the check digit.
const GTIN = '09520123456788'

interface Scan {
  readonly kind: string
  readonly product: { id: string } | null
  readonly cartridges: number
  readonly lotNumber: string | null
  readonly lot: { id: string } | null
  readonly expiry: { date: string; precision: string } | null
  readonly questions: { code: string; message: string }[]
}

describe.each(ONE_KIND)('receiving by scan, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  const scan = (text: string, shopId = shop.shopId) => test.owner.post(`/v1/shops/${shopId}/scans`, { text })
  const read = async (text: string, shopId?: string) => {
    const response = await scan(text, shopId)
    expect(response.status, JSON.stringify(response.body)).toBe(200)
    return response.body as Scan
  }
  const delivery = (changes: object = {}) => ({
    productId: shop.productId,
    lotNumber: 'SCAN1',
    printedExpiry: { month: '2031-12' },
    cartridges: 2,
    gtin: GTIN,
    ...changes,
  })
  const deliver = (changes: object = {}) =>
    test.owner.made<{ receiptId: string; warnings: string[]; cartridges: { id: string; code: string }[] }>(
      `/v1/shops/${shop.shopId}/receipts`,
      delivery(changes),
    )
  const codesOf = ({ questions }: Scan) => questions.map(({ code }) => code)

  it.each([
    ['a lot number with a character that nobody sees', { lotNumber: 'SCAN1\u200B' }, 'body.lotNumber'],
    ['one that is written the other way round', { lotNumber: '\u202E1NACS' }, 'body.lotNumber'],
    ['an expiry that nobody lives to see', { printedExpiry: { date: '9999-12-31' } }, 'body.printedExpiry'],
    ['a month of that kind', { printedExpiry: { month: '2206-12' } }, 'body.printedExpiry'],
  ])('refuses %s, and names the field', async (_, changes, field) => {
    const refused = await test.owner.post(`/v1/shops/${shop.shopId}/receipts`, delivery(changes))
    expect(refused.status).toBe(422)
    expect(refused.body.reasons![0]!.field.startsWith(field)).toBe(true)
  })

  it('does not know a product once, and remembers it from then on', async () => {
    const text = `01${GTIN}17311200${'10'}SCAN1`
    const unknown = await read(text)
    expect(unknown).toMatchObject({
      kind: 'product',
      product: null,
      lotNumber: 'SCAN1',
      expiry: { date: '2031-12-31', precision: 'month' },
    })
    await deliver()
    const known = await read(`]d2${text}${GS}`)
    expect(known).toMatchObject({ product: { id: shop.productId }, cartridges: 1 })
    expect(known.lot).not.toBeNull()
    expect((await read(`https://id.example/01/${GTIN}/10/SCAN1?17=311200`)).product?.id).toBe(shop.productId)
    expect((await read('9520123456788')).product?.id).toBe(shop.productId)
  })

  it('asks about the same lot again, and is certain about the same serial and the same delivery note', async () => {
    expect(codesOf(await read(`01${GTIN}17311200${'10'}SCAN1`))).toEqual(['receivedLately'])
    await deliver({ serials: ['C-1', 'C-2'], deliveryNote: 'N-77', lotNumber: 'SCAN2' })
    expect(codesOf(await read(`01${GTIN}10SCAN2${GS}21C-1`))).toEqual(['sameSerial'])
    const again = await deliver({ deliveryNote: 'N-77', lotNumber: 'SCAN2' })
    expect(again.warnings.join()).toContain('delivery note N-77 was received already')
    // Another delivery note is another delivery.
    expect((await deliver({ deliveryNote: 'N-78', lotNumber: 'SCAN2' })).warnings).toEqual([])
    test.clock.now = new Date(NOON.getTime() + 73 * 3_600_000)
    expect(codesOf(await read(`01${GTIN}10SCAN1`))).toEqual([])
    test.clock.now = NOON
  })

  it.each([
    ['expired', '310501'],
    ['shortDated', '310520'],
  ])('questions a delivery that is %s', async (code, yymmdd) => {
    expect(codesOf(await read(`01${GTIN}17${yymmdd}10X${code}`))).toEqual([code])
  })

  it('questions another expiry of a lot on file, and a lot on hold', async () => {
    expect(codesOf(await read(`01${GTIN}1731113010SCAN1`))).toContain('otherExpiry')
    const { lot } = await read(`01${GTIN}10SCAN1`)
    await test.owner.made(`/v1/lots/${lot!.id}/hold`, { reason: 'Supplier asks to wait' })
    expect(codesOf(await read(`01${GTIN}10SCAN1`))).toContain('onHold')
  })

  it('says when no gun of this shop takes it, in the shop where that is so', async () => {
    const bare = await test.owner.made('/v1/shops', {
      name: `No gun ${kind}`,
      timeZone: 'America/Denver',
      temperatureUnit: 'F',
    })
    expect(codesOf(await read(`01${GTIN}10NEW`, bare.id))).toEqual(['noDispenserFits'])
  })

  it.each([
    ['a wrong check digit', `01${GTIN.slice(0, -1)}9`, 'check digit'],
    ['a wrong check digit of a plain GTIN', '9520123456789', 'check digit'],
    ['no GS1 text', 'hello, this is no label', 'no GS1 application identifier'],
    ['a word', 'hello', 'No cartridge on hand has a code that begins with hello'],
    ['no product', '10LOT1', 'no GTIN'],
    ['a code that nobody has', 'ZZZZ-ZZZZ', 'No cartridge'],
  ])('names %s', async (_what, text, says) => {
    const { status, body } = await scan(text)
    expect(status).toBe(422)
    expect(body.reasons[0]).toMatchObject({ field: 'body.text' })
    expect(body.reasons[0].message).toContain(says)
  })

  it("opens a cartridge by its own label, as code and as address, but not another shop's for who may not see it", async () => {
    const [piece] = await receive(test.owner, shop)
    for (const text of [piece!.code, piece!.code.toLowerCase(), `https://x.example/c/${piece!.code}`])
      expect(await read(text)).toMatchObject({ kind: 'cartridge', cartridge: { id: piece!.id } })
    // As much of it as is typed until it is the only one.
    const begun = piece!.code.slice(0, 7).toLowerCase()
    expect(await read(begun)).toMatchObject({ kind: 'cartridge', cartridge: { id: piece!.id } })
  })

  it('keeps a GTIN for one product, and lets it go again', async () => {
    const other = await test.owner.made('/v1/products', { ...PRODUCT, name: `Other ${kind}` })
    const stolen = await test.owner.post(
      `/v1/shops/${shop.shopId}/receipts`,
      delivery({ productId: other.id }),
    )
    expect(stolen.body.reasons[0].field).toBe('body.productId')
    const taken = await test.owner.post(`/v1/products/${other.id}/gtins`, { gtin: '9520123456788' })
    expect(taken.body).toMatchObject({ type: '/problems/already-exists' })
    const bad = await test.owner.post(`/v1/products/${other.id}/gtins`, { gtin: '9520123456781' })
    expect(bad.body.reasons[0].message).toContain('check digit')
    expect((await test.owner.delete(`/v1/products/${shop.productId}/gtins/${GTIN}`)).status).toBe(204)
    expect((await read(`01${GTIN}`)).product).toBeNull()
    await test.owner.made(`/v1/products/${other.id}/gtins`, { gtin: '9520123456788', cartridges: 12 })
    expect(await read('9520123456788')).toMatchObject({ product: { id: other.id }, cartridges: 12 })
    const { items } = await test.owner.read<{ items: object[] }>(`/v1/products/${other.id}/gtins`)
    expect(items).toMatchObject([{ gtin: GTIN, cartridges: 12 }])
  })

  it('prints the labels of a delivery as a PDF', async () => {
    const { receiptId } = await deliver({ gtin: null, lotNumber: 'LABELS', cartridges: 3 })
    const pdf = await test.owner.get(`/v1/labels.pdf?receiptId=${receiptId}&sheet=a4-3x8&start=23`)
    expect(pdf.status).toBe(200)
    expect(pdf.headers['content-type']).toBe('application/pdf')
    expect((pdf.body as Buffer).subarray(0, 5).toString()).toBe('%PDF-')
    const { body } = await test.owner.get(`/v1/labels.pdf?receiptId=${receiptId}&sheet=letter-2x5&start=11`)
    expect(body.reasons[0]).toMatchObject({
      field: 'query.start',
      message: 'must be at most 10 on this sheet',
    })
    expect((await test.owner.get('/v1/labels.pdf')).status).toBe(422)
    expect((await test.owner.get(`/v1/labels.pdf?receiptId=${shop.shopId}`)).status).toBe(404)
  })
})
