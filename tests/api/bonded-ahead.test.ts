import { afterAll, beforeAll, expect, it } from 'vitest'
import { application } from '../support/fixtures.ts'
import { makePlannedJob, makePlannedShop, planned, startPlanning } from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

const HOUR = 3_600_000
/** A Monday, 06:00 in New York. */
const START = new Date('2031-05-05T10:00:00Z')

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

it('a joint that is bonded before anybody said that it was prepared keeps its vehicle in the plan', async () => {
  const shop = await makePlannedShop(test)
  const job = await makePlannedJob(test.owner, shop, new Date(START.getTime() + 72 * HOUR))
  const draft = await planned(test.owner, shop.shopId)
  await test.owner.made(`/v1/plans/${draft.id}/publication`)
  const { items } = await test.owner.read<{ items: { id: string }[] }>(`/v1/cartridges?shopId=${shop.shopId}`)
  test.clock.now = new Date(START.getTime() + HOUR)
  const bond = await test.owner.made(
    `/v1/joints/${job.jointId}/bonds`,
    application(shop, items[0]!.id, { bayId: shop.bayId }),
  )
  await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
  const again = await planned(test.owner, shop.shopId)
  expect(again).toMatchObject({ state: 'draft', fault: null, leftOut: [], notes: { unplanned: [] } })
  const of = (kind: string) => {
    const { id } = job.operations.find((each) => each.kind === kind)!
    return again.operations.find(({ operationId }) => operationId === id)
  }
  // What had to come first has; what follows waits for the cure.
  expect(of('unclampAndDress')!.startsAt > of('cure')!.startsAt).toBe(true)
  expect(of('unclampAndDress')).toMatchObject({ placeId: shop.bayId })
  expect((await test.owner.post(`/v1/plans/${again.id}/publication`)).status).toBe(201)
})
