import { DateTime } from 'luxon'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { withClient } from '../support/databases.ts'
import { application, makeProduct, receive, SHEET } from '../support/fixtures.ts'
import {
  makePlannedJob,
  makePlannedShop,
  planned,
  settled,
  startPlanning,
  type PlannedJob,
  type PlannedShop,
  type WirePlan,
} from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

const MINUTE = 60_000
const HOUR = 60 * MINUTE
/** A Monday, 06:00 in New York; the first shift is an hour later. */
const START = DateTime.fromISO('2031-05-05T06:00', { zone: 'America/New_York' }).toJSDate()

let test: TestApp
let stopPlanning: () => Promise<void>
beforeAll(async () => {
  test = await startTestApp('server', START)
  stopPlanning = startPlanning(test.app)
})
afterAll(async () => {
  await stopPlanning()
  await test.end()
})

const at = (hours: number) => {
  test.clock.now = new Date(START.getTime() + hours * HOUR)
}
const publish = (id: string) => test.owner.post(`/v1/plans/${id}/publication`)
const publishedOf = async ({ shopId }: PlannedShop) =>
  (await test.owner.read<{ plan: WirePlan }>(`/v1/shops/${shopId}/publishedPlan`)).plan
const of = (plan: WirePlan, id: string) => plan.operations.find(({ operationId }) => operationId === id)!
const operationOf = (job: PlannedJob, kind: string) => job.operations.find((each) => each.kind === kind)!.id
const tell = (job: PlannedJob, kind: string, what: string, body: object = {}) =>
  test.owner.made(`/v1/operations/${operationOf(job, kind)}/${what}`, body)

async function makeShop(): Promise<PlannedShop> {
  at(0)
  return makePlannedShop(test)
}

async function bond(shop: PlannedShop, jointId: string): Promise<string> {
  const { items } = await test.owner.read<{ items: { id: string; state: string }[] }>(
    `/v1/cartridges?shopId=${shop.shopId}`,
  )
  const piece = items.find(({ state }) => state === 'sealed')!
  const { id } = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece.id))
  await test.owner.made(`/v1/bonds/${id}/clamping`)
  return id
}

it('a draft is published while work runs over its time and a bond cures, and not once it is too late for it', async () => {
  const shop = await makeShop()
  const job = await makePlannedJob(test.owner, shop, new Date(START.getTime() + 34 * HOUR))
  const other = await makePlannedJob(test.owner, shop, new Date(START.getTime() + 58 * HOUR))
  at(1)
  await tell(job, 'prepare', 'start', { placeId: shop.bayId, technicianIds: [shop.technicianIds[0]] })
  at(3.5)
  const overdue = await planned(test.owner, shop.shopId)
  // It was to end long ago, and ends any minute now: another minute at each look.
  at(3.6)
  expect((await publish(overdue.id)).body).toMatchObject({ state: 'published' })

  await tell(job, 'prepare', 'finish')
  await tell(job, 'dryFit', 'start', { placeId: shop.bayId })
  at(3.9)
  await tell(job, 'dryFit', 'finish')
  await bond(shop, job.jointId)
  at(4)
  const curing = await planned(test.owner, shop.shopId)
  const cure = of(curing, operationOf(job, 'cure'))
  expect(cure).toMatchObject({
    placeId: shop.bayId,
    startsAt: new Date(START.getTime() + 3.9 * HOUR).toISOString(),
  })
  // A reading says that it is colder than was thought.
  at(4.1)
  await test.owner.made(`/v1/sensors/${shop.sensorId}/readings`, {
    readings: [{ at: test.clock.now.toISOString(), temperatureC: 20, relativeHumidityPercent: 40 }],
  })
  expect((await publish(curing.id)).body).toMatchObject({ state: 'published' })
  const fresh = await planned(test.owner, shop.shopId)
  expect(of(fresh, cure.operationId).endsAt > cure.endsAt).toBe(true)

  // The bond has begun, and is no reason to overlook what has not.
  const late = of(fresh, operationOf(other, 'prepare'))
  test.clock.now = new Date(Date.parse(late.startsAt) + MINUTE)
  const refused = await publish(fresh.id)
  expect(refused.body.type).toBe('/problems/plan-outdated')
  expect(refused.body.detail).toMatch(/^Prepare.* was to start .*, and has not$/)
})

