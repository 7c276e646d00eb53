import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import {
  doubleBooked,
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

const HOUR = 3_600_000
/** A Monday, 06:00 in New York. */
const START = new Date('2031-05-05T10:00:00Z')
const TOO_SOON = new Date(START.getTime() + HOUR)

describe.each(ONE_KIND)('a plan, on the %s database', (kind) => {
  let test: TestApp
  let shop: PlannedShop
  let jobs: PlannedJob[]
  let stopPlanning: () => Promise<void>
  beforeAll(async () => {
    test = await startTestApp(kind, START)
    stopPlanning = startPlanning(test.app)
    shop = await makePlannedShop(test)
    jobs = []
    for (let i = 0; i < 3; i += 1)
      jobs.push(await makePlannedJob(test.owner, shop, new Date(START.getTime() + (34 + 24 * i) * HOUR)))
  })
  afterAll(async () => {
    await stopPlanning()
    await test.end()
  })

  const plan = () => planned(test.owner, shop.shopId)
  const publish = (id: string) => test.owner.post(`/v1/plans/${id}/publication`)
  const published = async () =>
    (await test.owner.read<{ plan: WirePlan | null }>(`/v1/shops/${shop.shopId}/publishedPlan`)).plan
  const of = (which: WirePlan, operationId: string) =>
    which.operations.find((each) => each.operationId === operationId)!
  const operationOf = (job: PlannedJob, what: string) => job.operations.find((each) => each.kind === what)!.id
  /** Of jobs promised for the same hour, and too soon, no bound is met: the search goes on until it is stopped. */
  const startLong = ({ shopId }: PlannedShop) =>
    test.owner.made(`/v1/shops/${shopId}/plans`, { seconds: 60, iterations: 1_000_000 })
  const isWaiting = async (id: string) => (await test.owner.read<WirePlan>(`/v1/plans/${id}`)).isWaiting
  const bookings = () =>
    test.database.prisma.booking.findMany({
      where: { shopId: shop.shopId, cancelledAt: null, planId: { not: null } },
    })

  it('is a draft that nobody is bound by, with all its operations, in order', async () => {
    const draft = await plan()
    expect(draft).toMatchObject({ state: 'draft', fault: null, summary: { orders: 3 } })
    expect(draft.notes.unplanned).toEqual([])
    expect(draft.operations).toHaveLength(30)
    expect(await published()).toBeNull()
    expect(await bookings()).toEqual([])
    const cure = of(draft, operationOf(jobs[0]!, 'cure'))
    const bond = of(draft, operationOf(jobs[0]!, 'bondAndClamp'))
    const dress = of(draft, operationOf(jobs[0]!, 'unclampAndDress'))
    expect(cure.startsAt).toBe(bond.endsAt)
    expect(cure.endsAt <= dress.startsAt).toBe(true)
    expect([shop.bayId, shop.otherBayId]).toContain(cure.placeId)
  })

  it('is the same for the same facts, seed and iterations', async () => {
    const [one, two] = [await plan(), await plan()]
    expect(two.operations).toEqual(one.operations)
  })

  it('becomes the bookings when it is published, and supersedes the one before', async () => {
    const draft = await plan()
    expect((await publish(draft.id)).status).toBe(201)
    expect((await published())!.id).toBe(draft.id)
    const made = await bookings()
    const bond = of(draft, operationOf(jobs[0]!, 'bondAndClamp'))
    const mine = made.filter(({ repairOrderId }) => repairOrderId === jobs[0]!.orderId)
    expect(mine.find(({ operationId }) => operationId === bond.operationId)).toMatchObject({
      resourceId: bond.technicianIds[0],
      startsAt: new Date(bond.startsAt),
    })
    expect(mine.filter(({ purpose }) => purpose === 'bake')).toHaveLength(1)
    expect(await doubleBooked(test)).toBe(0)

    const second = await plan()
    const comparison = await test.owner.read<{ against: string; operations: object[]; unmoved: number }>(
      `/v1/plans/${second.id}/comparison`,
    )
    // Nothing happened: a price on change keeps everything where it was.
    expect(comparison).toMatchObject({ against: draft.id, operations: [], unmoved: 30 })
    expect((await publish(second.id)).status).toBe(201)
    expect((await bookings()).length).toBe(made.length)
    expect((await test.owner.read<WirePlan>(`/v1/plans/${draft.id}`)).state).toBe('superseded')
  })

  it('is refused when another was published since it was made, and nothing is lost', async () => {
    const [mine, theirs] = [await plan(), await plan()]
    expect((await publish(theirs.id)).status).toBe(201)
    const late = await publish(mine.id)
    expect(late.body).toMatchObject({ type: '/problems/plan-outdated', status: 409 })
    expect(late.body.detail).toContain('has published another plan')
    expect((await published())!.id).toBe(theirs.id)
    expect(await test.owner.read<WirePlan>(`/v1/plans/${mine.id}`)).toMatchObject({
      state: 'draft',
      isOutdated: true,
    })
  })

  it('is refused as a whole when somebody booked a place by hand meanwhile', async () => {
    const draft = await plan()
    const before = await bookings()
    const bake = of(draft, operationOf(jobs[2]!, 'paint'))
    const order = await test.owner.made(`/v1/shops/${shop.shopId}/repairOrders`, {
      number: 'BY-HAND',
      vehicle: 'Van',
    })
    const stay = draft.stays.find(
      ({ resourceId, startsAt }) => resourceId === shop.ovenId && startsAt === bake.startsAt,
    )!
    // The published plan has the oven then; what it books gives way only to a plan.
    const taken = await test.owner.post('/v1/bookings', {
      resourceId: shop.ovenId,
      repairOrderId: order.id,
      purpose: 'bake',
      highestMetalC: 60,
      startsAt: stay.startsAt,
      endsAt: stay.endsAt,
    })
    expect(taken.body.type).toBe('/problems/booking-taken')
    await test.owner.made(`/v1/shops/${shop.shopId}/dayExceptions`, {
      kind: 'absent',
      resourceId: shop.ovenId,
      firstDay: stay.startsAt.slice(0, 10),
      lastDay: stay.startsAt.slice(0, 10),
    })
    const answer = await publish(draft.id)
    expect(answer.body.type).toBe('/problems/plan-outdated')
    expect(answer.body.detail).toMatch(/^Oven is booked or out of use .*\d:\d\d, and /)
    expect((await bookings()).map(({ id }) => id).toSorted()).toEqual(before.map(({ id }) => id).toSorted())
    const again = await plan()
    expect((await publish(again.id)).status).toBe(201)
    expect(await doubleBooked(test)).toBe(0)
  })

  it('leaves its bookings to itself: they are not moved or cancelled by hand', async () => {
    const [booking] = await bookings()
    const move = await test.owner.patch(`/v1/bookings/${booking!.id}`, { note: 'x' }, booking!.version)
    expect(move.body.type).toBe('/problems/wrong-state')
    expect((await test.owner.delete(`/v1/bookings/${booking!.id}`)).body.type).toBe('/problems/wrong-state')
  })

  it('moves one operation, with what follows on its vehicle, and says why another move is refused', async () => {
    const current = (await published())!
    const dress = of(current, operationOf(jobs[2]!, 'unclampAndDress'))
    const move = (startsAt: string, more: object = {}) =>
      test.owner.post(`/v1/plans/${current.id}/moves`, { operationId: dress.operationId, startsAt, ...more })
    const cure = of(current, operationOf(jobs[2]!, 'cure'))
    // The plan leaves ten minutes behind a cure: the forecast changes a little with each reading.
    expect(Date.parse(dress.startsAt) - Date.parse(cure.endsAt)).toBeGreaterThanOrEqual(10 * 60_000)
    const soon = new Date(Date.parse(cure.endsAt) - 30 * 60_000).toISOString()
    const refused = (await move(soon)).body
    expect(refused).toMatchObject({ isAllowed: false, planId: current.id, moved: [] })
    expect(refused.reasons.map((each: { message: string }) => each.message).join()).toContain('before Cure')
    const close = new Date(Date.parse(cure.endsAt) + 5 * 60_000).toISOString()
    const tooClose = (await move(close, { tryOnly: true })).body
    expect(tooClose.reasons.map((each: { message: string }) => each.message).join()).toContain(
      'right after Cure',
    )
    const night = new Date(`${dress.startsAt.slice(0, 10)}T23:00:00Z`).toISOString()
    const atNight = (await move(night, { tryOnly: true })).body
    expect(atNight.reasons.map((each: { message: string }) => each.message).join()).toContain('in a break')

    const later = new Date(Date.parse(dress.startsAt) + 5 * 60_000).toISOString()
    const tried = (await move(later, { tryOnly: true })).body
    expect(tried).toMatchObject({ isAllowed: true, planId: current.id })
    expect((await published())!.id).toBe(current.id)
    const done = (await move(later)).body
    expect(done.moved.map((each: { operationId: string }) => each.operationId)).toContain(dress.operationId)
    const after = (await published())!
    expect(after.id).toBe(done.planId)
    expect(of(after, dress.operationId).startsAt).toBe(later)
    for (const job of jobs.slice(0, 2))
      for (const { id } of job.operations) expect(of(after, id).startsAt).toBe(of(current, id).startsAt)
    expect(await doubleBooked(test)).toBe(0)
    const stale = await move(dress.startsAt)
    expect(stale.body.type).toBe('/problems/plan-outdated')
    const changes = await test.database.prisma.planChange.findMany({ where: { planId: after.id } })
    expect(
      changes.some(
        ({ operationId, reason }) => operationId === dress.operationId && reason.includes('by hand'),
      ),
    ).toBe(true)
  })

  it('can be stopped: the best so far becomes the draft', async () => {
    for (const { orderId } of jobs) {
      const promisedAt = TOO_SOON.toISOString()
      expect((await test.owner.patch(`/v1/repairOrders/${orderId}`, { promisedAt }, 2)).status).toBe(200)
    }
    const { id } = await startLong(shop)
    const twice = await test.owner.post(`/v1/shops/${shop.shopId}/plans`)
    expect(twice.body.type).toBe('/problems/wrong-state')
    await expect.poll(() => isWaiting(id)).toBe(false)
    await test.owner.made(`/v1/plans/${id}/stop`)
    const stopped = await settled(test.owner, id)
    expect(stopped.state).toBe('draft')
    expect(stopped.operations).toHaveLength(30)
    expect((await test.owner.delete(`/v1/plans/${id}`)).status).toBe(204)
    expect((await publish(id)).body.type).toBe('/problems/wrong-state')
  })

  it('waits while every thread plans for others, and is given up when it is stopped before its turn', async () => {
    const ids = [(await startLong(shop)).id]
    for (let i = 0; i < test.app.planner.size; i += 1) {
      const other = await makePlannedShop(test)
      for (let n = 0; n < 3; n += 1) await makePlannedJob(test.owner, other, TOO_SOON)
      ids.push((await startLong(other)).id)
    }
    await expect.poll(async () => (await Promise.all(ids.map(isWaiting))).filter(Boolean).length).toBe(1)
    expect(await isWaiting(ids.at(-1)!)).toBe(true)
    for (const id of ids.toReversed()) await test.owner.made(`/v1/plans/${id}/stop`)
    const states = await Promise.all(ids.map(async (id) => (await settled(test.owner, id)).state))
    expect(states).toEqual([...ids.slice(1).map(() => 'draft'), 'discarded'])
    expect((await test.owner.post(`/v1/plans/${ids.at(-1)!}/stop`)).body.type).toBe('/problems/wrong-state')
  })

  it('names what cannot be planned, and plans the rest', async () => {
    const job = await makePlannedJob(test.owner, shop, null, 'rocker')
    const draft = await plan()
    expect(draft.state).toBe('draft')
    const [left] = draft.notes.unplanned
    expect(left!.reasons.join()).toContain('skill welding')
    expect(draft.operations.some(({ repairOrderId }) => repairOrderId === job.orderId)).toBe(false)
    expect(draft.operations).toHaveLength(30)
  })
})

describe('what a plan needs first', () => {
  it('is said: working hours, and operations', async () => {
    const test = await startTestApp('embedded', START)
    const { makeShop } = await import('../support/fixtures.ts')
    const shop = await makeShop(test.owner)
    const start = () => test.owner.post(`/v1/shops/${shop.shopId}/plans`)
    expect((await start()).body.detail).toContain('has no working hours')
    await test.owner.put(`/v1/shops/${shop.shopId}/workingHours`, {
      shifts: [{ weekday: 1, from: '08:00', until: '16:00' }],
    })
    expect((await start()).body.detail).toContain('has operations')
    await test.end()
  })
})
