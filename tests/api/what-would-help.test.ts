import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Help {
  readonly readyAt: { readonly kind: string; readonly at: string }
  readonly verdict: string
  readonly neededC: number | null
  readonly readyAtWithHelp: { readonly kind: string; readonly at: string }
  readonly limit: { readonly highestC: number; readonly because: string }
  readonly minutesSavedPerDegreeC: number
}

describe('what would help a bond', () => {
  let test: TestApp
  let shop: Shop
  let bondId: string
  let orderId: string
  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const made = await makeJoint(test.owner, shop)
    orderId = made.orderId
    bondId = (await test.owner.made(`/v1/joints/${made.jointId}/bonds`, application(shop, piece!.id))).id
    await test.owner.made(`/v1/bonds/${bondId}/clamping`)
  })
  afterAll(() => test.end())

  const by = (minutes: number) => new Date(NOON.getTime() + minutes * 60_000).toISOString()
  const ask = (minutes: number, more: object = {}) =>
    test.owner.made<Help>(`/v1/bonds/${bondId}/whatWouldHelp`, {
      by: by(minutes),
      warming: 'bay',
      toleranceC: 2,
      ...more,
    })

  it('rests on the same ready time as the gate, and asks for nothing when that is early enough', async () => {
    const check = await test.owner.read<Help>(`/v1/bonds/${bondId}/moveCheck`)
    const help = await ask(1000)
    expect(help).toMatchObject({ verdict: 'onTime', neededC: null })
    expect(help.readyAt).toEqual(check.readyAt)
    expect(help.minutesSavedPerDegreeC).toBeGreaterThan(1)
  })

  it('names the temperature, more for a bay than for a lamp on the metal, and more the sooner it is wished', async () => {
    const bay = await ask(180)
    expect(bay.verdict).toBe('warm')
    expect(bay.neededC).toBeGreaterThan(23)
    expect(Date.parse(bay.readyAtWithHelp.at)).toBeLessThanOrEqual(Date.parse(by(180)))
    expect((await ask(180, { warming: 'heatLamp' })).neededC).toBeLessThan(bay.neededC!)
    expect((await ask(165)).neededC).toBeGreaterThan(bay.neededC!)
  })

  it("keeps to what the heater can do and to the vehicle's own limit", async () => {
    expect(await ask(60, { warmestC: 25 })).toMatchObject({
      verdict: 'notPossible',
      limit: { highestC: 25, because: 'equipment' },
    })
    const { version } = await test.owner.read<{ version: number }>(`/v1/repairOrders/${orderId}`)
    await test.owner.patch(`/v1/repairOrders/${orderId}`, { ovenLimitC: 45 }, version)
    expect((await ask(20)).limit).toEqual({ highestC: 43, because: 'vehicle' })
  })

  it('names a wish that is over already, and a bond that no longer cures', async () => {
    const path = `/v1/bonds/${bondId}/whatWouldHelp`
    const over = await test.owner.post(path, { by: by(-1), warming: 'bay', toleranceC: 2 })
    expect(over.status).toBe(422)
    expect(over.body.reasons).toMatchObject([{ field: 'body.by' }])
    await test.owner.made(`/v1/bonds/${bondId}/abandonment`, { reason: 'Came apart while aligning' })
    const done = await test.owner.post(path, { by: by(60), warming: 'bay', toleranceC: 2 })
    expect(done.body.type).toBe('/problems/wrong-state')
  })
})
