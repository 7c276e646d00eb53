import { afterAll, beforeAll, expect, it } from 'vitest'
import { application, steadyAir } from '../support/fixtures.ts'
import {
  makePlannedJob,
  makePlannedShop,
  planned,
  startPlanning,
  type PlannedJob,
  type PlannedShop,
} from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

const HOUR = 3_600_000
/** A Monday, 06:00 in New York. */
const START = new Date('2031-05-05T10:00:00Z')

interface Figures {
  readonly shopId: string | null
  readonly promised: number
  readonly onTime: number
  readonly onTimeShare: number | null
  readonly bayHours: number
  readonly bayHoursBooked: number
  readonly bayUse: number | null
  readonly bondsReleased: number
  readonly cureHours: number
  readonly earlyReleases: number
  readonly operationsPlanned: number
  readonly operationsMoved: number
  readonly hoursMoved: number
}

let test: TestApp
let shop: PlannedShop
let job: PlannedJob
let stopPlanning: () => Promise<void>
beforeAll(async () => {
  test = await startTestApp('embedded', START)
  stopPlanning = startPlanning(test.app)
  shop = await makePlannedShop(test)
  job = await makePlannedJob(test.owner, shop, new Date(START.getTime() + 60 * HOUR))
})
afterAll(async () => {
  await stopPlanning()
  await test.end()
})

const WEEK = 'from=2031-05-05T04:00:00Z&to=2031-05-12T04:00:00Z'
const figures = async () => {
  const { items, total } = await test.owner.read<{ items: Figures[]; total: Figures }>(
    `/v1/planFigures?${WEEK}`,
  )
  return { mine: items.find(({ shopId }) => shopId === shop.shopId)!, total }
}

it('counts bookings within the opening hours, and what was moved after it was published', async () => {
  const draft = await planned(test.owner, shop.shopId)
  await test.owner.made(`/v1/plans/${draft.id}/publication`)
  const before = (await figures()).mine
  // Two bays; five days of five hours and of four.
  expect(before.bayHours).toBe(2 * 5 * 9)
  expect(before.bayHoursBooked).toBeGreaterThan(4)
  expect(before.bayUse).toBeCloseTo(before.bayHoursBooked / 90, 3)
  expect(before).toMatchObject({
    operationsPlanned: 10,
    operationsMoved: 0,
    hoursMoved: 0,
    promised: 0,
    onTimeShare: null,
  })

  const refit = draft.operations.find(({ kind }) => kind === 'refit')!
  const startsAt = new Date(Date.parse(refit.startsAt) + HOUR / 4).toISOString()
  const moved = await test.owner.made<{ planId: string } & Record<string, unknown>>(
    `/v1/plans/${draft.id}/moves`,
    {
      operationId: refit.operationId,
      startsAt,
    },
  )
  expect(moved['isAllowed']).toBe(true)
  expect((await figures()).mine).toMatchObject({
    operationsPlanned: 10,
    operationsMoved: 1,
    hoursMoved: 0.25,
  })
})

it('counts a promise once it is due, and a release that came too early', async () => {
  const [piece] = (
    await test.owner.read<{ items: { id: string; shopId: string }[] }>(`/v1/cartridges?shopId=${shop.shopId}`)
  ).items
  await steadyAir(test.owner, shop.sensorId, 22, START, 1)
  const bond = await test.owner.made(`/v1/joints/${job.jointId}/bonds`, application(shop, piece!.id))
  await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
  test.clock.now = new Date(START.getTime() + HOUR)
  const body = { alreadyHappened: true, reason: 'Rolled out to let another car in' }
  await test.owner.made(`/v1/bonds/${bond.id}/release`, body)
  test.clock.now = new Date(START.getTime() + 61 * HOUR)
  const { mine, total } = await figures()
  expect(mine).toMatchObject({
    promised: 1,
    onTime: 0,
    onTimeShare: 0,
    bondsReleased: 1,
    cureHours: 1,
    earlyReleases: 1,
  })
  expect(total).toMatchObject({ promised: 1, bondsReleased: 1, shopId: null })
})

it('comes as a table too, and not for a period that makes no sense', async () => {
  const csv = await test.owner.get(`/v1/planFigures.csv?${WEEK}`)
  expect(csv.headers['content-type']).toContain('text/csv')
  const [head, ...rows] = csv.text.trim().split('\r\n')
  expect(head).toContain('onTimeShare')
  expect(rows.at(-1)).toMatch(/^All shops,/)
  const backwards = await test.owner.get('/v1/planFigures?from=2031-05-12T04:00:00Z&to=2031-05-05T04:00:00Z')
  expect(backwards.body.reasons[0].field).toBe('query.to')
})
