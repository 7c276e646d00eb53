import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  application,
  makeJoint,
  freshBay,
  makeShop,
  receive,
  SHEET,
  PRODUCT,
  steadyAir,
  type Shop,
  approveSheets,
} from '../support/fixtures.ts'
import { NOON, PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Reason {
  readonly code: string
  readonly message: string
  readonly overridable?: boolean
}

describe('the gates of rule 1', () => {
  let test: TestApp
  let shop: Shop
  let technician: Client
  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    await test.owner.made('/v1/people', {
      name: 'Technician',
      email: 'tech@test.example',
      password: PASSWORD,
      memberships: [{ shopId: shop.shopId, role: 'technician' }],
    })
    technician = await test.signIn('tech@test.example')
  })
  afterAll(() => test.end())

  const refusal = async (
    changes: object,
    joint: object = {},
    cartridge: { date?: string } = {},
  ): Promise<Reason[]> => {
    test.clock.now = NOON
    const [piece] = await receive(test.owner, shop, cartridge)
    const { jointId } = await makeJoint(test.owner, shop, joint)
    const response = await technician.post(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, changes),
    )
    expect(response.body.type).toBe('/problems/bond-refused')
    const check = await technician.made<{ mayStart: boolean; reasons: Reason[] }>(
      `/v1/joints/${jointId}/bondChecks`,
      application(shop, piece!.id, changes),
    )
    expect(check.mayStart).toBe(false)
    // The car of a test before may stand in the bay: the start says so once nothing else is against it.
    expect(check.reasons.filter(({ code }) => code !== 'bay-taken')).toEqual(response.body.reasons)
    return response.body.reasons as Reason[]
  }
  const codes = async (...wish: Parameters<typeof refusal>) =>
    (await refusal(...wish)).map(({ code }) => code)

  it('refuses each fault by its name', async () => {
    expect(await codes({}, { procedure: null })).toEqual(['no-procedure'])
    expect(await codes({ panel: { temperatureC: 9, accuracyC: 0.5 }, airTemperatureC: 12 })).toEqual([
      'panel-too-cold',
    ])
    expect(await codes({ panel: { temperatureC: 36 } })).toEqual(['panel-too-hot'])
    expect(await codes({ prepared: { surfaces: false, dryFit: false, skimCoat: false } })).toEqual([
      'surfaces-not-prepared',
      'no-dry-fit',
      'no-skim-coat',
    ])
    expect(await codes({ amountMl: 201 })).toEqual(['too-little'])
  })

  it('counts the accuracy of the thermometer against us', async () => {
    // 10.4 degC is inside the range of 10 to 35, but may really be 9.9.
    expect(await codes({ panel: { temperatureC: 10.4, accuracyC: 0.5 }, airTemperatureC: 12 })).toEqual([
      'panel-too-cold',
    ])
  })

  it('wants 3 degC above the dew point', async () => {
    // 25 degC at 85 %: dew point 22.3 degC (Alduchov and Eskridge 1996, published-value test of the package).
    const reasons = await refusal({
      airTemperatureC: 25,
      relativeHumidityPercent: 85,
      panel: { temperatureC: 25, accuracyC: 0 },
    })
    expect(reasons).toMatchObject([{ code: 'near-dew-point' }])
    expect(reasons[0]!.message).toContain('2.7 °C above the dew point of 22.3 °C')
  })

  it('names every reason at once', async () => {
    expect(
      await codes(
        { panel: { temperatureC: 5 }, prepared: { surfaces: false, dryFit: true, skimCoat: true } },
        { procedure: null },
      ),
    ).toEqual(['no-procedure', 'surfaces-not-prepared', 'panel-too-cold', 'near-dew-point'])
  })

  it('lets nobody override an expired or held cartridge', async () => {
    const overrides = [
      { code: 'expired', reason: 'It still looks good' },
      { code: 'on-hold', reason: 'It still looks good' },
    ]
    const [piece] = await receive(test.owner, shop, { date: '2031-05-06' })
    const { jointId } = await makeJoint(test.owner, shop)
    const dead = await test.owner.post(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, { overrides }),
    )
    expect(dead.body.reasons).toMatchObject([{ code: 'expired', overridable: false }])

    const [held] = await receive(test.owner, shop, { lotNumber: 'HELD1' })
    const { items } = await test.owner.read<{ items: { id: string }[] }>('/v1/lots?lotNumber=HELD1')
    await test.owner.made(`/v1/lots/${items[0]!.id}/hold`, { reason: 'Told by the maker' })
    const onHold = await test.owner.post(
      `/v1/joints/${jointId}/bonds`,
      application(shop, held!.id, { overrides }),
    )
    expect(onHold.body.reasons).toMatchObject([{ code: 'on-hold', overridable: false }])
  })

  it('counts the last printed day to its end in the shop, and not a second longer', async () => {
    const [piece] = await receive(test.owner, shop, { date: '2031-05-07' })
    const { jointId } = await makeJoint(test.owner, shop)
    const check = async (iso: string) => {
      test.clock.now = new Date(iso)
      const { reasons } = await test.owner.made<{ reasons: Reason[] }>(
        `/v1/joints/${jointId}/bondChecks`,
        application(shop, piece!.id),
      )
      return reasons.map(({ code }) => code)
    }
    // Midnight in New York in May is 04:00 UTC.
    expect(await check('2031-05-08T03:59:59Z')).toEqual([])
    expect(await check('2031-05-08T04:00:00Z')).toEqual(['expired'])
  })

  it('keeps the written reason of who goes on, and lets only the entitled do so', async () => {
    test.clock.now = NOON
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop, { procedure: null })
    const wish = application(shop, piece!.id, {
      overrides: [{ code: 'no-procedure', reason: 'Portal is down; copied by phone' }],
    })
    expect((await technician.post(`/v1/joints/${jointId}/bonds`, wish)).status).toBe(403)
    const bond = await test.owner.made<{ incidents: { kind: string; reason: string }[] }>(
      `/v1/joints/${jointId}/bonds`,
      wish,
    )
    expect(bond.incidents).toMatchObject([{ kind: 'gateOverridden' }])
    expect(bond.incidents[0]!.reason).toContain('Portal is down; copied by phone')
  })

  it('refuses a gun that does not fit, and a product without a sheet', async () => {
    const { id: otherGun } = await test.owner.made(`/v1/shops/${shop.shopId}/dispensers`, {
      name: 'Coaxial gun',
      cartridgeForms: ['coaxial 220'],
    })
    expect(await codes({ dispenserId: otherGun })).toEqual(['dispenser-does-not-fit'])

    const { id: productId } = await test.owner.made('/v1/products', {
      ...PRODUCT,
      name: 'Sheetless',
      sheet: null,
    })
    const [piece] = await receive(test.owner, { ...shop, productId })
    const { jointId } = await makeJoint(test.owner, { ...shop, productId })
    const bare = await test.owner.post(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    expect(bare.body.reasons).toMatchObject([{ code: 'no-data-sheet', overridable: false }])
    await test.owner.made(`/v1/products/${productId}/sheets`, SHEET)
    await approveSheets(test.owner, productId)
    const free = await freshBay(test.owner, shop, NOON)
    expect((await test.owner.post(`/v1/joints/${jointId}/bonds`, application(free, piece!.id))).status).toBe(
      201,
    )
  })

  it('refuses a data sheet whose times do not fall as it gets warmer', async () => {
    const upside = [SHEET.points[0]!, { ...SHEET.points[1]!, handlingTimeMinutes: 400 }]
    const response = await test.owner.post('/v1/products', {
      ...PRODUCT,
      name: 'Upside down',
      sheet: { ...SHEET, points: upside },
    })
    expect(response.status).toBe(422)
    expect(response.body.reasons[0].field).toMatch(/^body\.sheet\.points/)
  })
})
