import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { application, receive } from '../support/fixtures.ts'
import {
  makePlannedJob,
  makePlannedShop,
  planned,
  startPlanning,
  type PlannedJob,
  type PlannedShop,
  type WirePlan,
} from '../support/planned-shop.ts'
import { PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const HOUR = 3_600_000
/** A Monday, 06:00 in New York; work begins at 07:00. */
const START = new Date('2031-05-05T10:00:00Z')

interface Task {
  readonly operationId: string | null
  readonly kind: string | null
  readonly name: string
  readonly state: string
  readonly jointId: string | null
  readonly placeName: string | null
  readonly startsAt: string
  readonly endsAt: string | null
  readonly waitsFor: string | null
  readonly note: string
}
interface MyWork {
  readonly isTechnician: boolean
  readonly bonds: readonly { readonly id: string; readonly state: string; readonly jointId: string }[]
  readonly tasks: readonly Task[]
}

describe('my work', () => {
  let test: TestApp
  let shop: PlannedShop
  let job: PlannedJob
  let plan: WirePlan
  let ann: Client
  let ben: Client
  let stopPlanning: () => Promise<void>

  const signedUp = async (name: string, shopId: string) => {
    const email = `${name.toLowerCase()}@my-work.test.example`
    const { id } = await test.owner.made('/v1/people', {
      name,
      email,
      password: PASSWORD,
      memberships: [{ shopId, role: 'technician' }],
    })
    const { token } = await test.owner.made<{ token: string }>('/v1/sessions', { email, password: PASSWORD })
    return { id, client: test.owner.as(token) }
  }
  const standsFor = (resourceId: string, personId: string) =>
    test.database.prisma.resource.update({ where: { id: resourceId }, data: { personId } })
  const workOf = (client: Client) => client.read<MyWork>('/v1/me/work')
  const at = (hours: number) => {
    test.clock.now = new Date(START.getTime() + hours * HOUR)
  }
  /** What the plan has for a technician, in its order. */
  const plannedFor = (technicianId: string) =>
    plan.operations
      .filter(({ technicianIds }) => technicianIds.includes(technicianId))
      .filter(({ startsAt }) => Date.parse(startsAt) < test.clock.now.getTime() + 48 * HOUR)
      .toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))

  beforeAll(async () => {
    test = await startTestApp('embedded', START)
    stopPlanning = startPlanning(test.app)
    shop = await makePlannedShop(test)
    const [first, second] = [await signedUp('Ann', shop.shopId), await signedUp('Ben', shop.shopId)]
    ann = first.client
    ben = second.client
    await standsFor(shop.technicianIds[0]!, first.id)
    await standsFor(shop.technicianIds[1]!, second.id)
    job = await makePlannedJob(test.owner, shop, new Date(START.getTime() + 34 * HOUR))
  })
  afterAll(async () => {
    await stopPlanning()
    await test.end()
  })

  it('is empty before anything is planned, and for who is no technician', async () => {
    expect(await workOf(ann)).toMatchObject({ isTechnician: true, bonds: [], tasks: [] })
    expect(await workOf(test.owner)).toMatchObject({ isTechnician: false, bonds: [], tasks: [] })
  })

  it("is each one's own part of the published plan, in its order, and says what comes first", async () => {
    const draft = await planned(test.owner, shop.shopId)
    expect((await workOf(ann)).tasks).toEqual([])
    expect((await test.owner.post(`/v1/plans/${draft.id}/publication`)).status).toBe(201)
    plan = draft
    for (const [client, technicianId] of [
      [ann, shop.technicianIds[0]!],
      [ben, shop.technicianIds[1]!],
    ] as const) {
      const { tasks } = await workOf(client)
      const wanted = plannedFor(technicianId)
      expect(tasks.map(({ operationId }) => operationId)).toEqual(
        wanted.map(({ operationId }) => operationId),
      )
      expect(tasks.map(({ startsAt }) => startsAt)).toEqual(wanted.map(({ startsAt }) => startsAt))
      expect(tasks.every(({ state }) => state === 'next')).toBe(true)
    }
    const all = [...(await workOf(ann)).tasks, ...(await workOf(ben)).tasks]
    const kindOf = (what: string) => all.filter(({ kind }) => kind === what)
    expect(kindOf('prepare').map(({ waitsFor }) => waitsFor)).toEqual(kindOf('prepare').map(() => null))
    expect(kindOf('unclampAndDress')[0]!.waitsFor).toMatch(/comes first, and is not finished$/)
    expect(kindOf('bondAndClamp')[0]!.jointId).toBe(job.jointId)
    expect(['Bay 1', 'Bay 2']).toContain(kindOf('bondAndClamp')[0]!.placeName)
  })

  it('is on from its time, late after it, under way once begun and gone once finished', async () => {
    const prepare = plan.operations.find(
      ({ operationId }) => operationId === job.operations.find(({ kind }) => kind === 'prepare')!.id,
    )!
    const mine = prepare.technicianIds.includes(shop.technicianIds[0]!) ? ann : ben
    const told = async () =>
      (await workOf(mine)).tasks.find(({ operationId }) => operationId === prepare.operationId)
    test.clock.now = new Date(Date.parse(prepare.startsAt) + 60_000)
    expect(await told()).toMatchObject({ state: 'now', waitsFor: null })
    test.clock.now = new Date(prepare.endsAt)
    expect(await told()).toMatchObject({ state: 'late' })
    await mine.made(`/v1/operations/${prepare.operationId}/start`)
    expect((await workOf(mine)).tasks[0]).toMatchObject({
      operationId: prepare.operationId,
      state: 'underWay',
      startsAt: prepare.endsAt,
    })
    await mine.made(`/v1/operations/${prepare.operationId}/finish`)
    expect(await told()).toBeUndefined()
  })

  it('has the bond that I put on and not that of another, in place of what was planned', async () => {
    const bondId = job.operations.find(({ kind }) => kind === 'bondAndClamp')!.id
    const before = [...(await workOf(ann)).tasks, ...(await workOf(ben)).tasks]
    expect(before.some(({ operationId }) => operationId === bondId)).toBe(true)
    const [piece] = await receive(test.owner, shop)
    const bond = await ann.made(`/v1/joints/${job.jointId}/bonds`, application(shop, piece!.id))
    expect((await workOf(ann)).bonds).toMatchObject([{ id: bond.id, state: 'applied', jointId: job.jointId }])
    expect((await workOf(ben)).bonds).toEqual([])
    const after = [...(await workOf(ann)).tasks, ...(await workOf(ben)).tasks]
    expect(after.some(({ operationId }) => operationId === bondId)).toBe(false)
    await ann.made(`/v1/bonds/${bond.id}/clamping`)
    expect((await workOf(ann)).bonds).toMatchObject([{ id: bond.id, state: 'clamped' }])
    await ben.made(`/v1/bonds/${bond.id}/abandonment`, { reason: 'Slipped', wasLifted: true })
    expect((await workOf(ann)).bonds).toEqual([])
    // The joint is to be bonded again.
    const again = [...(await workOf(ann)).tasks, ...(await workOf(ben)).tasks]
    expect(again.some(({ operationId }) => operationId === bondId)).toBe(true)
  })

  it('has what was booked by hand until its time is over', async () => {
    const from = new Date(test.clock.now.getTime() + 30 * HOUR)
    await test.owner.made('/v1/bookings', {
      resourceId: shop.technicianIds[0],
      repairOrderId: job.orderId,
      startsAt: from.toISOString(),
      endsAt: new Date(from.getTime() + HOUR).toISOString(),
      note: 'Look at the glass',
    })
    const told = async () => (await workOf(ann)).tasks.find(({ operationId }) => operationId === null)
    expect(await told()).toMatchObject({ state: 'next', note: 'Look at the glass', kind: null })
    test.clock.now = new Date(from.getTime() + HOUR)
    expect(await told()).toBeUndefined()
  })

  it('says nothing of a preparation that nobody told of, once adhesive is on its joint', async () => {
    const inThreeDays = new Date(test.clock.now.getTime() + 72 * HOUR)
    const other = await makePlannedJob(test.owner, shop, inThreeDays)
    const draft = await planned(test.owner, shop.shopId)
    expect((await test.owner.post(`/v1/plans/${draft.id}/publication`)).status).toBe(201)
    const told = async () =>
      [...(await workOf(ann)).tasks, ...(await workOf(ben)).tasks]
        .filter(({ jointId }) => jointId === other.jointId)
        .map(({ kind }) => kind)
    expect(await told()).toEqual(expect.arrayContaining(['prepare', 'bondAndClamp']))
    const [piece] = await receive(test.owner, shop)
    const bayId = draft.operations.find(({ operationId }) =>
      other.operations.some(({ id, kind }) => kind === 'bondAndClamp' && id === operationId),
    )!.placeId
    await ann.made(`/v1/joints/${other.jointId}/bonds`, application(shop, piece!.id, { bayId }))
    expect(await told()).not.toEqual(expect.arrayContaining(['prepare']))
    expect(await told()).not.toEqual(expect.arrayContaining(['bondAndClamp']))
  })

  it('tells of the next day that has something, where two days hold nothing', async () => {
    const alone = await makePlannedShop(test)
    const dora = await signedUp('Dora', alone.shopId)
    await standsFor(alone.technicianIds[0]!, dora.id)
    const own = await makePlannedJob(test.owner, alone, new Date(test.clock.now.getTime() + 300 * HOUR))
    const book = (inHours: number, note: string) => {
      const from = test.clock.now.getTime() + inHours * HOUR
      return test.owner.made('/v1/bookings', {
        resourceId: alone.technicianIds[0],
        repairOrderId: own.orderId,
        startsAt: new Date(from).toISOString(),
        endsAt: new Date(from + HOUR).toISOString(),
        note,
      })
    }
    const notes = async () => (await workOf(dora.client)).tasks.map(({ note }) => note)
    await book(15 * 24, 'In fifteen days')
    expect(await notes()).toEqual([])
    await book(74, 'First thing')
    await book(80, 'After lunch')
    await book(98, 'The day after')
    expect(await notes()).toEqual(['First thing', 'After lunch'])
    await book(30, 'Tomorrow')
    expect(await notes()).toEqual(['Tomorrow'])
  })

  it('is nothing of a shop that one no longer works in, and nothing of a closed repair order', async () => {
    at(1)
    const elsewhere = await makePlannedShop(test)
    const carl = await signedUp('Carl', elsewhere.shopId)
    await standsFor(shop.technicianIds[0]!, carl.id)
    expect(await workOf(carl.client)).toMatchObject({ isTechnician: false, bonds: [], tasks: [] })
    await test.database.prisma.repairOrder.update({ where: { id: job.orderId }, data: { state: 'done' } })
    expect((await workOf(ben)).tasks).toEqual([])
  })
})
