import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Point {
  readonly at: string
  readonly lowC: number
  readonly expectedC: number
  readonly highC: number
  readonly progress: { readonly earliest: number; readonly expected: number; readonly conservative: number }
}

interface Curve {
  readonly asOf: string
  readonly readyAt: { readonly conservative: { readonly kind: string; readonly at: string } }
  readonly points: readonly Point[]
  readonly events: readonly {
    readonly kind: string
    readonly at: string
    readonly temperatureC: number | null
  }[]
}

describe("a bond's curve", () => {
  let test: TestApp
  let shop: Shop
  let bondId: string
  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    bondId = (await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))).id
    test.clock.now = new Date(NOON.getTime() + 20 * 60_000)
    await test.owner.made(`/v1/bonds/${bondId}/clamping`)
    test.clock.now = new Date(NOON.getTime() + 45 * 60_000)
    await test.owner.made(`/v1/bonds/${bondId}/readings`, { temperatureC: 22.5, accuracyC: 0.5 })
    test.clock.now = new Date(NOON.getTime() + 60 * 60_000)
  })
  afterAll(() => test.end())
  const curve = (query = '') => test.owner.read<Curve>(`/v1/bonds/${bondId}/curve${query}`)

  it('agrees with the estimate, in order, its band around it', async () => {
    const { asOf, points, readyAt } = await curve()
    const bond = await test.owner.read<{
      estimate: { handlingStrength: { progress: Point['progress']; readyAt: Curve['readyAt'] } }
    }>(`/v1/bonds/${bondId}`)
    const { progress, readyAt: estimated } = bond.estimate.handlingStrength
    expect(readyAt).toEqual(estimated)
    expect(points[0]).toMatchObject({ at: NOON.toISOString(), progress: { expected: 0 } })
    const now = points.findLast(({ at }) => Date.parse(at) <= Date.parse(asOf))!
    expect(now.at).toBe(asOf)
    for (const line of ['earliest', 'expected', 'conservative'] as const)
      expect(now.progress[line]).toBeCloseTo(progress[line], 9)
    for (const [i, point] of points.entries()) {
      expect(point.lowC).toBeLessThanOrEqual(point.expectedC)
      expect(point.expectedC).toBeLessThanOrEqual(point.highC)
      if (i > 0) expect(Date.parse(point.at)).toBeGreaterThanOrEqual(Date.parse(points[i - 1]!.at))
    }
    // An hour beyond ready, and the careful line has passed one by then.
    expect(Date.parse(points.at(-1)!.at)).toBeGreaterThan(Date.parse(readyAt.conservative.at))
    expect(points.at(-1)!.progress.conservative).toBeGreaterThan(1)
  })

  it('marks what happened, and takes the step that is asked for', async () => {
    const { events } = await curve()
    expect(events.map(({ kind }) => kind)).toEqual(['applied', 'reading', 'clamped', 'reading'])
    expect(events.at(-1)).toMatchObject({ temperatureC: 22.5 })
    const coarse = (await curve('?stepMinutes=60')).points.length
    expect((await curve('?stepMinutes=1')).points.length).toBeGreaterThan(3 * coarse)
    expect((await test.owner.get(`/v1/bonds/${bondId}/curve?stepMinutes=0`)).status).toBe(422)
  })

  it('ends where the bond ended', async () => {
    await test.owner.made(`/v1/bonds/${bondId}/abandonment`, { reason: 'Panels were lifted apart' })
    test.clock.now = new Date(NOON.getTime() + 300 * 60_000)
    const { asOf, points, events } = await curve()
    expect(asOf).toBe(new Date(NOON.getTime() + 60 * 60_000).toISOString())
    expect(points.at(-1)!.at).toBe(asOf)
    // Given up, and left with its adhesive on: both at that instant.
    expect(events.slice(-2).map(({ kind }) => kind)).toEqual(['abandoned', 'incident'])
  })
})
