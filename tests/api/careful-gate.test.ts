import type { WireResultOf, bondRoutes } from '@clampclock/contracts'
import { estimateBond } from '@clampclock/cure'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

type Bond = WireResultOf<typeof bondRoutes.getBond>

describe('cold metal in a warm bay', () => {
  let test: TestApp
  let shop: Shop
  let bondId: string
  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    const body = application(shop, piece!.id, {
      panel: { temperatureC: 16, source: 'metalProbe' },
      // Read with the probe: never quite what the bay's thermometer shows.
      airTemperatureC: 23.4,
    })
    bondId = (await test.owner.made<Bond>(`/v1/joints/${jointId}/bonds`, body)).id
    await test.owner.made(`/v1/bonds/${bondId}/clamping`)
  })
  afterAll(() => test.end())

  const bond = () => test.owner.read<Bond>(`/v1/bonds/${bondId}`)

  it('says what one more reading would be worth, and keeps to it once the metal is measured', async () => {
    test.clock.now = new Date(NOON.getTime() + 60 * 60_000)
    const { readyAt, measureAgain } = (await bond()).moveCheck
    if (readyAt.kind !== 'at' || measureAgain?.readyAt.kind !== 'at') throw new Error('no instant')
    const worthMs = Date.parse(measureAgain.readyAt.at)
    expect(Date.parse(readyAt.at) - worthMs).toBeGreaterThan(5 * 60_000)
    await test.owner.made(`/v1/bonds/${bondId}/readings`, { temperatureC: 23 })
    const after = (await bond()).moveCheck
    if (after.readyAt.kind !== 'at') throw new Error('no instant')
    expect(Date.parse(after.readyAt.at)).toBeLessThan(Date.parse(readyAt.at))
    expect(after.measureAgain).toBeNull()
  })

  it('gives the phone all that the gate goes by: computed there, it is the same instant', async () => {
    const wire = await bond()
    const { handlingStrength } = estimateBond({
      sheet: { ...wire.sheet, chemistry: wire.chemistry },
      place: wire.place,
      appliedAtMs: Date.parse(wire.appliedAt),
      readings: wire.readings.map(({ at, by: _by, ...reading }) => ({ atMs: Date.parse(at), ...reading })),
      forecast: wire.forecast.map(({ at, ...band }) => ({ atMs: Date.parse(at), ...band })),
      nowMs: test.clock.now.getTime(),
      ...(wire.panelTauMinutes === null ? {} : { panelTauMinutes: wire.panelTauMinutes }),
    })
    const { conservative } = wire.estimate.handlingStrength.progress
    expect(handlingStrength.progress.conservative).toBe(conservative)
    expect(handlingStrength.readyAt.conservative).toEqual(
      wire.moveCheck.readyAt.kind === 'at'
        ? { kind: 'at', atMs: Date.parse(wire.moveCheck.readyAt.at) }
        : wire.moveCheck.readyAt,
    )
  })

  it('goes by the careful estimate: what is expected to be through may not be moved or released', async () => {
    const { expected } = (await bond()).estimate.handlingStrength.readyAt
    if (expected.kind !== 'at') throw new Error('no instant')
    test.clock.now = new Date(Date.parse(expected.at) + 60_000)
    const { estimate, moveCheck } = await bond()
    expect(estimate.handlingStrength.progress.expected).toBeGreaterThanOrEqual(1)
    expect(estimate.handlingStrength.progress.conservative).toBeLessThan(1)
    expect(moveCheck).toMatchObject({ mayMove: false, reasons: [{ code: 'handling-strength' }] })
    const release = () => test.owner.post(`/v1/bonds/${bondId}/release`)
    expect((await release()).body.type).toBe('/problems/not-ready')
    // While nobody reads the air, the careful instant goes on ahead, and is reached all the same.
    let check = moveCheck
    for (let step = 0; !check.mayMove && step < 50; step += 1) {
      if (check.readyAt.kind !== 'at') throw new Error('no instant')
      expect((await release()).body.type).toBe('/problems/not-ready')
      test.clock.now = new Date(Date.parse(check.readyAt.at) - 1000)
      expect((await bond()).moveCheck.mayMove).toBe(false)
      test.clock.now = new Date(check.readyAt.at)
      check = (await bond()).moveCheck
    }
    expect(check).toMatchObject({ mayMove: true, reasons: [] })
    expect((await release()).status).toBe(201)
  })
})