/** A joint of the same vehicle that has no operations: it was bonded before anybody planned. */
async function besideJoint(shop: PlannedShop, orderId: string, productId = shop.productId): Promise<string> {
  const { id } = await test.owner.made(`/v1/repairOrders/${orderId}/joints`, {
    name: 'Rail',
    panelMaterial: 'mildSteel',
    panelThicknessMm: 0.8,
    safetyClass: 'S3',
    productId,
    lengthMm: 900,
    flangeWidthMm: 12,
    beadDiameterMm: 4,
    procedure: { document: 'Body manual', revision: 'C', lookedUpOn: '2031-05-05' },
  })
  return id
}

it('a draft is refused when a joint without operations came off its clamps too early since', async () => {
  const shop = await makeShop()
  const { orderId } = await makePlannedJob(test.owner, shop)
  const rail = await besideJoint(shop, orderId)
  const draft = await planned(test.owner, shop.shopId)
  expect(draft.notes.unplanned).toEqual([])
  const made = await bond(shop, rail)
  at(0.2)
  const happened = { alreadyHappened: true, reason: 'Rolled out to let another car in' }
  await test.owner.made(`/v1/bonds/${made}/release`, happened)
  const refused = await publish(draft.id)
  expect(refused.body).toMatchObject({
    type: '/problems/plan-outdated',
    detail: expect.stringContaining('Rail: it was released before handling strength'),
  })
  expect(await publishedOf(shop)).toBeNull()
  // Planned again it is told by name, and nothing is planned that may not be done.
  const again = await planned(test.owner, shop.shopId)
  expect(again.notes.unplanned[0]?.reasons.join()).toContain('Rail: it was released before handling strength')
  expect(again.operations).toEqual([])
})

it('a bake is not booked beyond the rated range of what is on a joint without operations', async () => {
  const shop = await makeShop()
  const { orderId } = await makePlannedJob(test.owner, shop)
  const { id: productId } = await makeProduct(test.owner, {
    name: `Soft adhesive of ${shop.shopId}`,
    sheet: { ...SHEET, serviceRangeC: { min: -40, max: 55 } },
  })
  const [piece] = await receive(test.owner, { ...shop, productId })
  const draft = await planned(test.owner, shop.shopId)
  const rail = await besideJoint(shop, orderId, productId)
  const { id } = await test.owner.made(`/v1/joints/${rail}/bonds`, application(shop, piece!.id))
  await test.owner.made(`/v1/bonds/${id}/clamping`)
  const refused = await publish(draft.id)
  expect(refused.body).toMatchObject({ type: '/problems/plan-outdated', status: 409 })
  const why = expect.stringMatching(/Bake: .*Rail is rated to 55/)
  expect(refused.body.reasons).toMatchObject([{ message: why }])
  const { notes } = await planned(test.owner, shop.shopId)
  expect(notes.unplanned).toMatchObject([{ reasons: [why] }])
  expect(
    await test.database.prisma.booking.count({ where: { repairOrderId: orderId, purpose: 'bake' } }),
  ).toBe(0)
})

