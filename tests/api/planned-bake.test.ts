import { DateTime } from 'luxon'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { addJoint, makeJoint, makeShop, type Shop } from '../support/fixtures.ts'
import {
  makePlannedShop,
  planned,
  startPlanning,
  type PlannedShop,
  type WirePlan,
} from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

/** A Monday, 06:00 in New York; the first shift is an hour later. */
const START = DateTime.fromISO('2031-05-05T06:00', { zone: 'America/New_York' }).toJSDate()

/** Hot at once, so that it is the metal that is waited for; the air it cools in is far from that of the bays. */
const PROGRAM = {
  airStartC: 25,
  setPointC: 70,
  airToleranceC: 3,
  metalTargetC: 60,
  dwellMinutes: 30,
  coolAirC: 5,
  touchC: 40,
}
const THICK = { panelThicknessMm: 3 }
/** One temperature cannot stand for all of it. */
const SLOW = { panelMaterial: 'glassFibre', panelThicknessMm: 4 }

interface Operation {
  readonly id: string
  readonly kind: string
  readonly workMinutes: number | null
  readonly highestMetalC: number | null
  readonly bakeProgram: object | null
  readonly version: number
}

let test: TestApp
let stopPlanning: () => Promise<void>
let shop: PlannedShop
beforeAll(async () => {
  test = await startTestApp('server', START)
  stopPlanning = startPlanning(test.app)
  shop = await makeBakingShop()
})
afterAll(async () => {
  await stopPlanning()
  await test.end()
})

async function makeBakingShop(): Promise<PlannedShop> {
  const made = await makePlannedShop(test)
  await setTemplate(made)
  return made
}

/** The shop's door, with its bake by a program. */
async function setTemplate({ shopId }: Shop, changes: object = {}, version = 0) {
  const path = `/v1/shops/${shopId}/repairTemplates`
  const { items } = await test.owner.read<{ items: { key: string; steps: { kind: string }[] }[] }>(path)
  const { steps } = items.find(({ key }) => key === 'doorSkin')!
  const bake = { workMinutes: null, highestMetalC: null, bakeProgram: PROGRAM, ...changes }
  const own = steps.map((step) => (step.kind === 'bake' ? { ...step, ...bake } : step))
  return test.owner.put(`${path}/doorSkin`, { name: 'Door skin', steps: own }, version)
}

const expand = (orderId: string, jointId: string | null) =>
  test.owner.post(`/v1/repairOrders/${orderId}/operations`, { template: 'doorSkin', jointId })
const operationsOf = async (orderId: string) =>
  (await test.owner.read<{ items: Operation[] }>(`/v1/repairOrders/${orderId}/operations`)).items
const bakeOf = async (orderId: string) => (await operationsOf(orderId)).find(({ kind }) => kind === 'bake')!
const publish = (plan: WirePlan) => test.owner.post(`/v1/plans/${plan.id}/publication`)
const minutesOf = (plan: WirePlan, id: string) => {
  const { startsAt, endsAt } = plan.operations.find(({ operationId }) => operationId === id)!
  return (Date.parse(endsAt) - Date.parse(startsAt)) / 60_000
}

async function makeJob(of: Shop, changes: object = {}) {
  const { orderId, jointId } = await makeJoint(test.owner, of, changes)
  const { status, body } = await expand(orderId, jointId)
  expect(status, JSON.stringify(body)).toBe(201)
  return { orderId, bake: await bakeOf(orderId) }
}

/** As the oven check has it, for metal that starts as warm as that. */
async function checked(orderId: string, metalStartC: number) {
  const { windowMinutes, peakMetalC } = await test.owner.made<{
    windowMinutes: { conservative: number }
    peakMetalC: number
  }>(`/v1/repairOrders/${orderId}/ovenCheck`, {
    startsAt: START.toISOString(),
    bakeProgram: PROGRAM,
    metalStartC,
  })
  return {
    workMinutes: Math.ceil(windowMinutes.conservative),
    highestMetalC: expect.closeTo(peakMetalC, 9),
    bakeProgram: PROGRAM,
  }
}

