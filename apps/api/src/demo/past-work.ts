import type { OperationKind } from '@clampclock/contracts'
import { DateTime } from 'luxon'
import { addOperations } from '../planning/operations/operations.ts'
import { addRepairOrder, editRepairOrder } from '../cure/repairs/repair-orders.ts'
import { VEHICLES } from './jobs.ts'
import { seeded } from './random.ts'
import type { World, WorldShop } from './world.ts'

const SEED = 71_207
const DAYS = 20
/** Of the days that found a free bay. */
const SHARE = 0.6
/** One in so many is handed over later than it was promised. */
const LATE_ONE_IN = 6

/** Of a vehicle that came in glued: when each step ran, as hours of the shop's clock. */
const DAY = {
  sealAndPrime: [7.25, 9],
  paint: [9.25, 10.75],
  bake: [10.75, 12],
  cool: [12, 12.75],
  refit: [12.75, 15.5],
} as const satisfies Partial<Record<OperationKind, readonly [from: number, until: number]>>

/** Three weeks of refinishing that went through, and sometimes late, so that the figures of the past have something to say. */
export async function addPastWork(world: World): Promise<void> {
  const random = seeded(SEED)
  let serial = 0
  for (const shop of world.shops) {
    const { timeZone } = shop.plan
    const today = DateTime.fromJSDate(world.now, { zone: timeZone }).startOf('day')
    for (let back = DAYS; back >= 1; back -= 1) {
      const day = today.minus({ days: back })
      const at = (hours: number) => day.plus({ minutes: Math.round(hours * 60) }).toJSDate()
      const isWanted = random.next() < SHARE
      if (day.weekday > 5 || !isWanted) continue
      const bayId = await freePlaces(world, shop, at(7), at(16))
      if (bayId === undefined) continue
      serial += 1
      await addRefinished(world, shop, bayId, serial, at)
    }
  }
}

/** A bay that nothing stands in between two instants; undefined too when the oven is taken. */
async function freePlaces({ tx }: World, shop: WorldShop, from: Date, to: Date): Promise<string | undefined> {
  const taken = await tx.booking.findMany({
    where: { shopId: shop.id, cancelledAt: null, startsAt: { lt: to }, endsAt: { gt: from } },
    select: { resourceId: true },
  })
  const isFree = (id: string) => !taken.some(({ resourceId }) => resourceId === id)
  return isFree(shop.ovenId) ? shop.bays.findLast(({ id }) => isFree(id))?.id : undefined
}

async function addRefinished(
  { tx, scheduler, organizationId }: World,
  shop: WorldShop,
  bayId: string,
  serial: number,
  at: (hours: number) => Date,
): Promise<void> {
  const { id } = await addRepairOrder(
    tx,
    scheduler,
    shop.id,
    {
      number: `${shop.plan.name.slice(0, 2).toUpperCase()}-${2300 + serial}`,
      vehicle: `${VEHICLES[serial % VEHICLES.length]!}, ${2016 + (serial % 9)}`,
      vin: null,
      plate: `INV ${String(serial).padStart(3, '0')}`,
      ovenLimitC: null,
      promisedAt: at(serial % LATE_ONE_IN === 0 ? 14 : 16.5),
      priority: 'normal',
      note: '',
    },
    at(7),
  )
  // Without a joint a template gives only what is done on the vehicle.
  const operations = await addOperations(tx, scheduler, id, { template: 'doorSkin', jointId: null }, at(7))
  for (const operation of operations) {
    const [from, until] = DAY[operation.kind as keyof typeof DAY]
    const placeId = operation.place === 'oven' ? shop.ovenId : bayId
    await tx.operation.update({
      where: { id: operation.id },
      data: { startedAt: at(from), finishedAt: at(until), placeId },
    })
  }
  const booked = { organizationId, shopId: shop.id, repairOrderId: id }
  await tx.booking.createMany({
    data: [
      { ...booked, resourceId: bayId, startsAt: at(7), endsAt: at(DAY.paint[0]) },
      {
        ...booked,
        resourceId: shop.ovenId,
        purpose: 'bake',
        highestMetalC: 60,
        startsAt: at(DAY.paint[0]),
        endsAt: at(DAY.bake[1]),
      },
      { ...booked, resourceId: bayId, startsAt: at(DAY.bake[1]), endsAt: at(16) },
    ],
  })
  await editRepairOrder(tx, scheduler, id, { state: 'done' }, 1, at(16))
}
