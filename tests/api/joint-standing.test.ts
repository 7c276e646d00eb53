import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  acceptance,
  addJoint,
  application,
  freshBay,
  makeJoint,
  makeShop,
  PHOTO,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { ONE_KIND } from '../support/databases.ts'
import { NOON, PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Incident {
  readonly id: string
  readonly kind: string
  readonly reason: string
  readonly disposition: { readonly kind: string } | null
  readonly inspections: readonly { readonly id: string; readonly waitsForSecondPerson: boolean }[]
}

interface Bond {
  readonly id: string
  readonly state: string
  readonly incidents: readonly Incident[]
  readonly countsFrom: string
  readonly toldLate: { readonly appliedMinutes: number | null; readonly clampedMinutes: number | null }
  readonly moveCheck: { readonly mayMove: boolean; readonly reasons: readonly { readonly code: string }[] }
  readonly estimate: {
    readonly handlingStrength: { readonly progress: { readonly conservative: number } }
  }
}

interface Order {
  readonly version: number
  readonly joints: readonly { readonly state: string; readonly bonds: readonly Bond[] }[]
  readonly moveCheck: Bond['moveCheck']
  readonly bay: { readonly name: string } | null
}

const HAPPENED = { alreadyHappened: true, reason: 'Clamps were taken for another job' }

describe.each(ONE_KIND)('where a joint stands, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const iso = (minutes: number) => new Date(NOON.getTime() + minutes * 60_000).toISOString()
  const order = (id: string) => test.owner.read<Order>(`/v1/repairOrders/${id}`)
  const bondOf = (id: string) => test.owner.read<Bond>(`/v1/bonds/${id}`)
  const job = async (safetyClass = 'S3') => {
    at(0)
    shop = await freshBay(test.owner, shop, NOON)
    const [cartridge] = await receive(test.owner, shop)
    return { ...(await makeJoint(test.owner, shop, { safetyClass })), cartridgeId: cartridge!.id }
  }
  const bonded = async (safetyClass = 'S3', changes: object = {}) => {
    const made = await job(safetyClass)
    const body = application(shop, made.cartridgeId, changes)
    const path = `/v1/joints/${made.jointId}/bonds`
    const bond = await test.owner.made<Bond>(path, body)
    return { ...made, bondId: bond.id, again: () => test.owner.made<Bond>(path, body) }
  }
  const close = async (orderId: string) => {
    const { version } = await order(orderId)
    return test.owner.patch(`/v1/repairOrders/${orderId}`, { state: 'done' }, version)
  }
  const codes = ({ moveCheck }: Pick<Order, 'moveCheck'>) => moveCheck.reasons.map(({ code }) => code)

  it('does not forget that a joint was released at a tenth of its strength', async () => {
    const { orderId, bondId } = await bonded()
    await test.owner.made(`/v1/bonds/${bondId}/clamping`)
    at(20)
    await test.owner.made(`/v1/bonds/${bondId}/release`, HAPPENED)
    at(2000)
    const held = await order(orderId)
    expect(held.joints[0]!.state).toBe('releasedEarly')
    expect(held.moveCheck.mayMove).toBe(false)
    expect(codes(held)).toEqual(['released-early'])
    expect((await bondOf(bondId)).moveCheck.mayMove).toBe(false)
    expect((await test.owner.post(`/v1/repairOrders/${orderId}/move`)).status).toBe(409)
    expect((await close(orderId)).body.reasons).toMatchObject([{ code: 'released-early' }])
  })

  it('keeps a vehicle with an abandoned attempt until it is bonded again, or somebody has looked', async () => {
    const { orderId, bondId, again } = await bonded()
    await test.owner.made(`/v1/bonds/${bondId}/abandonment`, {
      reason: 'Lifted to align it',
      wasLifted: true,
    })
    const left = await order(orderId)
    expect(left.joints[0]!.state).toBe('lifted')
    expect(codes(left)).toEqual(['adhesive-left'])
    expect((await close(orderId)).status).toBe(409)
    const bond = await again()
    // The record of the first attempt says what became of it.
    const { entries } = await test.owner.read<{
      entries: { kind: string; facts: { reason?: string; disposition?: string } }[]
    }>(`/v1/bonds/${bondId}/record`)
    expect(entries.slice(-2)).toMatchObject([
      { kind: 'incident', facts: { reason: 'Lifted to align it' } },
      { kind: 'disposition', facts: { disposition: 'redone', reason: 'Bonded again' } },
    ])
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
    at(900)
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 16)
    await test.owner.made(`/v1/bonds/${bond.id}/release`)
    expect(await order(orderId)).toMatchObject({
      joints: [{ state: 'releasedReady' }],
      moveCheck: { mayMove: true },
    })
    expect((await close(orderId)).status).toBe(200)
  })

  it('asks for the worst of all joints, not of those that run', async () => {
    const { orderId, bondId, cartridgeId } = await bonded()
    const other = await addJoint(test.owner, shop, orderId, { name: 'Roof skin' })
    await test.owner.made(`/v1/bonds/${bondId}/clamping`)
    await test.owner.made(`/v1/bonds/${bondId}/release`, HAPPENED)
    const bond = await test.owner.made<Bond>(`/v1/joints/${other}/bonds`, application(shop, cartridgeId))
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
    at(900)
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 16)
    await test.owner.made(`/v1/bonds/${bond.id}/release`)
    expect(codes(await order(orderId))).toEqual(['released-early'])
  })

  it('does not let a late clamp pass by calling it redone while it cures', async () => {
    const { orderId, bondId } = await bonded()
    at(90)
    const { incidents } = await test.owner.made<Bond>(`/v1/bonds/${bondId}/clamping`)
    const redone = { kind: 'redone', reason: 'To be bonded again' }
    await test.owner.made(`/v1/incidents/${incidents[0]!.id}/disposition`, redone)
    at(900)
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 16)
    expect((await test.owner.post(`/v1/bonds/${bondId}/release`)).body.reasons).toMatchObject([
      { code: 'to-be-redone' },
    ])
    expect(codes(await order(orderId))).toEqual(['to-be-redone'])
  })

  it('keeps the incident of a late clamp open when the technician abandons the attempt', async () => {
    const { bondId } = await bonded()
    at(90)
    const { incidents } = await test.owner.made<Bond>(`/v1/bonds/${bondId}/clamping`)
    await test.owner.made(`/v1/bonds/${bondId}/abandonment`, { reason: 'Too late' })
    const late = (await bondOf(bondId)).incidents.find(({ id }) => id === incidents[0]!.id)
    expect(late).toMatchObject({ kind: 'clampedAfterWorkTime', disposition: null })
  })

  it('records an application that a gate refuses, and holds the vehicle for it', async () => {
    const { orderId, jointId, cartridgeId } = await job()
    const body = application(shop, cartridgeId, {
      // Read with the probe: never quite what the bay's thermometer shows.
      airTemperatureC: 23.4,
      panel: { temperatureC: 2, accuracyC: 0.5, source: 'metalProbe' },
    })
    expect((await test.owner.post(`/v1/joints/${jointId}/bonds`, body)).status).toBe(409)
    const path = `/v1/joints/${jointId}/bonds`
    const unsaid = await test.owner.post(path, { ...body, alreadyHappened: true })
    expect(unsaid.body.reasons).toMatchObject([{ field: 'body.reason' }])
    const told = { ...body, alreadyHappened: true, reason: 'It was on before anybody measured' }
    const bond = await test.owner.made<Bond>(path, told)
    expect(bond.incidents).toMatchObject([
      { kind: 'appliedAgainstRefusal', reason: expect.stringContaining('below the') },
    ])
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
    // Each hour as it comes: a log of the past would make nothing ready.
    for (let hour = 1; hour <= 12; hour++) {
      at(60 * hour)
      await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 0.25)
    }
    at(5000)
    expect(codes(await order(orderId))).toEqual(['applied-against-refusal'])
    expect((await test.owner.post(`/v1/bonds/${bond.id}/release`)).status).toBe(409)
  })

  it('does not make anything ready sooner by a word about the past', async () => {
    const made = await job()
    at(240)
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 5)
    // Said to have been on for four hours, told now.
    const body = application(shop, made.cartridgeId, { appliedAt: iso(0) })
    const bond = await test.owner.made<Bond>(`/v1/joints/${made.jointId}/bonds`, body)
    expect(bond.toldLate.appliedMinutes).toBe(240)
    expect(bond.countsFrom).toBe(iso(225))
    const late = await test.owner.made<Bond>(`/v1/bonds/${bond.id}/clamping`, { at: iso(1) })
    // Nor does it close a joint within its work time.
    expect(late.incidents).toMatchObject([{ kind: 'clampedAfterWorkTime' }])
    expect(late.toldLate.clampedMinutes).toBe(239)
    expect(late.estimate.handlingStrength.progress.conservative).toBeLessThan(0.1)
  })

  it('promises no more work time before the adhesive is on than it counts afterwards', async () => {
    const { jointId, cartridgeId } = await job()
    const body = application(shop, cartridgeId)
    const check = await test.owner.made<{ workTimeMinutes: number; handlingTimeMinutes: number }>(
      `/v1/joints/${jointId}/bondChecks`,
      body,
    )
    interface Clocks {
      readonly estimate: Record<
        'workTime' | 'handlingStrength',
        { readonly readyAt: { readonly earliest: { at: string }; readonly conservative: { at: string } } }
      >
    }
    const { estimate } = await test.owner.made<Clocks>(`/v1/joints/${jointId}/bonds`, body)
    const minutes = (at: string) => (Date.parse(at) - NOON.getTime()) / 60_000
    expect(check.workTimeMinutes).toBeCloseTo(minutes(estimate.workTime.readyAt.earliest.at), 3)
    expect(check.workTimeMinutes).toBeLessThan(60)
    expect(check.handlingTimeMinutes).toBeCloseTo(
      minutes(estimate.handlingStrength.readyAt.conservative.at),
      3,
    )
  })

  it('asks for all open repair orders of one vehicle, and moves with them', async () => {
    const vin = '1M8GDM9AXKP042788'
    const known = async (orderId: string) => {
      const { version } = await order(orderId)
      const changed = await test.owner.patch(`/v1/repairOrders/${orderId}`, { vin }, version)
      expect(changed.status, JSON.stringify(changed.body)).toBe(200)
    }
    const first = await bonded()
    const { orderId } = await makeJoint(test.owner, shop)
    expect((await order(orderId)).moveCheck.mayMove).toBe(true)
    await known(first.orderId)
    // Another vehicle as long as nobody says which one it is.
    expect((await order(orderId)).moveCheck.mayMove).toBe(true)
    await known(orderId)
    const { moveCheck, joints } = await order(orderId)
    expect(joints).toHaveLength(1)
    expect(moveCheck.mayMove).toBe(false)
    expect(moveCheck.reasons.map(({ code }) => code)).toEqual(['not-clamped', 'handling-strength'])
    const refused = await test.owner.post(`/v1/repairOrders/${orderId}/move`, {})
    expect(refused.body).toMatchObject({ type: '/problems/not-ready' })
    expect(refused.body.detail).toMatch(/^On RO-\d+ of the same vehicle: /)
    // It is gone all the same: so are the joints of the other order. Told on both at once it happened once.
    const told = await Promise.all(
      [orderId, first.orderId].map((id) => test.owner.post(`/v1/repairOrders/${id}/move`, HAPPENED)),
    )
    expect(told.map(({ status }) => status)).toEqual([201, 201])
    const gone = await bondOf(first.bondId)
    expect(gone).toMatchObject({ state: 'released', incidents: [{ kind: 'earlyRelease' }] })
    expect((await order(orderId)).moveCheck.mayMove).toBe(false)
  })

  it('takes no procedure that was looked up on a day to come', async () => {
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    const procedure = { document: 'Body manual', revision: 'D', lookedUpOn: '2031-05-09' }
    const set = await test.owner.put(`/v1/joints/${jointId}/procedure`, procedure)
    expect(set.body).toMatchObject({ status: 422, reasons: [{ field: 'body.lookedUpOn' }] })
    const added = await test.owner.post(`/v1/repairOrders/${orderId}/joints`, {
      name: 'Roof skin',
      panelMaterial: 'mildSteel',
      panelThicknessMm: 0.8,
      safetyClass: 'S3',
      productId: shop.productId,
      lengthMm: 900,
      flangeWidthMm: 12,
      beadDiameterMm: 4,
      procedure,
    })
    expect(added.body).toMatchObject({ status: 422, reasons: [{ field: 'body.procedure.lookedUpOn' }] })
  })

  it('does not name another customer’s car: the bay of a bond is where its vehicle stands', async () => {
    const first = await bonded()
    const standing = shop
    const second = await job()
    const there = application(standing, second.cartridgeId)
    // Told before the adhesive is on, not with a bead that goes off meanwhile.
    const check = await test.owner.made<{ mayStart: boolean; reasons: unknown[] }>(
      `/v1/joints/${second.jointId}/bondChecks`,
      there,
    )
    expect(check).toMatchObject({ mayStart: false, reasons: [{ code: 'bay-taken', field: 'body.bayId' }] })
    const refused = await test.owner.post(`/v1/joints/${second.jointId}/bonds`, there)
    expect(refused.body.reasons).toMatchObject([{ code: 'bay-taken', field: 'body.bayId' }])
    expect(refused.body.detail).toContain('Invented Estate, stands in')
    expect((await order(first.orderId)).bay).not.toBeNull()
    // Curing there, it does not stand anywhere else.
    const other = await addJoint(test.owner, standing, first.orderId, { name: 'Roof skin' })
    const elsewhere = application(shop, first.cartridgeId)
    const asked = await test.owner.made<{ mayStart: boolean; reasons: unknown[] }>(
      `/v1/joints/${other}/bondChecks`,
      elsewhere,
    )
    expect(asked).toMatchObject({ mayStart: false, reasons: [{ code: 'stands-elsewhere' }] })
    const moved = await test.owner.post(`/v1/joints/${other}/bonds`, elsewhere)
    expect(moved.body.reasons).toMatchObject([{ code: 'stands-elsewhere' }])
  })

  describe('what accepting asks for', () => {
    let second: Client
    let inspectorId = ''
    beforeAll(async () => {
      const person = async (name: string, role: string, shopId: string | null) =>
        (
          await test.owner.made('/v1/people', {
            name,
            email: `${name.toLowerCase()}@test.example`,
            password: PASSWORD,
            memberships: [{ shopId, role }],
          })
        ).id
      inspectorId = await person('Inspector', 'technician', null)
      await person('Second', 'owner', null)
      second = await test.signIn('second@test.example')
    })
    const early = async (safetyClass: string) => {
      const override = ['not-qualified', 'no-instrument'].map((code) => ({ code, reason: 'For the test' }))
      const { orderId, bondId } = await bonded(safetyClass, { overrides: override })
      await test.owner.made(`/v1/bonds/${bondId}/clamping`, { overrides: override.slice(0, 1) })
      const { incidents } = await test.owner.made<Bond>(`/v1/bonds/${bondId}/release`, HAPPENED)
      const incident = incidents.find(({ kind: each }) => each === 'earlyRelease')!
      // By now its adhesive can have cured.
      test.clock.now = new Date(test.clock.now.getTime() + 49 * 3_600_000)
      return { orderId, bondId, incidentId: incident.id }
    }
    const dispose = (incidentId: string, body: object) =>
      test.owner.post(`/v1/incidents/${incidentId}/disposition`, body)

    it('is never taken for granted', async () => {
      const { incidentId } = await early('S3')
      const said = { kind: 'inspectedAndAccepted', reason: 'Looks good' }
      expect((await dispose(incidentId, said)).status).toBe(422)
      expect((await dispose(incidentId, { reason: 'Looks good' })).status).toBe(422)
    })

    it('is an inspector qualified for the class, a photo and a second person where it can hurt somebody', async () => {
      const { orderId, bondId, incidentId } = await early('S2')
      const accepted = { ...(await acceptance(test.owner, incidentId)), inspectorId, photo: PHOTO }
      expect((await dispose(incidentId, accepted)).body.reasons).toMatchObject([
        { field: 'body.inspectorId', message: expect.stringContaining('not qualified') },
      ])
      await test.owner.made(`/v1/people/${inspectorId}/qualifications`, {
        safetyClass: 'S1',
        evidence: 'Course 1',
        issuedOn: '2031-01-01',
        validUntil: '2031-12-31',
      })
      const asked = await test.owner.read<object>(`/v1/incidents/${incidentId}/inspectors`)
      expect(asked).toEqual({
        items: [{ id: inspectorId, name: 'Inspector' }],
        needsPhoto: true,
        needsSecondPerson: true,
        mayAccept: true,
        acceptableAt: null,
      })
      expect((await dispose(incidentId, { ...accepted, photo: null })).body.reasons).toMatchObject([
        { field: 'body.photo' },
      ])
      const text = { mediaType: 'image/png', base64: Buffer.from('no picture').toString('base64') }
      const header = { mediaType: 'image/jpeg', base64: '/9j/4A==' }
      const dot = {
        mediaType: 'image/png',
        base64:
          'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
      }
      for (const photo of [text, header, dot])
        expect((await dispose(incidentId, { ...accepted, photo })).status).toBe(422)

      expect((await dispose(incidentId, accepted)).status).toBe(201)
      const waiting = (await bondOf(bondId)).incidents.find(({ id }) => id === incidentId)!
      expect(waiting).toMatchObject({ disposition: null, inspections: [{ waitsForSecondPerson: true }] })
      expect(codes(await order(orderId))).toEqual(['released-early'])
      const path = `/v1/inspections/${waiting.inspections[0]!.id}`
      expect(await test.owner.read<object>(`${path}/photo`)).toMatchObject(PHOTO)

      const same = await test.owner.post(`${path}/agreement`, { reason: 'I looked again' })
      expect(same.body.reasons).toMatchObject([{ code: 'same-person' }])
      await second.made(`${path}/agreement`, { reason: 'Edges and photo' })
      expect(await order(orderId)).toMatchObject({
        joints: [{ state: 'accepted' }],
        moveCheck: { mayMove: true },
      })
    })

    it('is one person where nobody gets hurt', async () => {
      const { orderId, incidentId } = await early('S4')
      expect((await dispose(incidentId, await acceptance(test.owner, incidentId))).status).toBe(201)
      expect((await order(orderId)).joints[0]!.state).toBe('accepted')
    })
  })
})
