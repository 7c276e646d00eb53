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
const CLIENTS = 200
/** A Monday, 06:00 in New York. */
const START = new Date('2031-05-05T10:00:00Z')

interface Answer {
  readonly what: 'publish' | 'move' | 'book'
  readonly status: number
  readonly body: {
    readonly type?: string
    readonly reasons?: { message: string }[]
    readonly isAllowed?: boolean
    id?: string
  }
}

let test: TestApp
let shop: PlannedShop
let stopPlanning: () => Promise<void>
beforeAll(async () => {
  test = await startTestApp('server', START)
  stopPlanning = startPlanning(test.app)
  shop = await makePlannedShop(test)
})
afterAll(async () => {
  await stopPlanning()
  await test.end()
})

it('200 clients publish, move and book at once: no overlap, no lost booking, and every loser is told why', async () => {
  const orders: PlannedJob[] = []
  for (let i = 0; i < 3; i += 1)
    orders.push(await makePlannedJob(test.owner, shop, new Date(START.getTime() + (34 + 24 * i) * HOUR)))
  const first = await planned(test.owner, shop.shopId)
  await test.owner.made(`/v1/plans/${first.id}/publication`)
  const drafts: WirePlan[] = []
  for (let i = 0; i < 4; i += 1) drafts.push(await planned(test.owner, shop.shopId, { seed: i + 2 }))
  const movable = first.operations.filter(({ kind }) => kind === 'refit' || kind === 'unclampAndDress')

  const client = async (i: number): Promise<Answer> => {
    const turn = i % 10
    if (turn < 3) {
      const draft = drafts[i % drafts.length]!
      const { status, body } = await test.owner.post(`/v1/plans/${draft.id}/publication`)
      return { what: 'publish', status, body }
    }
    if (turn < 5) {
      const { operationId, startsAt } = movable[i % movable.length]!
      const { status, body } = await test.owner.post(`/v1/plans/${first.id}/moves`, {
        operationId,
        startsAt: new Date(Date.parse(startsAt) + 5 * 60_000 * (i % 3)).toISOString(),
      })
      return { what: 'move', status, body }
    }
    const startsAt = new Date(START.getTime() + (i % 60) * 2 * HOUR)
    const { status, body } = await test.owner.post('/v1/bookings', {
      resourceId: i % 2 === 0 ? shop.bayId : shop.otherBayId,
      repairOrderId: orders[i % 3]!.orderId,
      startsAt: startsAt.toISOString(),
      endsAt: new Date(startsAt.getTime() + 2 * HOUR).toISOString(),
    })
    return { what: 'book', status, body }
  }
  const answers = await Promise.all(Array.from({ length: CLIENTS }, (_, i) => client(i)))

  const won = (what: Answer['what']) => answers.filter((each) => each.what === what && each.status === 201)
  // A busy service may ask to come again; whatever else is refused says why, in words.
  for (const { status, body } of answers.filter((each) => each.status !== 201)) {
    expect([409, 503], JSON.stringify(body)).toContain(status)
    expect(body.type).toMatch(
      /^\/problems\/(plan-outdated|booking-taken|changed-meanwhile|wrong-state|overloaded)$/,
    )
    if (status === 409 && body.type !== '/problems/changed-meanwhile')
      expect(body.reasons?.[0]?.message.length).toBeGreaterThan(10)
  }
  expect(won('publish').length + won('move').filter(({ body }) => body.isAllowed).length).toBeGreaterThan(0)

  const { prisma } = test.database
  expect(await doubleBooked(test)).toBe(0)
  const [{ most }] = await prisma.$queryRaw<[{ most: bigint }]>`
    select coalesce(max(used), 0) as most from (
      select sum(b.units) as used from booking a join booking b on b.resource_id = a.resource_id
        and b.starts_at <= a.starts_at and a.starts_at < b.ends_at and b.cancelled_at is null
       where a.resource_id = ${shop.clampSetId}::uuid and a.cancelled_at is null group by a.id) as loads`
  expect(most <= 3n).toBe(true)
  // Every booking by hand that was confirmed is there.
  const kept = await prisma.booking.count({
    where: { id: { in: won('book').map(({ body }) => body.id!) }, cancelledAt: null },
  })
  expect(kept).toBe(won('book').length)
  // One plan holds, and its bookings are all of them: one for each person on each operation still to come.
  const plans = await prisma.plan.findMany({
    where: { shopId: shop.shopId, state: 'published' },
    include: { operations: true },
  })
  expect(plans).toHaveLength(1)
  const wanted = plans[0]!.operations.reduce((sum, { technicianIds }) => sum + technicianIds.length, 0)
  const people = await prisma.booking.count({
    where: { planId: plans[0]!.id, cancelledAt: null, resource: { kind: 'technician' } },
  })
  expect(people).toBe(wanted)
  const states = await prisma.plan.groupBy({ by: ['state'], where: { shopId: shop.shopId }, _count: true })
  const count = (state: string) => states.find((each) => each.state === state)?._count ?? 0
  expect(count('published')).toBe(1)
})
