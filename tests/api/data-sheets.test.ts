import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { makeShop, PRODUCT, SHEET, sheetTimes, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Product {
  readonly id: string
  readonly sheet: { readonly id: string; readonly revision: string } | null
  readonly sheets: readonly { readonly id: string; readonly revision: string }[]
}

describe('a data sheet is a claim', () => {
  let test: TestApp
  let owner: Client
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp('embedded')
    owner = test.owner
  })
  beforeEach(async () => {
    test.clock.now = NOON
    shop = await makeShop(owner)
  })
  afterAll(() => test.end())

  const post = (body: object) => owner.post(`/v1/products/${shop.productId}/sheets`, body)
  const revisions = async () =>
    (await owner.read<Product>(`/v1/products/${shop.productId}`)).sheets.map(({ revision }) => revision)

  it('that is three times as fast as the last revision is asked about, and kept only when confirmed', async () => {
    const fast = sheetTimes(1 / 3, 'B')
    const answer = await post(fast)
    expect(answer.status).toBe(409)
    expect(answer.body.type).toBe('/problems/sheet-questioned')
    expect(answer.body.reasons).toHaveLength(9)
    expect(answer.body.reasons[1]).toMatchObject({
      code: 'muchFaster',
      field: 'body.points.1.workTimeMinutes',
    })
    expect(answer.body.detail).toContain(
      'Handling time of 1 h 00 min at 23.0 °C (73.4 °F) is more than twice as fast as before: the last revision says 3 h 00 min',
    )
    expect(await revisions()).toEqual(['A'])
    // Another question's answer is none to this one.
    expect((await post({ ...fast, confirmed: ['fahrenheit'] })).status).toBe(409)
    expect((await post({ ...fast, confirmed: ['muchFaster'] })).status).toBe(201)
    expect(await revisions()).toEqual(['B', 'A'])
  })

  it('takes no time that no person could work within, confirmed or not', async () => {
    const [point] = SHEET.points
    const sheet = { ...SHEET, points: [{ ...point, workTimeMinutes: 1e-300 }] }
    const answer = await post({ ...sheet, confirmed: ['muchFaster', 'handlingInMinutes'] })
    expect(answer.status).toBe(422)
    expect(JSON.stringify(answer.body)).toContain('body.points.0.workTimeMinutes')
    expect(JSON.stringify(answer.body)).toContain('at least 0.1 minutes')
    expect(await revisions()).toEqual(['A'])
  })

  it('of 73 entered as degC, or with limits that no shop meets, is asked about, with a new product too', async () => {
    const [point] = SHEET.points
    const sheet = {
      ...SHEET,
      points: [{ ...point, temperatureC: 73 }],
      applicationRangeC: { min: 50, max: 95 },
    }
    const answer = await owner.post('/v1/products', { ...PRODUCT, name: 'Slip of the unit', sheet })
    expect(answer.status).toBe(409)
    expect(answer.body.reasons).toMatchObject([
      { code: 'fahrenheit', field: 'body.sheet.points.0.temperatureC' },
      { code: 'applicationOutsideShop', field: 'body.sheet.applicationRangeC' },
      { code: 'fahrenheit', field: 'body.sheet.applicationRangeC.max' },
    ])
    expect(answer.body.reasons[0].message).toContain('was 22.8 °C (73.0 °F) meant?')
  })

  it('that is slower is kept without a question', async () => {
    expect((await post(sheetTimes(1.5, 'B'))).status).toBe(201)
  })
})