it('a draft that leaves a vehicle out costs that, and is published only once that vehicle is confirmed', async () => {
  const shop = await makeShop()
  const job = await makePlannedJob(test.owner, shop)
  const whole = await planned(test.owner, shop.shopId)
  expect(whole.leftOut).toEqual([])
  expect((await publish(whole.id)).status).toBe(201)

  // A rocker needs somebody who welds; nobody does.
  const left = await makePlannedJob(test.owner, shop, null, 'rocker')
  const draft = await planned(test.owner, shop.shopId)
  const { number, vehicle } = await test.owner.read<{ number: string; vehicle: string }>(
    `/v1/repairOrders/${left.orderId}`,
  )
  expect(draft.summary).toMatchObject({ orders: 1, droppedOrders: 1 })
  expect(draft.leftOut).toMatchObject([{ id: left.orderId, number, vehicle }])
  expect(draft.summary!.cost).toBeGreaterThanOrEqual(whole.summary!.cost + 28 * 24 * 60)
  const confirmed = (leavesOut: string[]) =>
    test.owner.post(`/v1/plans/${draft.id}/publication`, { leavesOut })

  const refused = await publish(draft.id)
  expect(refused.body).toMatchObject({
    type: '/problems/vehicles-left-out',
    status: 409,
    detail: `1 vehicle dropped: ${number}, ${vehicle}`,
    reasons: [{ message: expect.stringMatching(/skill welding/) }],
  })
  expect(JSON.stringify(refused.body.reasons)).not.toContain(left.orderId)
  // What is planned is not left out, whoever says so.
  const wrong = await confirmed([left.orderId, job.orderId])
  expect(wrong.body).toMatchObject({ status: 422, reasons: [{ field: 'body.leavesOut.1' }] })
  expect((await publishedOf(shop)).id).toBe(whole.id)

  expect((await confirmed([left.orderId])).status).toBe(201)
  expect(await publishedOf(shop)).toMatchObject({ id: draft.id, leftOut: [{ number }] })
})

it('a vehicle that was closed since is not left out, and needs no confirmation', async () => {
  const shop = await makeShop()
  await makePlannedJob(test.owner, shop)
  const left = await makePlannedJob(test.owner, shop, null, 'rocker')
  const draft = await planned(test.owner, shop.shopId)
  expect(draft.leftOut).toHaveLength(1)
  const closed = await test.owner.patch(`/v1/repairOrders/${left.orderId}`, { state: 'done' }, 1)
  expect(closed.status).toBe(200)
  expect((await publish(draft.id)).status).toBe(201)
})

it('what begins later than planned has begun, and was not moved', async () => {
  const shop = await makeShop()
  const job = await makePlannedJob(test.owner, shop)
  const draft = await planned(test.owner, shop.shopId)
  expect((await publish(draft.id)).status).toBe(201)
  const prepare = of(draft, operationOf(job, 'prepare'))
  test.clock.now = new Date(Date.parse(prepare.startsAt) + 7 * MINUTE)
  await tell(job, 'prepare', 'start')
  const fresh = await planned(test.owner, shop.shopId, { mode: 'repair', reason: 'Began late' })
  expect(of(fresh, prepare.operationId).startsAt).toBe(test.clock.now.toISOString())
  const compared = await test.owner.read<{ operations: { operationId: string }[] }>(
    `/v1/plans/${fresh.id}/comparison`,
  )
  expect(compared.operations.map(({ operationId }) => operationId)).not.toContain(prepare.operationId)
  expect((await publish(fresh.id)).status).toBe(201)
  const changes = await test.database.prisma.planChange.findMany({ where: { planId: fresh.id } })
  expect(changes.map(({ operationId }) => operationId)).not.toContain(prepare.operationId)
})

it('nobody says that work will end after the plans do', async () => {
  const shop = await makeShop()
  const job = await makePlannedJob(test.owner, shop)
  await tell(job, 'prepare', 'start')
  const path = `/v1/operations/${operationOf(job, 'prepare')}/expectedEnd`
  const inDays = (days: number) => ({
    expectedEndAt: new Date(START.getTime() + days * 24 * HOUR).toISOString(),
  })
  const refused = await test.owner.post(path, inDays(28))
  expect(refused.status).toBe(422)
  expect(refused.body.reasons[0]).toMatchObject({ field: 'body.expectedEndAt' })
  expect((await test.owner.post(path, inDays(27))).status).toBe(201)
})

