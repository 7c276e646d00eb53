import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import {
  application,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Bond {
  readonly id: string
  readonly moveCheck: {
    readonly readyAt: { kind: string; at: string }
    readonly reasons: readonly { code: string; fix?: string }[]
  }
  readonly estimate: { readonly notes: readonly { kind: string; message: string }[] }
}

/** Nothing that one instrument says of one thing contradicts it: what was held against nothing may delay, never hasten. */
describe('a thermometer that nothing bears out', () => {
  let test: TestApp
  let owner: Client
  let shop: Shop
  let serial = 0
  beforeAll(async () => {
    test = await startTestApp('embedded')
    owner = test.owner
  })
  beforeEach(async () => {
    test.clock.now = NOON
    shop = await makeShop(owner)
    // Half a week of air, so that tonight is foretold.
    await steadyAir(owner, shop.sensorId, 20, NOON, 96)
  })
  afterAll(() => test.end())

  const clock = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const instrument = async (kind: string, accuracy: object) => {
    serial += 1
    const body = { kind, name: `Instrument ${serial}`, serialNumber: `SN ${serial}`, ...accuracy }
    return (await owner.made(`/v1/shops/${shop.shopId}/instruments`, body)).id
  }
  const hygrometer = () => instrument('hygrometer', { accuracyC: null, accuracyPercent: 3 })
  const probe = () => instrument('metalProbe', { accuracyC: 0.5 })
  const panel = (instrumentId: string | null = null, temperatureC = 18) => ({
    panel: { temperatureC, accuracyC: 0.5, source: 'metalProbe', instrumentId },
  })
  const ask = async (changes: object, where = shop) => {
    const [piece] = await receive(owner, where)
    const { jointId } = await makeJoint(owner, where)
    return { jointId, body: application(where, piece!.id, changes) }
  }
  const started = async (changes: object, where = shop): Promise<Bond> => {
    const { jointId, body } = await ask(changes, where)
    const { id } = await owner.made<Bond>(`/v1/joints/${jointId}/bonds`, body)
    await owner.made(`/v1/bonds/${id}/clamping`)
    return owner.read<Bond>(`/v1/bonds/${id}`)
  }
  const kinds = ({ estimate }: Bond) => estimate.notes.map(({ kind }) => kind)
  const readyMs = ({ moveCheck }: Bond) => Date.parse(moveCheck.readyAt.at)

  it('waits longer where a hygrometer read the air, and is told what would bear it out, and what that is worth', async () => {
    const hygrometerId = await hygrometer()
    const air = { airTemperatureC: 20.6, hygrometerId }
    const byProbe = await started({ ...panel(), ...air, airReadWith: 'panelThermometer' })
    expect(kinds(byProbe)).not.toContain('metalUnproven')
    const where = await freshBay(owner, shop, NOON, 20, 96)
    const alone = await started({ ...panel(), ...air, airReadWith: 'hygrometer' }, where)
    expect(readyMs(alone) - readyMs(byProbe)).toBeGreaterThan(15 * 60_000)
    const fix = alone.moveCheck.reasons.find(({ code }) => code === 'handling-strength')!.fix!
    expect(fix).toContain('with the same thermometer and with another within a quarter of an hour')
    const said = /may be ready \w+ (\d\d:\d\d)/.exec(fix)?.[1]
    expect(said).toBeTruthy()
    expect(alone.estimate.notes.find(({ kind }) => kind === 'metalUnproven')!.message).toContain(said!)
  })

  it('is said before the adhesive is on, with what the recommended way would take', async () => {
    const hygrometerId = await hygrometer()
    const checked = async (airReadWith: string | undefined) => {
      const { jointId, body } = await ask({ ...panel(), airTemperatureC: 20.6, hygrometerId, airReadWith })
      return owner.made<{ handlingTimeMinutes: number; ifProvenMinutes: number | null }>(
        `/v1/joints/${jointId}/bondChecks`,
        body,
      )
    }
    const proven = await checked('panelThermometer')
    expect(proven.ifProvenMinutes).toBeNull()
    // Left out, a hygrometer that is named read it.
    for (const way of ['hygrometer', 'another', undefined]) {
      const { handlingTimeMinutes, ifProvenMinutes } = await checked(way)
      expect(ifProvenMinutes).toBeCloseTo(proven.handlingTimeMinutes)
      expect(handlingTimeMinutes).toBeGreaterThan(proven.handlingTimeMinutes + 15)
    }
  })

  it('is borne out by another one on the same metal, and not by itself', async () => {
    const [mine, other] = [await probe(), await probe()]
    const bond = await started({ ...panel(mine), airTemperatureC: 20.6, airReadWith: 'another' })
    expect(kinds(bond)).toContain('metalUnproven')
    clock(60)
    const measure = (instrumentId: string, temperatureC: number) =>
      owner.made<Bond>(`/v1/bonds/${bond.id}/readings`, { temperatureC, source: 'metalProbe', instrumentId })
    expect(kinds(await measure(mine, 18.6))).toContain('metalUnproven')
    clock(64)
    const borneOut = await measure(other, 18.9)
    expect(kinds(borneOut)).not.toContain('metalUnproven')
    expect(readyMs(bond) - readyMs(borneOut)).toBeGreaterThan(15 * 60_000)
  })

  it('is borne out by what it read at another joint of late, and no longer after a fortnight', async () => {
    const mine = await probe()
    await started({ ...panel(mine), airTemperatureC: 20.6 })
    const next = async (days: number, airTemperatureC = 20.6) => {
      clock(days * 1440)
      // A session does not last so long.
      owner = await test.signIn('owner@test.example')
      const where = await freshBay(owner, shop, test.clock.now, 20, 24)
      return kinds(await started({ ...panel(mine), airTemperatureC, airReadWith: 'another' }, where))
    }
    expect(await next(3)).not.toContain('metalUnproven')
    expect(await next(15)).toContain('metalUnproven')
  })

  it('of the bay is not borne out by a number that is its own, unless one of late was not', async () => {
    const copied = await started({ ...panel(null, 15), airTemperatureC: 20 })
    const note = copied.estimate.notes.find(({ kind }) => kind === 'airUnproven')
    expect(note?.message).toContain("is what the bay's thermometer shows")
    expect(copied.moveCheck.reasons.some(({ fix }) => fix?.startsWith('Measure the metal again'))).toBe(true)
    // The metal has come up: so far the air warms it.
    clock(60)
    await steadyAir(owner, shop.sensorId, 20, test.clock.now, 0.25)
    const warmed = await owner.made<Bond>(`/v1/bonds/${copied.id}/readings`, {
      temperatureC: 19.5,
      accuracyC: 0.5,
    })
    expect(readyMs(copied) - readyMs(warmed)).toBeGreaterThan(15 * 60_000)
    // Another joint in another bay proves nothing of this one.
    const where = await freshBay(owner, shop, test.clock.now, 20, 24)
    expect(kinds(await started({ ...panel(null, 15), airTemperatureC: 20.6 }, where))).not.toContain(
      'airUnproven',
    )
    expect(kinds(await owner.read<Bond>(`/v1/bonds/${copied.id}`))).toContain('airUnproven')
  })

  it('that is called a hygrometer has to be named', async () => {
    const { jointId, body } = await ask({ airReadWith: 'hygrometer' })
    const refused = await owner.post(`/v1/joints/${jointId}/bonds`, body)
    expect(refused.status).toBe(422)
    expect(refused.body.reasons[0].field).toBe('body.airReadWith')
  })
})
