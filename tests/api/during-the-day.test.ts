import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  doubleBooked,
  makePlannedJob,
  makePlannedShop,
  planned,
  startPlanning,
  type PlannedJob,
  type PlannedShop,
  type WirePlan,
} from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

const HOUR = 3_600_000
/** A Monday, 06:00 in New York. */
const START = new Date('2031-05-05T10:00:00Z')

let test: TestApp
let shop: PlannedShop
let jobs: PlannedJob[]
let stopPlanning: () => Promise<void>
beforeAll(async () => {
  test = await startTestApp('server', START)
  stopPlanning = startPlanning(test.app)
  shop = await makePlannedShop(test)
  jobs = []
  for (let i = 0; i < 3; i += 1)
    jobs.push(await makePlannedJob(test.owner, shop, new Date(START.getTime() + (34 + 24 * i) * HOUR)))
  const draft = await planned(test.owner, shop.shopId)
  await test.owner.made(`/v1/plans/${draft.id}/publication`)
})
afterAll(async () => {
  await stopPlanning()
  await test.end()
})

const publish = (id: string) => test.owner.post(`/v1/plans/${id}/publication`)
const published = async () =>
  (await test.owner.read<{ plan: WirePlan }>(`/v1/shops/${shop.shopId}/publishedPlan`)).plan
const of = (plan: WirePlan, id: string) => plan.operations.find(({ operationId }) => operationId === id)!
const operationOf = (job: PlannedJob, kind: string) => job.operations.find((each) => each.kind === kind)!.id
const at = (iso: string) => {
  test.clock.now = new Date(iso)
}

it('an operation is started, delayed and finished, in order, and each is a fact for the plan', async () => {
  const before = await published()
  const first = before.operations.toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))[0]!
  const job = jobs.find(({ orderId }) => orderId === first.repairOrderId)!
  const tell = (id: string, what: string, body: object = {}) =>
    test.owner.post(`/v1/operations/${id}/${what}`, body)
  at(first.startsAt)
  const early = await tell(operationOf(job, 'dryFit'), 'start')
  expect(early.body).toMatchObject({ type: '/problems/wrong-state' })
  expect(early.body.detail).toContain('comes first')
  expect((await tell(first.operationId, 'finish')).body.detail).toContain('has not begun')
  expect((await tell(first.operationId, 'start')).body).toMatchObject({
    startedAt: test.clock.now.toISOString(),
  })
  expect((await tell(first.operationId, 'start')).status).toBe(409)
  expect((await tell(operationOf(job, 'bondAndClamp'), 'start')).body.detail).toContain('at its joint')

  const moved = await test.owner.post(`/v1/plans/${before.id}/moves`, {
    operationId: first.operationId,
    startsAt: new Date(Date.parse(first.startsAt) + HOUR).toISOString(),
  })
  expect(moved.body.detail).toContain('has begun')

  // It will take two hours longer: what follows on the vehicle is planned after that, and nothing without a cause.
  const expectedEndAt = new Date(Date.parse(first.endsAt) + 2 * HOUR).toISOString()
  await tell(first.operationId, 'expectedEnd', { expectedEndAt })
  at(new Date(Date.parse(first.startsAt) + HOUR / 2).toISOString())
  const proposal = await planned(test.owner, shop.shopId, { mode: 'repair', reason: 'Prepare takes longer' })
  expect(proposal).toMatchObject({ state: 'draft', fault: null })
  expect(of(proposal, operationOf(job, 'dryFit')).startsAt >= expectedEndAt).toBe(true)
  expect(of(proposal, first.operationId)).toMatchObject({ startsAt: first.startsAt, placeId: first.placeId })
  expect((await publish(proposal.id)).status).toBe(201)
  expect(await doubleBooked(test)).toBe(0)
  at(expectedEndAt)
  expect((await tell(first.operationId, 'finish')).body).toMatchObject({ finishedAt: expectedEndAt })
})

it('a bay fails: the repair proposes, and what can stay where it was stays', async () => {
  const before = await published()
  // Later in the week, in a bay where something is still to come.
  const target = before.operations
    .filter(
      ({ startsAt, kind }) =>
        kind === 'prepare' && startsAt > new Date(test.clock.now.getTime() + 3 * HOUR).toISOString(),
    )
    .toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))[0]!
  const until = new Date(Date.parse(target.startsAt) + 6 * HOUR)
  const absence = await test.owner.made<{ items: object[] }>(`/v1/resources/${target.placeId}/absences`, {
    from: new Date(Date.parse(target.startsAt) - HOUR / 2).toISOString(),
    until: until.toISOString(),
    note: 'Lift does not go up',
  })
  expect(absence.items.length).toBeGreaterThan(0)
  const proposal = await planned(test.owner, shop.shopId, { mode: 'repair', reason: 'Bay out of use' })
  expect(proposal).toMatchObject({ state: 'draft', fault: null })
  const now = of(proposal, target.operationId)
  expect(now.placeId !== target.placeId || Date.parse(now.startsAt) >= until.getTime()).toBe(true)
  const comparison = await test.owner.read<{ operations: { repairOrderId: string }[]; unmoved: number }>(
    `/v1/plans/${proposal.id}/comparison`,
  )
  expect(comparison.unmoved).toBeGreaterThan(0)
  expect((await publish(proposal.id)).status).toBe(201)
  expect(await doubleBooked(test)).toBe(0)
  const changes = await test.database.prisma.planChange.findMany({ where: { planId: proposal.id } })
  expect(changes.map(({ operationId }) => operationId)).toContain(target.operationId)
  expect(changes.every(({ reason }) => reason === 'Bay out of use')).toBe(true)
})

it('a rush job comes in: it finds a place, and nobody is told to move without need', async () => {
  const rush = await makePlannedJob(test.owner, shop, new Date(test.clock.now.getTime() + 30 * HOUR))
  await test.owner.patch(`/v1/repairOrders/${rush.orderId}`, { priority: 'rush' }, 2)
  const proposal = await planned(test.owner, shop.shopId, { mode: 'repair', reason: 'Rush job' })
  expect(proposal).toMatchObject({ state: 'draft', fault: null })
  expect(proposal.operations.filter(({ repairOrderId }) => repairOrderId === rush.orderId)).toHaveLength(10)
  expect((await publish(proposal.id)).status).toBe(201)
  expect(await doubleBooked(test)).toBe(0)
})

it('a person falls ill: nothing is left with them', async () => {
  const [ann] = shop.technicianIds
  const from = new Date(test.clock.now.getTime() + HOUR)
  const until = new Date(from.getTime() + 48 * HOUR)
  const absence = { from: from.toISOString(), until: until.toISOString() }
  await test.owner.made(`/v1/resources/${ann}/absences`, absence)
  const proposal = await planned(test.owner, shop.shopId, { mode: 'repair', reason: 'Ann is ill' })
  expect(proposal).toMatchObject({ state: 'draft', fault: null })
  const hers = proposal.operations.filter(({ technicianIds }) => technicianIds.includes(ann!))
  expect(hers.filter(({ startsAt }) => startsAt >= absence.from && startsAt < absence.until)).toEqual([])
  expect((await publish(proposal.id)).status).toBe(201)
})
