import { afterAll, beforeAll, expect, it } from 'vitest'
import { startWatching } from '../../apps/api/src/alerts/watching.ts'
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
  ends = [startPlanning(test.app), startWatching(test.app)]
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