async function coldestForecastC(): Promise<number> {
  const lows: number[] = []
  for (const id of [shop.bayId, shop.otherBayId]) {
    const { forecast } = await test.owner.read<{ forecast: { lowC: number }[] }>(
      `/v1/resources/${id}/temperature?hoursAhead=96`,
    )
    lows.push(...forecast.map(({ lowC }) => lowC))
  }
  return Math.min(...lows)
}

it('takes what the oven check finds for metal as cold as a bay may get, longer for a heavier panel', async () => {
  const coldC = await coldestForecastC()
  expect(coldC).toBeGreaterThan(PROGRAM.coolAirC + 5)
  const thin = await makeJob(shop)
  const thick = await makeJob(shop, THICK)
  expect(thin.bake).toMatchObject(await checked(thin.orderId, coldC))
  expect(thick.bake).toMatchObject(await checked(thick.orderId, coldC))
  expect(thick.bake.workMinutes).toBeGreaterThan(thin.bake.workMinutes! + 5)
  // Where no thermometer tells, the metal is as cold as the air that it cools in.
  const unknown = await makeShop(test.owner)
  await setTemplate(unknown)
  const dark = await makeJob(unknown, THICK)
  expect(dark.bake).toMatchObject(await checked(dark.orderId, PROGRAM.coolAirC))
  expect(dark.bake.workMinutes).toBeGreaterThan(thick.bake.workMinutes!)
})

it('books the oven with the program, as long as the joints of that day need', async () => {
  const own = await makeBakingShop()
  const { orderId, bake } = await makeJob(own)
  const before = await planned(test.owner, own.shopId)
  expect(minutesOf(before, bake.id)).toBe(bake.workMinutes)
  // A rail is found bent too: it is heavier, and has no operations.
  await addJoint(test.owner, own, orderId, { ...THICK, name: 'Rail' })
  const refused = await publish(before)
  expect(refused.body).toMatchObject({
    type: '/problems/plan-outdated',
    reasons: [
      {
        code: 'window-too-short',
        message: expect.stringMatching(/^Bake of RO-\d+: The bake takes/),
        fix: 'Plan again',
      },
    ],
  })
  const plan = await planned(test.owner, own.shopId)
  const minutes = minutesOf(plan, bake.id)
  expect(minutes).toBeGreaterThan(bake.workMinutes! + 5)
  // The page of the job has them already, before anything is published.
  expect((await bakeOf(orderId)).workMinutes).toBe(minutes)
  expect((await publish(plan)).status).toBe(201)
  expect(await bakeOf(orderId)).toMatchObject({ workMinutes: minutes })
  const [booking] = await test.database.prisma.booking.findMany({
    where: { repairOrderId: orderId, purpose: 'bake', cancelledAt: null },
  })
  expect(booking).toMatchObject({
    operationId: bake.id,
    bakeProgram: PROGRAM,
    highestMetalC: expect.closeTo((await bakeOf(orderId)).highestMetalC!, 6),
  })
  expect(booking!.highestMetalC).toBeGreaterThan(72)
  expect(booking!.endsAt.getTime() - booking!.startsAt.getTime()).toBeGreaterThanOrEqual(minutes * 60_000)

  // Longer on the picture is for the scheduler to say, shorter is not.
  const { startsAt } = plan.operations.find(({ operationId }) => operationId === bake.id)!
  const move = (workMinutes: number) =>
    test.owner.post(`/v1/plans/${plan.id}/moves`, {
      operationId: bake.id,
      startsAt,
      workMinutes,
      tryOnly: true,
    })
  expect((await move(minutes + 15)).body).toMatchObject({ isAllowed: true })
  expect((await move(minutes - 1)).body.reasons).toMatchObject([{ field: 'body.workMinutes' }])
})

