import { afterAll, beforeAll, expect, it } from 'vitest'
import { startWorking } from '../../apps/api/src/foundation/jobs/working.ts'
import { queuesOf } from '../../apps/api/src/queues.ts'
import { application } from '../support/fixtures.ts'
import {
  makePlannedJob,
  makePlannedShop,
  planned,
  type PlannedShop,
  type WirePlan,
} from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

const HOUR = 3_600_000
/** A Monday, 06:00 in New York. */
const START = new Date('2031-05-05T10:00:00Z')

interface Alert {
  readonly kind: string
  readonly message: string
  readonly subject: { readonly kind: string; readonly id: string }
}

let test: TestApp
let shop: PlannedShop
let ends: (() => Promise<void>)[]
beforeAll(async () => {
  test = await startTestApp('server', START)
  ends = [startWorking(test.app, queuesOf(test.app))]
  shop = await makePlannedShop(test)
})
afterAll(async () => {
  for (const end of ends) await end()
  await test.end()
})

const alerts = async () =>
  (await test.owner.read<{ items: Alert[] }>(`/v1/alerts?kind=plannedMoveBeforeReady&shopId=${shop.shopId}`))
    .items

const until = async (holds: () => Promise<boolean>) => {
  for (let tries = 0; tries < 100 && !(await holds()); tries += 1)
    await new Promise((resolve) => setTimeout(resolve, 100))
}

it('flags the moves of the next two days that a fall of 10 degC makes too early, by itself and before they happen', async () => {
  const { orderId } = await makePlannedJob(test.owner, shop, new Date(START.getTime() + 30 * HOUR))
  const draft = await planned(test.owner, shop.shopId)
  expect((await test.owner.post(`/v1/plans/${draft.id}/publication`)).status).toBe(201)
  expect(await alerts()).toEqual([])
  const cure = draft.operations.find(({ kind }) => kind === 'cure')!
  const sensorId = (
    await test.owner.read<{ items: { id: string; resourceId: string | null }[] }>(
      `/v1/shops/${shop.shopId}/sensors`,
    )
  ).items.find(({ resourceId }) => resourceId === cure.placeId)!.id

  // The bay is 10 degC colder than when the plan was made; the forecast starts from there.
  test.clock.now = new Date(START.getTime() + HOUR / 2)
  const readings = [1, 2].map((i) => ({
    at: new Date(START.getTime() + i * 900_000).toISOString(),
    temperatureC: 12,
    relativeHumidityPercent: 40,
  }))
  await test.owner.made(`/v1/sensors/${sensorId}/readings`, { readings })
  await until(async () => (await alerts()).length > 0)
  const [alert] = await alerts()
  expect(alert).toMatchObject({ subject: { kind: 'operation', id: cure.operationId } })
  expect(alert!.message).toContain('on the careful estimate')
  const { plan } = await test.owner.read<{ plan: WirePlan }>(`/v1/shops/${shop.shopId}/publishedPlan`)
  expect(plan.operations.find(({ operationId }) => operationId === cure.operationId)!.warning).toBe(
    alert!.message,
  )

  // A new plan knows of the cold: published, the alert closes.
  const warmer = await planned(test.owner, shop.shopId)
  const longer = warmer.operations.find(({ operationId }) => operationId === cure.operationId)!
  const lengthOf = ({ startsAt, endsAt }: typeof cure) => Date.parse(endsAt) - Date.parse(startsAt)
  if (longer.placeId === cure.placeId) expect(lengthOf(longer)).toBeGreaterThan(lengthOf(cure))
  expect((await test.owner.post(`/v1/plans/${warmer.id}/publication`)).status).toBe(201)
  await until(async () => (await alerts()).length === 0)
  expect(await alerts()).toEqual([])
  expect(warmer.operations.some(({ repairOrderId }) => repairOrderId === orderId)).toBe(true)
})

it('flags a cure that runs, in its own bay, when what follows is planned before it is ready', async () => {
  const at = (hours: number) => {
    test.clock.now = new Date(START.getTime() + hours * HOUR)
  }
  at(0.5)
  const own = await makePlannedShop(test)
  const mine = async () =>
    (await test.owner.read<{ items: Alert[] }>(`/v1/alerts?kind=plannedMoveBeforeReady&shopId=${own.shopId}`))
      .items
  const job = await makePlannedJob(test.owner, own)
  const operationOf = (kind: string) => job.operations.find((each) => each.kind === kind)!.id
  at(1)
  for (const [kind, hours] of [
    ['prepare', 2],
    ['dryFit', 2.5],
  ] as const) {
    await test.owner.made(`/v1/operations/${operationOf(kind)}/start`, { placeId: own.bayId })
    at(hours)
    await test.owner.made(`/v1/operations/${operationOf(kind)}/finish`)
  }
  const { items } = await test.owner.read<{ items: { id: string }[] }>(`/v1/cartridges?shopId=${own.shopId}`)
  const bond = await test.owner.made(
    `/v1/joints/${job.jointId}/bonds`,
    application(own, items[0]!.id, { bayId: own.bayId }),
  )
  await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
  const draft = await planned(test.owner, own.shopId)
  expect((await test.owner.post(`/v1/plans/${draft.id}/publication`)).status).toBe(201)
  const next = draft.operations.find(({ operationId }) => operationId === operationOf('unclampAndDress'))!
  expect(next.placeId).toBe(own.bayId)
  expect(await mine()).toEqual([])

  // The heating fails right after.
  at(4)
  const readings = [2.75, 3, 3.25, 3.5, 3.75, 4].map((hours) => ({
    at: new Date(START.getTime() + hours * HOUR).toISOString(),
    temperatureC: 8,
    relativeHumidityPercent: 40,
  }))
  await test.owner.made(`/v1/sensors/${own.sensorId}/readings`, { readings })
  // Looked at again with every event, and with the clock alone before the readings are in: what is awaited is this alert,
  // and the plan that says the same.
  const cure = async () => (await mine()).find(({ subject }) => subject.id === operationOf('cure'))
  const warning = async () => {
    const { plan } = await test.owner.read<{ plan: WirePlan }>(`/v1/shops/${own.shopId}/publishedPlan`)
    return plan.operations.find(({ operationId }) => operationId === operationOf('cure'))!.warning
  }
  await until(async () => {
    const found = await cure()
    return found !== undefined && found.message === (await warning())
  })
  const found = await cure()
  expect(found?.subject.kind).toBe('operation')
  expect(found?.message).toContain('on the careful estimate')
  expect(await warning()).toBe(found!.message)
})
