import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import {
  application,
  approveSheets,
  freshBay,
  makeJoint,
  makeShop,
  otherPerson,
  PRODUCT,
  receive,
  SHEET,
  sheetTimes,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Sheet {
  readonly id: string
  readonly revision: string
  readonly recordedBy: string | null
  readonly answered: readonly string[]
  readonly validFrom: string | null
  readonly approval: { readonly by: string; readonly secondLook: boolean } | null
  readonly rejection: { readonly reason: string } | null
}
interface Product {
  readonly id: string
  readonly sheet: Sheet | null
  readonly sheets: readonly Sheet[]
}
interface Bond {
  readonly id: string
  readonly sheet: { readonly revision: string }
  readonly moveCheck: { readonly mayMove: boolean; readonly reasons: readonly { readonly code: string }[] }
  readonly incidents: readonly { readonly kind: string }[]
}

const DAY_MS = 86_400_000
const HOUR_MS = 3_600_000

describe('a revision of a data sheet counts once somebody else approved it', () => {
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
    shop = await freshBay(owner, shop, NOON)
  })
  afterAll(() => test.end())

  const product = (id = shop.productId) => owner.read<Product>(`/v1/products/${id}`)
  const propose = async (sheet: object, productId = shop.productId): Promise<string> => {
    await owner.made(`/v1/products/${productId}/sheets`, sheet)
    const { sheets } = await product(productId)
    return sheets.find(({ revision }) => revision === (sheet as { revision: string }).revision)!.id
  }
  const approval = (sheetId: string, productId = shop.productId) =>
    `/v1/products/${productId}/sheets/${sheetId}/approval`
  const bond = async (changes: object = {}) => {
    const [piece] = await receive(owner, shop)
    const { jointId } = await makeJoint(owner, shop)
    return owner.post(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id, changes))
  }

  it('so a newer one changes nothing until then, and says who recorded and who approved it', async () => {
    const slower = await propose(sheetTimes(1.5, 'B'))
    let now = await product()
    expect(now.sheet).toMatchObject({ revision: 'A' })
    expect(now.sheets[0]).toMatchObject({ revision: 'B', recordedBy: 'Owner', approval: null })
    expect((await bond()).body.sheet.revision).toBe('A')

    await (await otherPerson(owner)).made(approval(slower))
    now = await product()
    expect(now.sheet).toMatchObject({ revision: 'B', approval: { secondLook: false } })
    expect(now.sheet?.approval?.by).toContain('Parts manager')
    shop = await freshBay(owner, shop, NOON)
    expect((await bond()).body.sheet.revision).toBe('B')
  })

  it('and never by the one who recorded it while somebody else could, on any day', async () => {
    const id = await propose(sheetTimes(1.5, 'B'))
    for (const days of [0, 1]) {
      test.clock.now = new Date(NOON.getTime() + days * DAY_MS)
      const answer = await owner.post(approval(id), { secondLook: true })
      expect(answer.status).toBe(409)
      expect(answer.body.detail).toContain('it takes somebody else to approve it')
      expect(answer.body.reasons[0].fix).toContain('Parts manager')
    }
    expect((await product()).sheet).toMatchObject({ revision: 'A' })
  })

  it('once: a second approval is refused, and one of two at once', async () => {
    const id = await propose(sheetTimes(1.5, 'B'))
    const other = await otherPerson(owner)
    const answers = await Promise.all([other.post(approval(id)), other.post(approval(id))])
    expect(answers.map(({ status }) => status).toSorted((a, b) => a - b)).toEqual([201, 409])
    expect((await other.post(approval(id))).body.detail).toContain('was approved already by Parts manager')
  })

  it('unless it is turned down: then it never counts, and the same revision may be recorded again', async () => {
    const wrong = await propose(sheetTimes(3, 'B'))
    const rejection = `/v1/products/${shop.productId}/sheets/${wrong}/rejection`
    expect((await owner.post(rejection, { reason: '' })).status).toBe(422)
    expect((await owner.post(`/v1/products/${shop.productId}/sheets`, sheetTimes(2, 'B'))).status).toBe(409)
    await owner.made(rejection, { reason: 'Minutes were typed as hours' })
    const other = await otherPerson(owner)
    expect((await other.post(approval(wrong))).body.detail).toContain('was turned down already by Owner')
    test.clock.now = new Date(NOON.getTime() + HOUR_MS)
    await owner.made(`/v1/products/${shop.productId}/sheets`, sheetTimes(2, 'B'))
    expect((await product()).sheet).toMatchObject({ revision: 'A' })
    await approveSheets(owner, shop.productId)
    const { sheets, sheet } = await product()
    expect(sheet).toMatchObject({ revision: 'B', points: sheetTimes(2, 'B').points })
    const told = sheets.map(({ revision, approval, rejection }) => [
      revision,
      approval !== null,
      rejection?.reason,
    ])
    expect(told).toEqual([
      ['B', true, undefined],
      ['B', false, 'Minutes were typed as hours'],
      ['A', true, undefined],
    ])
  })

  it('of this product alone', async () => {
    const id = await propose(sheetTimes(1.5, 'B'))
    const { id: another } = await owner.made('/v1/products', { ...PRODUCT, name: 'Another one' })
    expect((await (await otherPerson(owner)).post(approval(id, another))).status).toBe(404)
  })

  it('keeps what was asked about it and stood by', async () => {
    const confirmed = ['muchFaster']
    await propose({ ...sheetTimes(1 / 3, 'B'), confirmed })
    const [newest] = (await product()).sheets
    expect(newest?.answered).toHaveLength(9)
    expect(newest?.answered[1]).toContain('more than twice as fast as before')
  })

  it('so with the only one unapproved no bond starts, and one that was made all the same is not ready', async () => {
    const { id: productId } = await owner.made('/v1/products', { ...PRODUCT, name: 'Typed by one' })
    expect((await product(productId)).sheet).toBeNull()
    shop = { ...shop, productId }
    const refused = await bond()
    expect(refused.status).toBe(409)
    expect(refused.body.reasons).toContainEqual(
      expect.objectContaining({ code: 'sheet-not-approved', overridable: false }),
    )
    expect(refused.body.detail).toContain('Typed by one, revision A, is not approved yet: it does not count')

    const made = await bond({ alreadyHappened: true, reason: 'It was on the car already' })
    expect(made.status).toBe(201)
    const { id } = made.body as Bond
    expect((made.body as Bond).incidents).toMatchObject([{ kind: 'appliedAgainstRefusal' }])
    test.clock.now = new Date(NOON.getTime() + 12 * HOUR_MS)
    const before = await owner.read<Bond>(`/v1/bonds/${id}`)
    expect(before.moveCheck.mayMove).toBe(false)
    expect(before.moveCheck.reasons.map(({ code }) => code)).toContain('cannot-compute')
    await watchAll(test.database, test.clock.now)
    const { items } = await owner.read<{ items: { kind: string; message: string }[] }>(
      `/v1/alerts?shopId=${shop.shopId}`,
    )
    expect(items.find(({ kind }) => kind === 'notComputed')?.message).toContain('is not approved yet')

    await approveSheets(owner, productId)
    const after = await owner.read<Bond>(`/v1/bonds/${id}`)
    expect(after.moveCheck.reasons.map(({ code }) => code)).not.toContain('cannot-compute')
  })

  it('and not before the day from which it is valid, in the zone of the shop', async () => {
    const id = await propose(sheetTimes(1.5, 'B', { validFrom: '2031-05-09' }))
    await (await otherPerson(owner)).made(approval(id))
    // 9 May begins at 4:00 UTC in New York.
    test.clock.now = new Date('2031-05-09T03:59:00Z')
    shop = await freshBay(owner, shop, test.clock.now)
    expect((await bond()).body.sheet.revision).toBe('A')
    test.clock.now = new Date('2031-05-09T04:01:00Z')
    shop = await freshBay(owner, shop, test.clock.now)
    expect((await bond()).body.sheet.revision).toBe('B')
    expect((await product()).sheet).toMatchObject({ revision: 'B', validFrom: '2031-05-09' })
  })

  it('and says when the only one begins to count', async () => {
    const sheet = { ...SHEET, validFrom: '2031-06-01' }
    const { id: productId } = await owner.made('/v1/products', { ...PRODUCT, name: 'Of June', sheet })
    await approveSheets(owner, productId)
    shop = { ...shop, productId }
    const { body } = await bond()
    expect(body.reasons).toContainEqual(expect.objectContaining({ code: 'sheet-not-valid-yet' }))
    expect(body.detail).toContain('revision A, counts from 1 Jun 2031 on')
  })

  it.each([
    ['before it was issued', { validFrom: '2030-12-31' }, 'body.validFrom', 'before the day on which'],
    ['decades ahead', { validFrom: '2061-01-01' }, 'body.validFrom', 'more than a year ahead'],
    ['that is no day', { validFrom: '2031-02-30' }, 'body.validFrom', ''],
    ['of issue that has not come', { issuedOn: '2031-07-05' }, 'body.issuedOn', 'is in the future'],
  ])('refuses a day %s by name', async (_, changes, field, message) => {
    const answer = await owner.post(`/v1/products/${shop.productId}/sheets`, sheetTimes(1.5, 'B', changes))
    expect(answer.status).toBe(422)
    expect(answer.body.reasons[0].field).toBe(field)
    expect(answer.body.reasons[0].message).toContain(message)
  })
})

