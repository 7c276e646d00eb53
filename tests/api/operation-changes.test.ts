import { DateTime } from 'luxon'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { addJoint, application, receive } from '../support/fixtures.ts'
import {
  makePlannedJob,
  makePlannedShop,
  planned,
  startPlanning,
  type PlannedShop,
  type WirePlan,
} from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

const HOUR = 3_600_000
/** A Monday, 06:00 in New York; the first shift is an hour later. */
const START = DateTime.fromISO('2031-05-05T06:00', { zone: 'America/New_York' }).toJSDate()

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

interface Operation {
  readonly id: string
  readonly kind: string
  readonly name: string
  readonly jointId: string | null
  readonly position: number
  readonly workMinutes: number | null
  readonly technicians: number
  readonly hasBegun: boolean
  readonly version: number
}
interface Listed {
  readonly items: readonly Operation[]
  readonly isPlanOutdated: boolean
}

const WELD = {
  kind: 'weld',
  name: 'Weld the flange',
  place: 'bay',
  workMinutes: 45,
  technicians: 1,
  skill: 'body',
  clampSets: 0,
  attributes: [],
  highestMetalC: null,
}
const BOND = { ...WELD, kind: 'bondAndClamp', name: 'Second bond', clampSets: 1 }
const PAINT = { ...WELD, kind: 'paint', name: 'Second coat', place: 'oven', skill: 'paint' }

const list = (orderId: string) => test.owner.read<Listed>(`/v1/repairOrders/${orderId}/operations`)
const add = (orderId: string, body: object) =>
  test.owner.post(`/v1/repairOrders/${orderId}/singleOperations`, body)
const order = (id: string, afterId: string | null, version: number) =>
  test.owner.put(`/v1/operations/${id}/order`, { afterId }, version)
const kinds = (items: readonly Operation[]) => items.map(({ kind }) => kind)
async function makeJob() {
  const job = await makePlannedJob(test.owner, shop)
  const of = (kind: string) => job.operations.find((each) => each.kind === kind)!.id
  const now = async (kind: string) => (await list(job.orderId)).items.find((each) => each.kind === kind)!
  return { ...job, of, now }
}
const publish = async () => {
  const { id } = await planned(test.owner, shop.shopId)
  return test.owner.made<WirePlan>(`/v1/plans/${id}/publication`)
}

it('adds one operation at a place of its joint, and one of the vehicle among its kind', async () => {
  const { orderId, jointId, of } = await makeJob()
  const added = await add(orderId, { ...WELD, jointId, afterId: of('prepare') })
  expect(added.status).toBe(201)
  expect(kinds(added.body.items).slice(0, 4)).toEqual(['prepare', 'weld', 'dryFit', 'bondAndClamp'])
  await add(orderId, { ...PAINT, afterId: of('paint') })
  const { items } = await list(orderId)
  expect(items.map(({ position }) => position)).toEqual(items.map((_, i) => i + 1))
  expect(items.filter(({ kind }) => kind === 'paint').map(({ name }) => name)).toEqual([
    expect.not.stringContaining('Second'),
    'Second coat',
  ])
  expect(items.find(({ kind }) => kind === 'weld')).toMatchObject({ jointId, workMinutes: 45, version: 1 })
  const plan = await planned(test.owner, shop.shopId)
  expect(plan).toMatchObject({ state: 'draft', fault: null, notes: { unplanned: [] } })
  const starts = (name: string) => plan.operations.find((each) => each.name === name)!.startsAt
  expect(starts('Second coat') > starts('Weld the flange')).toBe(true)
})

it('adds a bond with its cure to a joint that has none, and none to one that has', async () => {
  const { orderId, jointId } = await makeJob()
  const other = await addJoint(test.owner, shop, orderId, { name: 'Rail' })
  const { body } = await add(orderId, { ...BOND, jointId: other, afterId: null })
  const ofRail = (body.items as Operation[]).filter((each) => each.jointId === other)
  expect(ofRail).toMatchObject([
    { kind: 'bondAndClamp', workMinutes: 45 },
    { kind: 'cure', workMinutes: null, technicians: 0 },
  ])
  expect(kinds(body.items).indexOf('sealAndPrime')).toBe(7)
  const twice = await add(orderId, { ...BOND, jointId, afterId: null })
  expect(twice.body.reasons).toMatchObject([
    { field: 'body.kind', message: expect.stringContaining('has its bond') },
  ])
})

