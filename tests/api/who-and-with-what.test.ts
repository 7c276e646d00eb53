import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import {
  application,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Reason {
  readonly code: string
  readonly message: string
  readonly overridable?: boolean
}

describe.each(ONE_KIND)('who may make which joint, and with what, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let technician: Client
  let technicianId: string
  let probeId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    technicianId = (
      await test.owner.made('/v1/people', {
        name: 'Technician',
        email: 'tech@test.example',
        password: PASSWORD,
        memberships: [{ shopId: shop.shopId, role: 'technician' }],
      })
    ).id
    technician = await test.signIn('tech@test.example')
    probeId = await instrument({ calibratedUntil: '2031-12-31' })
  })
  afterAll(() => test.end())

  let serial = 0
  async function instrument(changes: object = {}): Promise<string> {
    serial += 1
    const body = {
      kind: 'metalProbe',
      name: `Instrument ${serial}`,
      serialNumber: `SN ${serial}`,
      accuracyC: 0.5,
    }
    return (await test.owner.made(`/v1/shops/${shop.shopId}/instruments`, { ...body, ...changes })).id
  }
  const qualify = async (safetyClass: string, issuedOn = '2031-01-01', validUntil = '2031-12-31') =>
    (
      await test.owner.made(`/v1/people/${technicianId}/qualifications`, {
        safetyClass,
        evidence: 'Course 1',
        issuedOn,
        validUntil,
      })
    ).id
  const end = (id: string) => test.owner.made(`/v1/qualifications/${id}/end`, { reason: 'Test is over' })
  const panel = (instrumentId: string | null, changes: object = {}) => ({
    panel: { temperatureC: 23, accuracyC: 0.5, source: 'metalProbe', instrumentId, ...changes },
  })
  const check = async (safetyClass: string, changes: object) => {
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop, { safetyClass })
    const { reasons } = await technician.made<{ reasons: Reason[] }>(
      `/v1/joints/${jointId}/bondChecks`,
      application(shop, piece!.id, changes),
    )
    return reasons
  }
  const codes = async (safetyClass: string, changes: object) =>
    (await check(safetyClass, changes)).map(({ code }) => code)

  it('asks S1 and S2 for a qualification and an instrument in calibration, and S3 and S4 for neither', async () => {
    for (const safetyClass of ['S1', 'S2'])
      expect(await codes(safetyClass, panel(null))).toEqual(['not-qualified', 'no-instrument'])
    for (const safetyClass of ['S3', 'S4']) expect(await codes(safetyClass, panel(null))).toEqual([])
  })

  it('lets a graver qualification cover the lighter classes, and no other way', async () => {
    const light = await qualify('S2')
    expect(await codes('S2', panel(probeId))).toEqual([])
    expect(await codes('S1', panel(probeId))).toEqual(['not-qualified'])
    await end(light)
    const grave = await qualify('S1')
    expect(await codes('S1', panel(probeId))).toEqual([])
    expect(await codes('S2', panel(probeId))).toEqual([])
    await end(grave)
    const [ended] = await check('S2', panel(probeId))
    expect(ended).toMatchObject({ code: 'qualification-expired', overridable: true })
    expect(ended!.message).toContain('was ended on 7 May 2031')
    expect((await test.owner.post(`/v1/qualifications/${grave}/end`, { reason: 'Once more' })).status).toBe(
      409,
    )
  })

  it('counts the last day of a qualification to its end in the shop', async () => {
    const id = await qualify('S1', '2031-01-01', '2031-05-07')
    const at = async (iso: string) => {
      test.clock.now = new Date(iso)
      return codes('S1', panel(probeId))
    }
    // Midnight in New York in May is 04:00 UTC.
    expect(await at('2031-05-08T03:59:59Z')).toEqual([])
    expect(await at('2031-05-08T04:00:00Z')).toEqual(['qualification-expired'])
    test.clock.now = NOON
    await end(id)
  })

  it('refuses an instrument that is out of calibration by name, and one of the wrong kind or shop outright', async () => {
    const id = await qualify('S1')
    const due = await instrument({ name: 'Old probe', serialNumber: 'X1', calibratedUntil: '2031-05-06' })
    const [reason] = await check('S1', panel(due))
    expect(reason).toMatchObject({ code: 'out-of-calibration', overridable: true })
    expect(reason!.message).toBe('Old probe (X1) was calibrated until 6 May 2031')
    // A new calibration, and it may be used; with the version that was read.
    const renewed = await test.owner.patch(`/v1/instruments/${due}`, { calibratedUntil: '2032-05-06' }, 1)
    expect(renewed.body).toMatchObject({ inCalibration: true, version: 2 })
    expect(await codes('S1', panel(due))).toEqual([])
    const damp = await instrument({ kind: 'hygrometer', accuracyC: null, accuracyPercent: 3 })
    expect(await codes('S1', { ...panel(probeId), hygrometerId: damp })).toEqual(['out-of-calibration'])

    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    const elsewhere = await makeShop(test.owner)
    const { id: theirs } = await test.owner.made(`/v1/shops/${elsewhere.shopId}/instruments`, {
      kind: 'metalProbe',
      name: 'Theirs',
      serialNumber: 'T1',
      accuracyC: 1,
    })
    for (const [wish, field] of [
      [panel(damp), 'body.panel.instrumentId'],
      [panel(theirs), 'body.panel.instrumentId'],
      [{ hygrometerId: probeId }, 'body.hygrometerId'],
    ] as const) {
      const response = await technician.post(
        `/v1/joints/${jointId}/bonds`,
        application(shop, piece!.id, wish),
      )
      expect(response.status).toBe(422)
      expect(response.body.reasons[0].field).toBe(field)
    }
    await end(id)
  })

  it("counts the instrument's own accuracy, of the panel and of the air", async () => {
    const coarse = await instrument({ accuracyC: 4, calibratedUntil: '2031-12-31' })
    // 13 degC is inside 10 to 35, but may be 9 by this probe, whatever the request claims.
    const cold = { airTemperatureC: 12, ...panel(coarse, { temperatureC: 13, accuracyC: 0 }) }
    expect(await codes('S3', cold)).toContain('panel-too-cold')
    const hygrometerId = await instrument({ kind: 'hygrometer', accuracyC: null, accuracyPercent: 5 })
    // 25 degC at 80 %: dew point 21.3 degC, margin 3.7; at 85 % it is 22.3 and 2.7.
    const damp = {
      airTemperatureC: 25,
      relativeHumidityPercent: 80,
      ...panel(null, { temperatureC: 25, accuracyC: 0 }),
    }
    expect(await codes('S3', damp)).toEqual([])
    expect(await codes('S3', { ...damp, hygrometerId })).toEqual(['near-dew-point'])
  })

  it('asks an S1 joint for a second reading before its clamps come off, and keeps what is overridden', async () => {
    const id = await qualify('S1')
    const [piece] = await receive(test.owner, shop)
    const { jointId, orderId } = await makeJoint(test.owner, shop, { safetyClass: 'S1' })
    const bond = await technician.made(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, panel(probeId)),
    )
    await end(id)
    test.clock.now = new Date(NOON.getTime() + 1000)
    // Whoever closes the joint must be entitled as well.
    const clamp = await technician.post(`/v1/bonds/${bond.id}/clamping`)
    expect(clamp.body).toMatchObject({
      type: '/problems/bond-refused',
      reasons: [{ code: 'qualification-expired', overridable: true }],
    })
    const overrides = [{ code: 'not-qualified', reason: 'I closed it under supervision' }]
    expect((await technician.post(`/v1/bonds/${bond.id}/clamping`, { overrides })).status).toBe(403)
    const clamped = await test.owner.made<{ incidents: { kind: string; reason: string }[] }>(
      `/v1/bonds/${bond.id}/clamping`,
      { overrides },
    )
    expect(clamped.incidents).toMatchObject([{ kind: 'gateOverridden' }])
    expect(clamped.incidents[0]!.reason).toContain('I closed it under supervision')

    test.clock.now = new Date(NOON.getTime() + 6 * 3_600_000)
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 6)
    const early = await technician.post(`/v1/bonds/${bond.id}/release`)
    expect(early.body).toMatchObject({ type: '/problems/not-ready', reasons: [{ code: 'too-few-readings' }] })
    expect((await technician.post(`/v1/repairOrders/${orderId}/move`)).body.reasons).toMatchObject([
      { code: 'too-few-readings', overridable: true },
    ])
    // A reading by an instrument that nobody knows does not count towards it; one in calibration does.
    const at = (minutes: number) => new Date(NOON.getTime() + minutes * 60_000).toISOString()
    await technician.made(`/v1/bonds/${bond.id}/readings`, { at: at(340), temperatureC: 23 })
    expect((await technician.post(`/v1/bonds/${bond.id}/release`)).status).toBe(409)
    await technician.made(`/v1/bonds/${bond.id}/readings`, {
      at: at(350),
      temperatureC: 23,
      instrumentId: probeId,
    })
    const released = await technician.made<{ state: string }>(`/v1/bonds/${bond.id}/release`)
    expect(released.state).toBe('released')
    test.clock.now = NOON
  })

  it('keeps a release without the second reading open until somebody disposes of it', async () => {
    const id = await qualify('S1')
    shop = await freshBay(test.owner, shop, NOON)
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop, { safetyClass: 'S1' })
    const bond = await technician.made(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, panel(probeId)),
    )
    await technician.made(`/v1/bonds/${bond.id}/clamping`)
    test.clock.now = new Date(NOON.getTime() + 6 * 3_600_000)
    const told = await technician.made<{ incidents: { kind: string; fractionReached: number }[] }>(
      `/v1/bonds/${bond.id}/release`,
      { alreadyHappened: true, reason: 'Nobody knew of the second reading' },
    )
    expect(told.incidents).toMatchObject([{ kind: 'earlyRelease' }])
    expect(told.incidents[0]!.fractionReached).toBeGreaterThan(1)
    test.clock.now = NOON
    await end(id)
  })

  it('changes nothing of a qualification but its end, even for the owner of the database', async () => {
    await qualify('S3')
    const change = test.database.execute(`update qualification set valid_until = '2099-01-01'`)
    await expect(change).rejects.toThrow(/append-only/)
    await expect(test.database.execute('delete from qualification')).rejects.toThrow(/append-only/)
    const { items } = await test.owner.read<{ items: { personName: string; ended: object | null }[] }>(
      `/v1/qualifications?personId=${technicianId}`,
    )
    expect(items.filter(({ ended }) => ended === null)).toHaveLength(1)
    expect(items.every(({ personName }) => personName === 'Technician')).toBe(true)
    expect((await technician.get('/v1/qualifications')).status).toBe(403)
  })
})