it('refuses a vehicle that nobody can work it out for, by name, and does nothing', async () => {
  const slow = await makeJoint(test.owner, shop, SLOW)
  const bare = await test.owner.made(`/v1/shops/${shop.shopId}/repairOrders`, {
    number: 'BARE',
    vehicle: 'Bare',
  })
  for (const [orderId, jointId, message] of [
    [slow.orderId, slow.jointId, /^Bake: Door skin, left: too thick/],
    [bare.id, null, /^Bake: the vehicle has no joint on record/],
  ] as const) {
    const { status, body } = await expand(orderId, jointId)
    expect(status).toBe(422)
    expect(body.reasons).toMatchObject([
      {
        field: 'body.template',
        message: expect.stringMatching(message),
        fix: expect.stringContaining('by minutes'),
      },
    ])
    expect(await operationsOf(orderId)).toEqual([])
  }
  const { items } = await test.owner.read<{ items: { id: string; name: string }[] }>('/v1/products')
  const product = items.find(({ id }) => id === shop.productId)!.name
  const csv = [
    'number,vehicle,joint,product,panelMaterial,panelThicknessMm,safetyClass,lengthMm,flangeWidthMm,beadDiameterMm,template',
    `CSV-1,Invented Van,Door,${product},mildSteel,0.8,S3,900,12,4,doorSkin`,
    `CSV-2,Invented Van,Door,${product},glassFibre,4,S3,900,12,4,doorSkin`,
  ].join('\n')
  const imported = await test.owner.post(`/v1/shops/${shop.shopId}/repairOrderImports`, { csv })
  expect(imported.status).toBe(422)
  expect(imported.body.reasons).toMatchObject([
    { field: 'body.csv', message: expect.stringMatching(/^Line 3: Bake: Door: too thick/) },
  ])
  expect(await test.database.prisma.repairOrder.count({ where: { number: { startsWith: 'CSV-' } } })).toBe(0)
})

it('is not planned once a joint came that nobody can work it out for; by minutes it is', async () => {
  const { orderId, bake } = await makeJob(shop)
  await addJoint(test.owner, shop, orderId, { ...SLOW, name: 'Spoiler' })
  const isUnplanned = async () => {
    const { notes } = await planned(test.owner, shop.shopId)
    return notes.unplanned.map(({ reasons }) => reasons.join())
  }
  expect(await isUnplanned()).toEqual([expect.stringContaining('Bake: Spoiler: too thick')])
  const edit = (body: object) => test.owner.patch(`/v1/operations/${bake.id}`, body, bake.version)
  expect((await edit({ highestMetalC: 60 })).body.reasons).toMatchObject([{ field: 'body.highestMetalC' }])
  const byMinutes = await edit({ bakeProgram: null, workMinutes: 90, highestMetalC: 62 })
  expect(byMinutes.body).toMatchObject({ bakeProgram: null, workMinutes: 90, highestMetalC: 62 })
  expect(await isUnplanned()).toEqual([])
})

it('follows another program of one vehicle, and no fewer minutes than that takes', async () => {
  const { bake } = await makeJob(shop)
  const path = `/v1/operations/${bake.id}`
  const shorter = await test.owner.patch(path, { workMinutes: bake.workMinutes! - 1 }, bake.version)
  expect(shorter.body.reasons).toMatchObject([
    { field: 'body.workMinutes', message: `the program takes ${bake.workMinutes} min on this vehicle` },
  ])
  const longer = { ...PROGRAM, dwellMinutes: 45 }
  const edited = await test.owner.patch(path, { bakeProgram: longer }, bake.version)
  expect(edited.body).toMatchObject({ bakeProgram: longer, workMinutes: bake.workMinutes! + 15 })
})

it.each([
  [{ highestMetalC: 60 }, 'highestMetalC', 'or bakeProgram, one of them, is needed'],
  [{ bakeProgram: null }, 'workMinutes', 'given for anything else'],
  [{ workMinutes: 75 }, 'workMinutes', 'must be null for a cure and for a bake by its bakeProgram'],
  [{ bakeProgram: { ...PROGRAM, setPointC: 62 } }, 'bakeProgram.setPointC', 'Bake: The metal never reaches'],
  [{ bakeProgram: { ...PROGRAM, setPointC: 320 } }, 'bakeProgram.setPointC', 'must be'],
])('refuses the bake %j of a template', async (changes, field, message) => {
  const { status, body } = await setTemplate(shop, changes, 1)
  expect(status).toBe(422)
  expect(body.reasons[0]).toMatchObject({
    field: `body.steps.7.${field}`,
    message: expect.stringContaining(message),
  })
})