it('names the field of what cannot be added', async () => {
  const { orderId, jointId, of } = await makeJob()
  const other = await makeJob()
  const cases: [object, string, string][] = [
    [{ ...WELD, afterId: null }, 'jointId', 'given for anything else'],
    [{ ...PAINT, jointId, afterId: null }, 'jointId', 'must be null for what is done on the vehicle'],
    [{ ...WELD, jointId: other.jointId, afterId: null }, 'jointId', 'names no joint of this repair order'],
    [
      { ...WELD, jointId, afterId: other.of('prepare') },
      'afterId',
      'is none of the operations of the same joint',
    ],
    [{ ...WELD, jointId, afterId: of('bondAndClamp') }, 'afterId', 'nothing comes between them'],
    [{ ...WELD, jointId, afterId: of('paint') }, 'afterId', 'is none of the operations of the same joint'],
    [{ ...PAINT, afterId: of('sealAndPrime') }, 'afterId', 'those of other kinds have an order of their own'],
    [{ ...WELD, kind: 'cure', jointId, afterId: null }, 'workMinutes', 'must be null for a cure'],
    [{ ...WELD, workMinutes: null, jointId, afterId: null }, 'workMinutes', 'given for anything else'],
    [{ ...WELD, technicians: 0, jointId, afterId: null }, 'technicians', 'at least 1'],
    [
      { ...PAINT, kind: 'bake', technicians: 0, skill: null, highestMetalC: 60, afterId: null },
      'kind',
      'has its bake already',
    ],
  ]
  const before = await list(orderId)
  for (const [body, field, message] of cases) {
    const answer = await add(orderId, body)
    expect(answer.status, message).toBe(422)
    expect(answer.body.reasons[0]).toMatchObject({
      field: `body.${field}`,
      message: expect.stringContaining(message),
    })
  }
  expect(await list(orderId)).toEqual(before)
})

it('changes places within a joint, a bond with its cure, and tells the second of two people', async () => {
  const { orderId, of, now } = await makeJob()
  const up = await order(of('bondAndClamp'), of('prepare'), 1)
  expect(kinds(up.body.items).slice(0, 4)).toEqual(['prepare', 'bondAndClamp', 'cure', 'dryFit'])
  // Asked of the cure it is the same.
  await order(of('cure'), of('dryFit'), (await now('cure')).version)
  expect(kinds((await list(orderId)).items).slice(0, 4)).toEqual([
    'prepare',
    'dryFit',
    'bondAndClamp',
    'cure',
  ])
  const { version } = await now('prepare')
  const answers = await Promise.all([
    order(of('prepare'), of('dryFit'), version),
    order(of('prepare'), of('cure'), version),
    test.owner.patch(`/v1/operations/${of('prepare')}`, { workMinutes: 33 }, version),
  ])
  expect(answers.map(({ status }) => String(status)).toSorted()).toEqual(['200', '412', '412'])
  expect((await order(of('prepare'), of('paint'), version + 1)).body.reasons[0].field).toBe('body.afterId')
  const { items } = await list(orderId)
  expect(items.map(({ position }) => position)).toEqual(items.map((_, i) => i + 1))
})

it('adds, moves and removes on one vehicle at once, and the order still adds up', async () => {
  const { orderId, jointId, of } = await makeJob()
  const answers = await Promise.all([
    ...Array.from({ length: 6 }, (_, i) =>
      add(orderId, { ...WELD, name: `Weld ${i}`, jointId, afterId: of('cure') }),
    ),
    order(of('unclampAndDress'), of('prepare'), 1),
    test.owner.delete(`/v1/operations/${of('dryFit')}`),
    test.owner.delete(`/v1/operations/${of('cool')}`),
  ])
  expect(answers.map(({ status }) => status)).toEqual([...Array<number>(6).fill(201), 200, 204, 204])
  const { items } = await list(orderId)
  expect(items.map(({ position }) => position)).toEqual(items.map((_, i) => i + 1))
  expect(kinds(items)).toEqual([
    'prepare',
    'unclampAndDress',
    'bondAndClamp',
    'cure',
    ...Array<string>(6).fill('weld'),
    'sealAndPrime',
    'paint',
    'bake',
    'refit',
  ])
})