describe('whoever is alone in a chain', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await startTestApp('embedded')
  })
  afterAll(() => test.end())

  it('looks a second time on the next day of every shop, and says so', async () => {
    const { owner, clock } = test
    const zones = ['America/New_York', 'America/Los_Angeles']
    for (const timeZone of zones)
      await owner.made('/v1/shops', { name: timeZone, timeZone, temperatureUnit: 'F' })
    const { id: productId } = await owner.made('/v1/products', PRODUCT)
    const { sheets } = await owner.read<Product>(`/v1/products/${productId}`)
    const approval = `/v1/products/${productId}/sheets/${sheets[0]!.id}/approval`

    const sameDay = await owner.post(approval, { secondLook: true })
    expect(sameDay.status).toBe(409)
    expect(sameDay.body.detail).toContain('a second look on another day')
    // Midnight has passed in New York, not in Los Angeles.
    clock.now = new Date('2031-05-08T05:00:00Z')
    expect((await owner.post(approval, { secondLook: true })).status).toBe(409)
    clock.now = new Date('2031-05-08T16:00:00Z')
    const unsaid = await owner.post(approval)
    expect(unsaid.status).toBe(409)
    expect(unsaid.body.reasons[0].fix).toContain('secondLook')
    const approved = await owner.made<Product>(approval, { secondLook: true })
    expect(approved.sheet).toMatchObject({ revision: 'A', approval: { by: 'Owner', secondLook: true } })
  })
})
