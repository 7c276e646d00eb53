import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { estimateOf as EstimateOf } from '../../apps/api/src/cure/estimates/history.ts'
import type { bondRow as BondRow } from '../../apps/api/src/cure/estimates/bond-store.ts'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'
import { application, makeJoint, makeShop, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const RUNS = Number(process.env['PROPERTY_RUNS'] ?? 4)

interface Line {
  readonly progress: { readonly conservative: number }
  readonly readyAt: { readonly conservative: unknown }
}
interface Bond {
  readonly id: string
  readonly asOf: string
  readonly readings: readonly { readonly temperatureC: number }[]
  readonly measurements: readonly { readonly id: string; readonly quality: string }[]
  readonly estimate: { readonly asOf: string; readonly workTime: Line; readonly handlingStrength: Line }
}

const seconds = fc.integer({ min: 0, max: 40 })
const act = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({ does: fc.constant('air' as const), c: fc.integer({ min: 8, max: 30 }), seconds }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      does: fc.constant('lateAir' as const),
      c: fc.integer({ min: 8, max: 30 }),
      seconds,
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      does: fc.constant('metal' as const),
      c: fc.integer({ min: 8, max: 30 }),
      seconds,
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      does: fc.constantFrom('withdrawMetal', 'withdrawAir', 'doubt', 'trust', 'clamp', 'wait'),
      seconds,
    }),
  },
)

/** By modules that have kept nothing, from what the database holds: work time and handling strength, careful. */
async function computedAnew(
  { database }: TestApp,
  bondId: string,
  at: Date,
): Promise<readonly [number, number]> {
  vi.resetModules()
  const { estimateOf } = (await import('../../apps/api/src/cure/estimates/history.ts')) as {
    estimateOf: typeof EstimateOf
  }
  const { bondRow } = (await import('../../apps/api/src/cure/estimates/bond-store.ts')) as {
    bondRow: typeof BondRow
  }
  const organization = await database.prisma.organization.findFirstOrThrow()
  const { estimate } = await inChain(database, organization.id, async (tx) =>
    estimateOf(tx, await bondRow(tx, bondId), 'America/New_York', at),
  )
  return [estimate.workTime.progress.conservative, estimate.handlingStrength.progress.conservative]
}

async function startBond(owner: Client): Promise<{ shop: Shop; id: string }> {
  const shop = await makeShop(owner)
  const [piece] = await receive(owner, shop)
  const { jointId } = await makeJoint(owner, shop)
  const { id } = await owner.made<Bond>(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
  return { shop, id }
}

describe('an estimate that is kept', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await startTestApp('embedded')
  })
  afterAll(() => test.end())

  async function doIt(shop: Shop, bond: Bond, { does, ...given }: { does: string; c?: number }, now: Date) {
    const { owner } = test
    const at = now.toISOString()
    const reason = 'Looked at again'
    const sensor = `/v1/sensors/${shop.sensorId}`
    const good = bond.measurements.find(({ quality }) => quality === 'good')
    // Much of it is refused, and then changes nothing.
    switch (does) {
      case 'air':
        return owner.post(`${sensor}/readings`, { readings: [{ at, temperatureC: given.c }] })
      case 'lateAir': {
        const then = new Date(now.getTime() - 3_600_000).toISOString()
        return owner.post(`${sensor}/readings`, { readings: [{ at: then, temperatureC: given.c }] })
      }
      case 'metal':
        return owner.post(`/v1/bonds/${bond.id}/readings`, { temperatureC: given.c, confirmed: [] })
      case 'withdrawMetal':
        return good && owner.post(`/v1/panelReadings/${good.id}/withdrawal`, { reason })
      case 'withdrawAir': {
        const from = new Date(now.getTime() - 1_800_000).toISOString()
        return owner.post(`${sensor}/corrections`, { kind: 'withdrawn', from, until: at, reason })
      }
      case 'clamp':
        return owner.post(`/v1/bonds/${bond.id}/clamping`)
      case 'doubt':
      case 'trust':
        return owner.post(`${sensor}/${does}`, { reason })
    }
  }

  it('is what would be computed at its instant, whatever has happened since', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(act, { minLength: 3, maxLength: 8 }), async (acts) => {
        test.clock.now = NOON
        const { owner } = test
        const { shop, id } = await startBond(owner)
        for (const each of acts) {
          test.clock.now = new Date(test.clock.now.getTime() + each.seconds * 1000)
          const before = await owner.read<Bond>(`/v1/bonds/${id}`)
          await doIt(shop, before, each, test.clock.now)
          const shown = await owner.read<Bond>(`/v1/bonds/${id}`)
          const asOf = new Date(shown.estimate.asOf)
          expect(test.clock.now.getTime() - asOf.getTime()).toBeLessThan(15_000)
          const [work, handling] = await computedAnew(test, id, asOf)
          expect(shown.estimate.workTime.progress.conservative).toBeCloseTo(work, 9)
          expect(shown.estimate.handlingStrength.progress.conservative).toBeCloseTo(handling, 9)
        }
      }),
      { numRuns: RUNS },
    )
  })
})