it('leaves what has begun as it is, and puts nothing before it', async () => {
  const { orderId, jointId, of, now } = await makeJob()
  await test.owner.made(`/v1/operations/${of('prepare')}/start`, { placeId: shop.bayId })
  expect(await now('prepare')).toMatchObject({ hasBegun: true, version: 2 })
  const path = `/v1/operations/${of('prepare')}`
  for (const answer of [
    await test.owner.patch(path, { workMinutes: 5 }, 2),
    await order(of('prepare'), of('dryFit'), 2),
    await test.owner.delete(path),
  ]) {
    expect(answer.body).toMatchObject({ status: 409, type: '/problems/wrong-state' })
    expect(answer.body.detail).toContain('has begun')
  }
  const early = await add(orderId, { ...WELD, jointId, afterId: null })
  expect(early.body.reasons[0].message).toContain('would wait for it, and has begun')
  const [piece] = await receive(test.owner, shop)
  await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
  const cure = await now('cure')
  expect(cure.hasBegun).toBe(true)
  const bonded = await test.owner.patch(`/v1/operations/${cure.id}`, { name: 'x' }, cure.version)
  expect(bonded.body.detail).toContain('is bonded')
  const between = await add(orderId, { ...WELD, jointId, afterId: of('dryFit') })
  expect(between.body.reasons[0].field).toBe('body.afterId')
})

it('either starts an operation or removes it when both are asked at once', async () => {
  for (let round = 0; round < 5; round += 1) {
    const { orderId, of, now } = await makeJob()
    const id = of('prepare')
    const [started, removed] = await Promise.all([
      test.owner.post(`/v1/operations/${id}/start`, { placeId: shop.bayId }),
      test.owner.delete(`/v1/operations/${id}`),
    ])
    const isThere = kinds((await list(orderId)).items).includes('prepare')
    expect([started.status, removed.status]).toEqual(isThere ? [201, 409] : [404, 204])
    if (isThere) expect((await now('prepare')).hasBegun).toBe(true)
  }
})

it('tells that the published plan has a vehicle as it was, until it is planned again', async () => {
  shop = await makePlannedShop(test)
  const jobs = [await makeJob(), await makeJob()]
  const first = await publish()
  const startOf = (id: string) =>
    Date.parse(first.operations.find(({ operationId }) => operationId === id)!.startsAt)
  // The one that is done last may be later still, whatever the other one needs.
  const [one, last] = jobs.toSorted((a, b) => startOf(a.of('refit')) - startOf(b.of('refit')))
  const { orderId, jointId, of } = one!
  const changed = async () =>
    (
      await test.owner.read<{ plan: { changedOrders: { id: string }[] } }>(
        `/v1/shops/${shop.shopId}/publishedPlan`,
      )
    ).plan.changedOrders.map(({ id }) => id)
  const isOutdated = async () => [(await list(orderId)).isPlanOutdated, (await changed()).includes(orderId)]
  expect(await isOutdated()).toEqual([false, false])

  const draft = await planned(test.owner, shop.shopId)
  await test.owner.patch(`/v1/operations/${of('prepare')}`, { name: 'Prepare with care' }, 1)
  expect(await isOutdated()).toEqual([false, false])
  await test.owner.patch(`/v1/operations/${of('prepare')}`, { workMinutes: 77 }, 2)
  expect(await isOutdated()).toEqual([true, true])
  expect((await list(last!.orderId)).isPlanOutdated).toBe(false)
  const refused = await test.owner.post(`/v1/plans/${draft.id}/publication`)
  expect(refused.body).toMatchObject({
    type: '/problems/plan-outdated',
    reasons: [{ code: 'operations-changed', message: expect.stringContaining('were changed after') }],
  })

  // Another vehicle that is moved by hand makes a new plan, and this one is in it as it was.
  const moving = last!.of('refit')
  const moved = await test.owner.post(`/v1/plans/${first.id}/moves`, {
    operationId: moving,
    startsAt: new Date(startOf(moving) + 24 * HOUR).toISOString(),
  })
  expect(moved.body).toMatchObject({ isAllowed: true, reasons: [] })
  expect(await isOutdated()).toEqual([true, true])

  await publish()
  expect(await isOutdated()).toEqual([false, false])
  for (const change of [
    () => add(orderId, { ...WELD, jointId, afterId: of('prepare') }),
    () => order(of('prepare'), of('dryFit'), 3),
    () => test.owner.delete(`/v1/operations/${of('refit')}`),
  ]) {
    await change()
    expect(await isOutdated()).toEqual([true, true])
    await publish()
    expect(await isOutdated()).toEqual([false, false])
  }
})
