import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Measurement {
  readonly id: string
  readonly temperatureC: number
  readonly quality: string
  readonly findings: readonly { kind: string; message: string }[]
  readonly decision: { by: string; reason: string } | null
}
interface Bond {
  readonly id: string
  readonly measurements: readonly Measurement[]
  readonly moveCheck: { mayMove: boolean }
  readonly estimate: { handlingStrength: { progress: { conservative: number } } }
  readonly incidents: readonly { kind: string; fractionReached: number; reason: string }[]
}
interface Stored {
  readonly stored: number
  readonly alreadyThere: number
  readonly differing: number
  readonly suspect: number
}

describe('a reading is a claim', () => {
  let test: TestApp
  let owner: Client
  let technician: Client
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp('embedded')
    owner = test.owner
    const first = await makeShop(owner)
    await owner.made('/v1/people', {
      name: 'Technician',
      email: 'tech@test.example',
      password: PASSWORD,
      memberships: [{ shopId: null, role: 'technician' }],
    })
    technician = await test.signIn('tech@test.example')
    expect(first.shopId).toBeTruthy()
  })
  beforeEach(async () => {
    test.clock.now = NOON
    shop = await makeShop(owner)
  })
  afterAll(() => test.end())

  const at = (minutes: number) => new Date(NOON.getTime() + minutes * 60_000).toISOString()
  const clock = (minutes: number) => {
    test.clock.now = new Date(at(minutes))
  }
  const air = (temperatureC: number, minutes: number, sensorId = shop.sensorId) =>
    owner.made<Stored>(`/v1/sensors/${sensorId}/readings`, { readings: [{ at: at(minutes), temperatureC }] })
  /** One reading each half hour, each sent at its instant. */
  const steady = async (temperatureC: number, from: number, until: number, sensorId = shop.sensorId) => {
    for (let minutes = from; minutes <= until; minutes += 30) {
      clock(minutes)
      await air(temperatureC, minutes, sensorId)
    }
  }
  const start = async (changes: object = {}, safetyClass = 'S3') => {
    const [piece] = await receive(owner, shop)
    const { jointId } = await makeJoint(owner, shop, { safetyClass })
    return owner.post(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id, changes))
  }
  const started = async (changes: object = {}): Promise<Bond> => {
    const answer = await start(changes)
    expect(answer.status, JSON.stringify(answer.body)).toBe(201)
    const bond = answer.body as Bond
    await owner.made(`/v1/bonds/${bond.id}/clamping`)
    return bond
  }
  const read = (id: string) => owner.read<Bond>(`/v1/bonds/${id}`)
  const alerts = async () => {
    await watchAll(test.database, test.clock.now)
    const { items } = await owner.read<{
      items: { kind: string; message: string; subject: { id: string }; shopId: string }[]
    }>('/v1/alerts?limit=500')
    return items.filter(({ shopId }) => shopId === shop.shopId)
  }

  it('of 73 typed as degC is asked about, and opens no gate when it is confirmed', async () => {
    await steadyAir(owner, shop.sensorId, 22, NOON)
    const bond = await started({ panel: { temperatureC: 22, accuracyC: 0.5, source: 'metalProbe' } })
    clock(31)
    await air(22, 31)
    const sent = { temperatureC: 73, accuracyC: 0.5, source: 'metalProbe' }
    const asked = await technician.post(`/v1/bonds/${bond.id}/readings`, sent)
    expect(asked.status).toBe(409)
    expect(asked.body.type).toBe('/problems/reading-questioned')
    expect(asked.body.reasons[0]).toMatchObject({ code: 'fahrenheit', field: 'body.temperatureC' })
    expect(asked.body.reasons[0].message).toContain('was 22.8 °C meant?')
    const before = await read(bond.id)
    const confirmed = asked.body.reasons.map(({ code }: { code: string }) => code)
    const after = await technician.made<Bond>(`/v1/bonds/${bond.id}/readings`, { ...sent, confirmed })
    expect(after.measurements.at(-1)).toMatchObject({ temperatureC: 73, quality: 'suspect' })
    expect(after.estimate.handlingStrength.progress.conservative).toBeLessThanOrEqual(
      before.estimate.handlingStrength.progress.conservative,
    )
    clock(62)
    await air(22, 62)
    expect((await read(bond.id)).moveCheck.mayMove).toBe(false)
  })

  it('of the panel and the air at application is asked about as well, and the check says so before', async () => {
    await steadyAir(owner, shop.sensorId, 22, NOON)
    const panel = { temperatureC: 30, accuracyC: 0.5, source: 'metalProbe' }
    const asked = await start({ panel, airTemperatureC: 59, relativeHumidityPercent: 10 })
    expect(asked.status).toBe(409)
    expect(asked.body.reasons).toMatchObject([
      { code: 'aboveAir', field: 'body.panel.temperatureC' },
      { code: 'fahrenheit', field: 'body.airTemperatureC' },
      { code: 'outOfRange', field: 'body.airTemperatureC' },
    ])
    const [piece] = await receive(owner, shop)
    const { jointId } = await makeJoint(owner, shop)
    const check = await owner.made<{ mayStart: boolean; questions: { code: string }[] }>(
      `/v1/joints/${jointId}/bondChecks`,
      application(shop, piece!.id, { panel }),
    )
    expect(check.questions.map(({ code }) => code)).toEqual(['aboveAir'])
    const confirmed = ['aboveAir']
    const bond = await started({ panel, confirmed })
    expect((await read(bond.id)).measurements).toMatchObject([{ quality: 'suspect' }])
  })

  it('of the panel is held against the air beside the joint where no bay is named', async () => {
    const hot = { temperatureC: 34, accuracyC: 0.5, source: 'metalProbe' }
    const asked = await start({ bayId: null, panel: hot, airTemperatureC: 21.8 })
    expect(asked.status).toBe(409)
    expect(asked.body.reasons).toMatchObject([{ code: 'aboveAir', field: 'body.panel.temperatureC' }])
    const bond = await started({ bayId: null, airTemperatureC: 21.8 })
    const [first] = (await read(bond.id)).measurements
    const corrected = await owner.post(`/v1/panelReadings/${first!.id}/correction`, {
      temperatureC: 34,
      reason: 'The display was misread',
    })
    expect(corrected.status).toBe(409)
    expect(corrected.body.reasons).toMatchObject([{ code: 'aboveAir' }])
    // Hours later the air may be another.
    clock(180)
    const later = await owner.post(`/v1/bonds/${bond.id}/readings`, { ...hot, temperatureC: 26 })
    expect(later.body.reasons?.map(({ code }: { code: string }) => code) ?? []).not.toContain('aboveAir')
  })

  it('is believed once somebody else, or another instrument, bears it out', async () => {
    await steadyAir(owner, shop.sensorId, 22, NOON)
    const bond = await started()
    clock(20)
    const warm = {
      temperatureC: 45,
      accuracyC: 0.5,
      source: 'metalProbe',
      confirmed: ['warmsInColderAir'],
    }
    const once = await technician.made<Bond>(`/v1/bonds/${bond.id}/readings`, warm)
    expect(once.measurements.at(-1)!.quality).toBe('suspect')
    clock(25)
    const again = await technician.made<Bond>(`/v1/bonds/${bond.id}/readings`, {
      ...warm,
      temperatureC: 45.4,
    })
    expect(again.measurements.map(({ quality }) => quality)).toEqual(['good', 'suspect', 'suspect'])
    clock(28)
    const borne = await owner.made<Bond>(`/v1/bonds/${bond.id}/readings`, { ...warm, temperatureC: 45.2 })
    expect(borne.measurements.map(({ quality }) => quality)).toEqual(['good', 'good', 'good', 'good'])
  })

  it('entered long after its instant makes nothing sooner: five backdated readings finish no cure', async () => {
    const bond = await started()
    clock(300)
    const before = await read(bond.id)
    for (const minutes of [60, 110, 160, 210, 260])
      await owner.made(`/v1/bonds/${bond.id}/readings`, {
        at: at(minutes),
        temperatureC: 40,
        confirmed: ['tooFast', 'aboveAir', 'warmsInColderAir', 'outOfRange', 'fahrenheit'],
      })
    const after = await read(bond.id)
    // The last is 40 min old: late as well.
    expect(after.measurements.slice(1).every(({ quality }) => quality === 'suspect')).toBe(true)
    expect(after.estimate.handlingStrength.progress.conservative).toBeLessThanOrEqual(
      before.estimate.handlingStrength.progress.conservative,
    )
  })

  it('sent again after a lost answer is there once; the same a moment later is asked about', async () => {
    const bond = await started()
    clock(10)
    const sent = { at: at(10), temperatureC: 23, accuracyC: 0.5, source: 'metalProbe' }
    for (const _ of [1, 2])
      expect((await owner.made<Bond>(`/v1/bonds/${bond.id}/readings`, sent)).measurements).toHaveLength(2)
    clock(11)
    const again = await owner.post(`/v1/bonds/${bond.id}/readings`, { ...sent, at: at(11) })
    expect(again.body.reasons).toMatchObject([{ code: 'sentTwice' }])
  })

  it('that an S1 joint counts is one that was measured: one sent twice counts once', async () => {
    const { id: probeId } = await owner.made(`/v1/shops/${shop.shopId}/instruments`, {
      kind: 'metalProbe',
      name: 'Probe',
      serialNumber: 'P1',
      accuracyC: 0.5,
      calibratedUntil: '2031-12-31',
    })
    const [piece] = await receive(owner, shop)
    const { jointId } = await makeJoint(owner, shop, { safetyClass: 'S1' })
    const bond = await owner.made<Bond>(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, {
        panel: { temperatureC: 23, accuracyC: 0.5, source: 'metalProbe', instrumentId: probeId },
        overrides: [{ code: 'not-qualified', reason: 'For this test only' }],
      }),
    )
    clock(1)
    await owner.made<Bond>(`/v1/bonds/${bond.id}/readings`, {
      temperatureC: 23,
      instrumentId: probeId,
      confirmed: ['sentTwice'],
    })
    const check = await owner.read<{ reasons: { code: string; message: string }[] }>(
      `/v1/bonds/${bond.id}/moveCheck`,
    )
    expect(check.reasons.find(({ code }) => code === 'too-few-readings')!.message).toContain('1 of 2')
  })

  it('of a thermometer that sends degF as degC goes in as suspect, and raises one alert', async () => {
    await steady(20, -120, 0)
    let suspect = 0
    for (const minutes of [15, 30, 45]) {
      clock(minutes)
      suspect += (await air(68.7 - minutes / 100, minutes).catch(() => ({ suspect: 0 }))).suspect
    }
    // Above 60 degC is refused outright; a cooler shop in degF is not.
    expect(suspect).toBe(0)
    for (const minutes of [50, 55, 59]) {
      clock(minutes)
      suspect += (await air(57 + minutes / 100, minutes)).suspect
    }
    expect(suspect).toBe(3)
    const found = (await alerts()).filter(({ kind }) => kind === 'sensorDoubted')
    expect(found).toHaveLength(1)
    expect(found[0]!.message).toContain('reads like 57.5 °F entered as °C')
    expect(found[0]!.subject.id).toBe(shop.sensorId)
  })

  it('of a thermometer, backdated, releases nothing: forty values of the past are forty claims', async () => {
    const bond = await started()
    clock(150)
    const before = await read(bond.id)
    const readings = Array.from({ length: 40 }, (_, i) => ({ at: at(5 + i * 2), temperatureC: 40 }))
    const stored = await owner.made<Stored>(`/v1/sensors/${shop.sensorId}/readings`, { readings })
    expect(stored).toMatchObject({ stored: 40, suspect: 40 })
    const after = await read(bond.id)
    expect(after.estimate.handlingStrength.progress.conservative).toBeLessThanOrEqual(
      before.estimate.handlingStrength.progress.conservative,
    )
    expect((await owner.post(`/v1/bonds/${bond.id}/release`)).status).toBe(409)
  })

  it('given twice for one instant in one batch is told as two, and the colder is kept in doubt', async () => {
    const two = [21, 19].map((temperatureC) => ({ at: at(0), temperatureC }))
    const stored = await owner.made<Stored>(`/v1/sensors/${shop.sensorId}/readings`, { readings: two })
    expect(stored).toEqual({ stored: 1, alreadyThere: 1, differing: 1, suspect: 1 })
    const { items } = await owner.read<{ items: Measurement[] }>(`/v1/sensors/${shop.sensorId}/readings`)
    expect(items).toMatchObject([{ temperatureC: 19, quality: 'suspect', findings: [{ kind: 'twoValues' }] }])
    // Sent again, nothing new; the same value again is simply there.
    const again = await owner.made<Stored>(`/v1/sensors/${shop.sensorId}/readings`, { readings: [two[1]] })
    expect(again).toEqual({ stored: 0, alreadyThere: 1, differing: 0, suspect: 0 })
  })

  it('of a thermometer over the heater does not beat the real one: the colder counts until somebody says which', async () => {
    const { id: heaterId } = await owner.made(`/v1/shops/${shop.shopId}/sensors`, {
      name: 'A: over the heater',
      place: 'bay',
      resourceId: shop.bayId,
      accuracyC: 0.5,
    })
    const alone = await started({ airTemperatureC: 12 })
    for (const minutes of [0, 30, 60, 90]) {
      clock(minutes)
      await air(35, minutes, heaterId)
      await air(12, minutes, shop.sensorId)
    }
    const both = (await read(alone.id)).estimate.handlingStrength.progress.conservative
    expect((await alerts()).filter(({ kind }) => kind === 'sensorsDisagree')).toMatchObject([
      { subject: { id: heaterId } },
    ])
    // Somebody says which is right: nothing becomes sooner of the past, and the alert ends.
    await owner.made(`/v1/sensors/${heaterId}/doubt`, { reason: 'It hangs over the heater' })
    expect((await alerts()).filter(({ kind }) => kind === 'sensorsDisagree')).toEqual([])
    clock(100)
    await air(12, 100)
    await owner.made(`/v1/sensors/${heaterId}/retirement`, { reason: 'Taken down' })
    const after = await read(alone.id)
    expect(after.estimate.handlingStrength.progress.conservative).toBeGreaterThanOrEqual(both)
    expect(after.estimate.handlingStrength.progress.conservative).toBeLessThan(0.6)
    clock(102)
    const gone = await owner.post(`/v1/sensors/${heaterId}/readings`, {
      readings: [{ at: at(101), temperatureC: 20 }],
    })
    expect(gone.body.type).toBe('/problems/wrong-state')
    const { items } = await owner.read<{ items: { kind: string; reason: string }[] }>(
      `/v1/sensors/${heaterId}/decisions`,
    )
    expect(items.map(({ kind }) => kind)).toEqual(['retired', 'doubted'])
  })

  it('of two thermometers that are apart for hours, by more than both are good for, is asked about', async () => {
    const second = async (name: string) =>
      (
        await owner.made(`/v1/shops/${shop.shopId}/sensors`, {
          name,
          place: 'bay',
          resourceId: shop.bayId,
          accuracyC: 0.5,
        })
      ).id
    const disagreeing = async () => (await alerts()).filter(({ kind }) => kind === 'sensorsDisagree')
    const warmId = await second('A: warm')
    await steadyAir(owner, shop.sensorId, 18, NOON, 3)
    await steadyAir(owner, warmId, 18.9, NOON, 3)
    expect(await disagreeing()).toEqual([])
    clock(180)
    await steadyAir(owner, shop.sensorId, 18, test.clock.now, 3)
    await steadyAir(owner, warmId, 20, test.clock.now, 3)
    const [told] = await disagreeing()
    expect(told).toMatchObject({ subject: { id: warmId } })
    expect(told!.message).toContain('over the last hours A: warm has read')
    await owner.made(`/v1/sensors/${warmId}/doubt`, { reason: 'It hangs over the heater' })
    expect(await disagreeing()).toEqual([])
  })

  it('of the only thermometer of a bay that reads warm is contradicted by the air at the joint, and opens no gate earlier', async () => {
    /** Air of 12 degC all day, which the only thermometer of the bay may tell as 22. */
    const cured = async (shownC: number) => {
      test.clock.now = NOON
      shop = await makeShop(owner)
      await steadyAir(owner, shop.sensorId, shownC, NOON, 2)
      const panel = { temperatureC: 11.5, accuracyC: 0.5, source: 'metalProbe' }
      const bond = await started({ panel, airTemperatureC: 12, confirmed: ['apart'] })
      for (let minutes = 15; minutes <= 240; minutes += 15) {
        clock(minutes)
        await air(shownC + (minutes % 2) / 10, minutes)
      }
      return owner.read<Bond & { estimate: { notes: { kind: string; message: string }[] } }>(
        `/v1/bonds/${bond.id}`,
      )
    }
    // A hand thermometer that shows the very same has been copied for all that anybody knows: it never is quite.
    const honest = await cured(12.3)
    expect(honest.estimate.notes.map(({ kind }) => kind)).not.toContain('airAtJointApart')
    const lied = await cured(22)
    const note = lied.estimate.notes.find(({ kind }) => kind === 'airAtJointApart')
    expect(note!.message).toContain('The air at the joint read 12.0 °C')
    expect(note!.message).toContain("the bay's thermometer 22.0 °C")
    expect(note!.message).toContain('Measure the metal')
    const moveCheck = await owner.read<{ reasons: { fix?: string }[] }>(`/v1/bonds/${lied.id}/moveCheck`)
    expect(moveCheck.reasons[0]!.fix).toContain('Measure the metal with another thermometer')
    const strength = ({ estimate }: Bond) => estimate.handlingStrength.progress.conservative
    expect(strength(lied)).toBeGreaterThan(0)
    expect(strength(lied)).toBeLessThanOrEqual(strength(honest) + 1e-9)
    const raised = (await alerts()).filter(({ kind }) => kind === 'sensorsDisagree')
    expect(raised).toMatchObject([{ subject: { id: shop.sensorId } }])
    expect(raised[0]!.message).toContain('read 22 °C, the air at the joint 12 °C')
    // Once somebody has said which is right, the alert ends; nothing becomes sooner.
    await owner.made(`/v1/sensors/${shop.sensorId}/doubt`, { reason: 'It hangs over the heater' })
    expect((await alerts()).filter(({ kind }) => kind === 'sensorsDisagree')).toEqual([])
    expect(strength(await read(lied.id))).toBeLessThanOrEqual(strength(lied) + 1e-9)
  })

  it('of a probe that reads the air warm counts as far colder, whatever it reads off the metal', async () => {
    const strength = async (airTemperatureC: number, confirmed: string[]) => {
      test.clock.now = NOON
      shop = await makeShop(owner)
      await steadyAir(owner, shop.sensorId, 15, NOON, 2)
      const panel = { temperatureC: 17, accuracyC: 0.5, source: 'metalProbe' }
      const { id } = await started({ panel, airTemperatureC, confirmed })
      clock(60)
      await air(15.1, 60)
      return (await read(id)).estimate.handlingStrength.progress.conservative
    }
    expect(await strength(22, ['apart'])).toBeLessThan(0.9 * (await strength(15, [])))
  })

  it('of a thermometer that jumps up, or stands still, is doubted by its own past, and raises one alert', async () => {
    // Half a week: each reading a little off the one before, as thermometers are.
    const rows = Array.from({ length: 4 * 96 }, (_, i) => `${at(-15 * (i + 1))},${18 + (i % 3) / 10}`)
    const csv = ['at,temperatureC', ...rows].join('\n')
    await owner.made(`/v1/sensors/${shop.sensorId}/readingsTable`, { csv })
    await air(18.1, 0)
    const bond = await started({ panel: { temperatureC: 18, accuracyC: 0.5 }, airTemperatureC: 18 })
    let suspect = 0
    for (let minutes = 15; minutes <= 90; minutes += 15) {
      clock(minutes)
      suspect += (await air(25 + minutes / 1000, minutes)).suspect
    }
    expect(suspect).toBe(6)
    const jumped = (await alerts()).filter(({ kind }) => kind === 'sensorDoubted')
    expect(jumped).toHaveLength(1)
    expect(jumped[0]!.message).toContain('it never rose by more than')
    // The colder end is believed at once.
    clock(105)
    expect((await air(18, 105)).suspect).toBe(0)
    for (let minutes = 120; minutes <= 195; minutes += 15) {
      clock(minutes)
      await air(18, minutes)
    }
    const { items } = await owner.read<{ items: Measurement[] }>(
      `/v1/sensors/${shop.sensorId}/readings?doubtful=true&limit=50`,
    )
    const stuck = items.filter(({ findings }) => findings.some(({ kind }) => kind === 'stuck'))
    // From the second of its values on, though the first four were believed when they came.
    expect(stuck).toHaveLength(6)
    expect((await read(bond.id)).estimate.handlingStrength.progress.conservative).toBeLessThan(1)
  })

  it('withdrawn or corrected stays on record, and what follows from it follows', async () => {
    const bond = await started()
    clock(20)
    const read30 = await technician.made<Bond>(`/v1/bonds/${bond.id}/readings`, { temperatureC: 25 })
    const { id } = read30.measurements.at(-1)!
    expect(
      (await technician.post(`/v1/panelReadings/${id}/withdrawal`, { reason: 'Read off the next panel' }))
        .status,
    ).toBe(403)
    const corrected = await owner.made<Bond>(`/v1/panelReadings/${id}/correction`, {
      temperatureC: 21,
      reason: 'Read off the next panel',
    })
    expect(corrected.measurements).toMatchObject([
      { quality: 'good' },
      { temperatureC: 25, quality: 'replaced', decision: { by: 'Owner', reason: 'Read off the next panel' } },
      { temperatureC: 21, quality: 'good', replacesId: id },
    ])
    expect((await owner.post(`/v1/panelReadings/${id}/withdrawal`, { reason: 'Once more' })).status).toBe(409)
    const last = corrected.measurements.at(-1)!.id
    await owner.made(`/v1/panelReadings/${last}/withdrawal`, { reason: 'That was wrong as well' })
    const record = await owner.read<{ entries: { kind: string }[]; chain: { intact: boolean } }>(
      `/v1/bonds/${bond.id}/record`,
    )
    expect(record.entries.map(({ kind }) => kind)).toEqual([
      'applied',
      'clamped',
      'reading',
      'readingWithdrawn',
      'reading',
      'readingWithdrawn',
    ])
    expect(record.chain.intact).toBe(true)
    expect((await verifyRecords(test.database)).faults).toEqual([])
  })

  it('that comes after the release looks at it again: an early release, once', async () => {
    await steadyAir(owner, shop.sensorId, 23, NOON, 2)
    const bond = await started()
    // The logger is silent from here on, and people read the panel; silence is cold, so it takes a reading more.
    for (const minutes of [60, 120, 180, 240, 300]) {
      clock(minutes)
      await owner.made(`/v1/bonds/${bond.id}/readings`, { temperatureC: 23, accuracyC: 0.5 })
    }
    clock(320)
    await owner.made(`/v1/bonds/${bond.id}/release`)
    expect((await read(bond.id)).incidents).toEqual([])

    clock(600)
    const cold = Array.from({ length: 9 }, (_, i) => `${at(10 + i * 25)},2`)
    const csv = ['at,temperatureC', ...cold].join('\n')
    await owner.made(`/v1/sensors/${shop.sensorId}/readingsTable`, { csv })
    const after = await read(bond.id)
    expect(after.incidents).toMatchObject([{ kind: 'earlyRelease' }])
    expect(after.incidents[0]!.fractionReached).toBeLessThan(1)
    expect(after.incidents[0]!.reason).toContain('By what was learned afterwards')
    expect((await alerts()).filter(({ kind }) => kind === 'earlyRelease')).toHaveLength(1)

    await owner.made(`/v1/sensors/${shop.sensorId}/readings`, {
      readings: [{ at: at(15), temperatureC: 3 }],
    })
    expect((await read(bond.id)).incidents).toHaveLength(1)
    expect((await verifyRecords(test.database)).faults).toEqual([])
  })

  it('of a span that was sent in degF is corrected, with what was sent beside it', async () => {
    await steady(50, -90, 0)
    const done = await owner.made<{ span: { readings: number } }>(
      `/v1/sensors/${shop.sensorId}/corrections`,
      {
        kind: 'wasFahrenheit',
        from: at(-90),
        until: at(0),
        reason: 'Its switch stood at F',
      },
    )
    expect(done.span.readings).toBe(4)
    const { items } = await owner.read<{ items: (Measurement & { sentC: number; at: string })[] }>(
      `/v1/sensors/${shop.sensorId}/readings`,
    )
    expect(items.map(({ temperatureC, sentC }) => [temperatureC, sentC])).toEqual(
      Array.from({ length: 4 }, () => [10, 50]),
    )
    // What is older than a quarter of an hour by now is a claim about the past.
    expect(items.map(({ quality }) => quality)).toEqual(['good', 'suspect', 'suspect', 'suspect'])
    const none = await owner.post(`/v1/sensors/${shop.sensorId}/corrections`, {
      kind: 'withdrawn',
      from: at(10),
      until: at(20),
      reason: 'Nothing there',
    })
    expect(none.status).toBe(422)
  })
})