describe('an estimate that is kept, while several write at once', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await startTestApp('server')
  })
  afterAll(() => test.end())

  it('is computed anew after a transaction that began before the newest reading, and ended after it', async () => {
    const { owner } = test
    const { shop, id } = await startBond(owner)
    const organization = await test.database.prisma.organization.findFirstOrThrow()
    const soon = (seconds: number) => (test.clock.now = new Date(NOON.getTime() + seconds * 1000))
    const air = (temperatureC: number) =>
      owner.post(`/v1/sensors/${shop.sensorId}/readings`, {
        readings: [{ at: test.clock.now.toISOString(), temperatureC }],
      })
    const before = soon(30)
    await air(22)
    await inChain(test.database, organization.id, async (tx) => {
      // This transaction has its number now, and the next reading a higher one.
      await tx.$executeRaw`select pg_current_xact_id()`
      soon(31)
      await air(22.1)
      await owner.read(`/v1/bonds/${id}`)
      await tx.$executeRaw`
        update temperature_reading set quality = 'suspect', findings = '[{"kind":"spike","message":"Alone"}]'
         where sensor_id = ${shop.sensorId}::uuid and at = ${before}::timestamptz`
    })
    soon(32)
    const shown = await owner.read<Bond>(`/v1/bonds/${id}`)
    const [work, handling] = await computedAnew(test, id, new Date(shown.estimate.asOf))
    expect(shown.estimate.workTime.progress.conservative).toBeCloseTo(work, 9)
    expect(shown.estimate.handlingStrength.progress.conservative).toBeCloseTo(handling, 9)
  })

  it('has the reading that was found in the database by who had asked a moment before it', async () => {
    const { owner } = test
    const { id } = await startBond(owner)
    const at = (seconds: number) => (test.clock.now = new Date(NOON.getTime() + seconds * 1000))
    const measuredAt = at(60.4).toISOString()
    await owner.made(`/v1/bonds/${id}/readings`, { temperatureC: 23.4, at: measuredAt, confirmed: [] })
    at(59.9)
    const before = await owner.read<Bond>(`/v1/bonds/${id}`)
    expect(before.readings.some(({ temperatureC }) => temperatureC === 23.4)).toBe(false)
    at(60.6)
    const after = await owner.read<Bond>(`/v1/bonds/${id}`)
    expect(after.readings.some(({ temperatureC }) => temperatureC === 23.4)).toBe(true)
  })

  it('is as of an instant after the writing that it was made from, however long its question waited', async () => {
    const { owner } = test
    const { id } = await startBond(owner)
    const asked = new Date(NOON.getTime() + 90_200)
    const answered = new Date(NOON.getTime() + 90_800)
    test.clock.now = asked
    let shown: Promise<Bond> | undefined
    await test.database.prisma.$transaction(async (tx) => {
      await tx.$executeRaw`lock table change_mark in access exclusive mode`
      shown = owner.read<Bond>(`/v1/bonds/${id}`)
      await expect
        .poll(() => tx.$queryRaw`select 1 as waits from pg_locks where not granted`, { timeout: 10_000 })
        .toHaveLength(1)
      test.clock.now = answered
    })
    expect((await shown)?.estimate.asOf).toBe(answered.toISOString())
  })
})
