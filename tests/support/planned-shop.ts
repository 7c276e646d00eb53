import type { App } from '../../apps/api/src/foundation/http/app-type.ts'
import { startWorking } from '../../apps/api/src/foundation/jobs/working.ts'
import { planningQueue } from '../../apps/api/src/planning/plans/runner.ts'
import { makeJoint, makeShop, receive, steadyAir, type Shop } from './fixtures.ts'
import type { Client, TestApp } from './test-app.ts'

/** The shop of the fixtures with people, a working week, warm bays and adhesive: enough to be planned. */
export interface PlannedShop extends Shop {
  readonly technicianIds: readonly string[]
}

const DAYS = [1, 2, 3, 4, 5]

export async function makePlannedShop(
  test: Pick<TestApp, 'owner' | 'clock'>,
  timeZone = 'America/New_York',
): Promise<PlannedShop> {
  const { owner } = test
  const shop = await makeShop(owner, timeZone)
  const inShop = (path: string) => `/v1/shops/${shop.shopId}/${path}`
  const technicianIds: string[] = []
  for (const name of ['Invented Ann', 'Invented Ben']) {
    const body = { kind: 'technician', name, skills: ['body', 'structural', 'paint', 'fitting'] }
    technicianIds.push((await owner.made(inShop('resources'), body)).id)
  }
  await owner.put(inShop('workingHours'), {
    shifts: DAYS.flatMap((weekday) => [
      { weekday, from: '07:00', until: '12:00' },
      { weekday, from: '12:30', until: '16:30' },
    ]),
  })
  const { id: otherSensorId } = await owner.made(inShop('sensors'), {
    name: 'Bay 2 air',
    place: 'bay',
    resourceId: shop.otherBayId,
    accuracyC: 0.5,
  })
  for (const sensorId of [shop.sensorId, otherSensorId])
    await steadyAir(owner, sensorId, 22, test.clock.now, 120)
  await receive(owner, shop, { cartridges: 20 })
  return { ...shop, technicianIds }
}

export interface PlannedJob {
  readonly orderId: string
  readonly jointId: string
  readonly operations: readonly {
    readonly id: string
    readonly kind: string
    readonly name: string
    /** null for a cure. */
    readonly workMinutes: number | null
  }[]
}

export async function makePlannedJob(
  owner: Client,
  shop: Shop,
  promisedAt: Date | null = null,
  template = 'doorSkin',
): Promise<PlannedJob> {
  const { orderId, jointId } = await makeJoint(owner, shop)
  if (promisedAt)
    await owner.patch(`/v1/repairOrders/${orderId}`, { promisedAt: promisedAt.toISOString() }, 1)
  const { items } = await owner.made<{ items: PlannedJob['operations'] }>(
    `/v1/repairOrders/${orderId}/operations`,
    { template, jointId },
  )
  return { orderId, jointId, operations: items }
}

export interface WirePlan {
  readonly id: string
  readonly state: string
  readonly isOutdated: boolean
  readonly isWaiting: boolean
  readonly fault: string | null
  readonly progress: { readonly improvements: number } | null
  readonly notes: {
    readonly assumptions: readonly string[]
    readonly unplanned: readonly { readonly number: string; readonly reasons: readonly string[] }[]
  }
  readonly leftOut: readonly { readonly id: string; readonly number: string; readonly vehicle: string }[]
  readonly summary: {
    readonly orders: number
    readonly droppedOrders: number
    readonly cost: number
    readonly lateOrders: number
    readonly lateMinutes: number
    readonly shortMl: number
  } | null
  readonly operations: readonly {
    readonly operationId: string
    readonly repairOrderId: string
    readonly kind: string
    readonly name: string
    readonly startsAt: string
    readonly endsAt: string
    readonly workMinutes: number | null
    readonly placeId: string
    readonly technicianIds: readonly string[]
    readonly warning: string | null
  }[]
  readonly stays: readonly {
    readonly resourceId: string
    readonly startsAt: string
    readonly endsAt: string
  }[]
  readonly orders: readonly { readonly id: string; readonly lateMinutes: number | null }[]
}

/** Asks for a plan and waits until it is there. */
export async function planned(owner: Client, shopId: string, body: object = {}): Promise<WirePlan> {
  const { id } = await owner.made(`/v1/shops/${shopId}/plans`, { iterations: 300, ...body })
  return settled(owner, id)
}

export async function settled(owner: Client, planId: string): Promise<WirePlan> {
  for (let tries = 0; tries < 300; tries += 1) {
    const plan = await owner.read<WirePlan>(`/v1/plans/${planId}`)
    if (plan.state !== 'solving') return plan
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  throw new Error(`the plan ${planId} was not done in half a minute`)
}

/** Bookings that stand on one place of capacity one at one instant, counted by the database. */
export async function doubleBooked({ database }: Pick<TestApp, 'database'>): Promise<number> {
  const [{ count }] = await database.prisma.$queryRaw<[{ count: bigint }]>`
    select count(*) from booking a join booking b on a.resource_id = b.resource_id and a.id < b.id
      join resource r on r.id = a.resource_id
     where r.capacity = 1 and a.cancelled_at is null and b.cancelled_at is null
       and a.starts_at < b.ends_at and b.starts_at < a.ends_at`
  return Number(count)
}

/** Works on plans as the service does; answers how to stop. */
export function startPlanning(app: App): () => Promise<void> {
  return startWorking(app, [planningQueue(app)])
}
