import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { makeShop, type Shop } from '../support/fixtures.ts'
import { startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Product {
  readonly sheets: readonly {
    readonly id: string
    readonly documents: readonly {
      readonly id: string
      readonly name: string
      readonly bytes: number
      readonly sha256: string
      readonly by: string
    }[]
  }[]
}

const pdf = (size = 400) => Buffer.from(`%PDF-1.7\n${' '.repeat(size)}\nstartxref\n9\n%%EOF\n`)
const body = (bytes: Buffer) => ({ name: 'maker.pdf', base64: bytes.toString('base64') })

describe('the PDF of the maker', () => {
  let test: TestApp
  let owner: Client
  let shop: Shop
  let sheetId: string
  beforeAll(async () => {
    test = await startTestApp('embedded')
    owner = test.owner
    shop = await makeShop(owner)
    sheetId = (await product()).sheets[0]!.id
  })
  afterAll(() => test.end())

  const product = () => owner.read<Product>(`/v1/products/${shop.productId}`)
  const documents = () => `/v1/products/${shop.productId}/sheets/${sheetId}/documents`

  it('is kept with the revision as it was sent, and comes back to the byte', async () => {
    const sent = pdf()
    await owner.made(documents(), body(sent))
    const [kept] = (await product()).sheets[0]!.documents
    const sha256 = createHash('sha256').update(sent).digest('hex')
    expect(kept).toMatchObject({ name: 'maker.pdf', bytes: sent.length, sha256, by: 'Owner' })
    const got = await owner.get(`${documents()}/${kept!.id}`).buffer(true).responseType('blob')
    expect(got.headers['content-type']).toBe('application/pdf')
    expect(Buffer.compare(got.body as Buffer, sent)).toBe(0)
  })

  it('may have five megabytes, and no more', async () => {
    expect((await owner.post(documents(), body(pdf(5 * 1024 * 1024 - 100)))).status).toBe(201)
    const larger = await owner.post(documents(), body(pdf(5 * 1024 * 1024)))
    expect(larger.status).toBe(422)
    expect(larger.body.reasons[0]).toMatchObject({ field: 'body.base64', message: 'is larger than 5 MB' })
    const huge = await owner.post(documents(), body(pdf(8 * 1024 * 1024)))
    expect(huge.status).toBe(413)
    expect(huge.body.detail).toBe('The body is larger than 8 MiB')
    // What everything else may have is as it was.
    const other = await owner.post('/v1/suppliers', { name: 'x'.repeat(2 * 1024 * 1024) })
    expect(other.body.detail).toBe('The body is larger than 1 MiB')
  })

  it.each([
    ['a picture that is called one', Buffer.from('\x89PNG\r\n\x1a\n%%EOF', 'latin1'), 'is no PDF'],
    ['nothing', Buffer.from(''), ''],
    ['one that was cut short', pdf(4000).subarray(0, 3000), 'it was cut short'],
  ])('is not %s', async (_, bytes, message) => {
    const answer = await owner.post(documents(), body(bytes))
    expect(answer.status).toBe(422)
    expect(answer.body.reasons[0].field).toBe('body.base64')
    expect(answer.body.reasons[0].message).toContain(message)
  })

  it('of another product, or of none, is not there', async () => {
    const other = await makeShop(owner)
    const [kept] = (await product()).sheets[0]!.documents
    const path = `/v1/products/${other.productId}/sheets/${sheetId}/documents`
    expect((await owner.get(`${path}/${kept!.id}`)).status).toBe(404)
    expect((await owner.post(path, body(pdf()))).status).toBe(404)
  })
})