it('a move by hand tells what is lacking now: a lot on hold is no stock', async () => {
  const shop = await makeShop()
  const job = await makePlannedJob(test.owner, shop)
  const draft = await planned(test.owner, shop.shopId)
  await test.owner.made(`/v1/plans/${draft.id}/publication`)
  expect(draft.summary).toMatchObject({ shortMl: 0 })
  const { items } = await test.owner.read<{ items: { lotId: string }[] }>(
    `/v1/cartridges?shopId=${shop.shopId}`,
  )
  await test.owner.made(`/v1/lots/${items[0]!.lotId}/hold`, { reason: 'Frost on the way' })
  const refit = of(draft, operationOf(job, 'refit'))
  const startsAt = new Date(Date.parse(refit.startsAt) + 15 * MINUTE).toISOString()
  const moved = await test.owner.made<{ isAllowed: boolean } & Record<string, unknown>>(
    `/v1/plans/${draft.id}/moves`,
    { operationId: refit.operationId, startsAt },
  )
  expect(moved.isAllowed).toBe(true)
  const after = await publishedOf(shop)
  expect(after.summary).toMatchObject({ orders: 1, shortMl: expect.closeTo(await needed(), 0) })

  async function needed() {
    const held = await planned(test.owner, shop.shopId)
    expect(held.summary!.shortMl).toBeGreaterThan(20)
    return held.summary!.shortMl
  }
})

it('what nobody works on is moved with nobody named', async () => {
  const shop = await makeShop()
  const job = await makePlannedJob(test.owner, shop)
  const draft = await planned(test.owner, shop.shopId)
  await test.owner.made(`/v1/plans/${draft.id}/publication`)
  const { operationId, startsAt } = of(draft, operationOf(job, 'bake'))
  const body = { operationId, startsAt, technicianIds: [], tryOnly: true }
  expect((await test.owner.post(`/v1/plans/${draft.id}/moves`, body)).body).toMatchObject({
    isAllowed: true,
    reasons: [],
  })
})

it('who asks for a plan or discards one comes after whoever decides about plans at that moment', async () => {
  const shop = await makeShop()
  await makePlannedJob(test.owner, shop)
  const draft = await planned(test.owner, shop.shopId)
  const waits = (ask: () => PromiseLike<{ status: number }>) =>
    withClient(test.url, async (client) => {
      await client.query('begin')
      await client.query('select 1 from shop where id = $1 for no key update', [shop.shopId])
      let status: number | undefined
      const answer = Promise.resolve(ask()).then((response) => {
        status = response.status
      })
      await new Promise((resolve) => setTimeout(resolve, 400))
      const meanwhile = status
      await client.query('commit')
      await answer
      return [meanwhile, status]
    })
  expect(await waits(() => test.owner.delete(`/v1/plans/${draft.id}`))).toEqual([undefined, 204])
  const start = () => test.owner.post(`/v1/shops/${shop.shopId}/plans`, { iterations: 100 })
  expect(await waits(start)).toEqual([undefined, 202])
  const [running] = (await test.owner.read<{ items: { id: string }[] }>(`/v1/shops/${shop.shopId}/plans`))
    .items
  await settled(test.owner, running!.id)
})

it('a joint that is to be bonded again is planned as one that has not been bonded', async () => {
  const shop = await makeShop()
  const job = await makePlannedJob(test.owner, shop, new Date(START.getTime() + 58 * HOUR))
  at(1)
  for (const kind of ['prepare', 'dryFit']) {
    await tell(job, kind, 'start', { placeId: shop.bayId, technicianIds: [shop.technicianIds[0]] })
    await tell(job, kind, 'finish')
  }
  const id = await bond(shop, job.jointId)
  at(1.1)
  const told = { alreadyHappened: true, reason: 'The panel was pulled off to align it' }
  const { incidents } = await test.owner.made<{ incidents: { id: string }[] }>(
    `/v1/bonds/${id}/release`,
    told,
  )
  const redone = { kind: 'redone', reason: 'Scraped off on both sides' }
  await test.owner.made(`/v1/incidents/${incidents[0]!.id}/disposition`, redone)
  const plan = await planned(test.owner, shop.shopId)
  for (const kind of ['bondAndClamp', 'cure'])
    expect(of(plan, operationOf(job, kind)).startsAt > test.clock.now.toISOString(), kind).toBe(true)
  // Nor has anybody anything to unclamp, and adhesive is kept for it again.
  const dress = await test.owner.post(`/v1/operations/${operationOf(job, 'unclampAndDress')}/start`)
  expect(dress.body.detail).toContain('comes first, and is not finished')
  const { items } = await test.owner.made<{ items: object[] }>(`/v1/joints/${job.jointId}/reservation`)
  expect(items).toHaveLength(1)
})
