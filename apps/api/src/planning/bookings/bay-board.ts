import type { bookingRoutes, ResultOf } from '@clampclock/contracts'
import { runningBonds, selectSensors, toBond } from '../../cure/index.ts'
import { ATTEMPT_ROW, heldReasons } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toResource } from '../../foundation/shops/resources.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import { WHOLE_BOOKING } from './booking-store.ts'
import { curingOf, toBooking } from './to-booking.ts'

type BayBoard = ResultOf<typeof bookingRoutes.getBayBoard>

/** Every bay and oven of a shop: who stands there by the plan and in truth, who comes next, what cures, how warm it is. */
export async function bayBoard(tx: Tx, shopId: string, now: Date): Promise<BayBoard> {
  const shop = await shopById(tx, shopId)
  const resources = await tx.resource.findMany({
    where: {
      shopId,
      kind: { in: ['bay', 'oven'] },
      // One that was taken out of use while a bond cures there stays until it is over.
      OR: [{ active: true }, { bonds: { some: { state: { in: ['applied', 'clamped'] } } } }],
    },
    orderBy: [{ kind: 'asc' }, { name: 'asc' }],
  })
  const running = await runningBonds(tx, { in: [shopId] })
  const curing = await curingOf(tx, running, shop.timeZone, now)
  const sensors = await selectSensors(
    tx,
    Prisma.sql`s.shop_id = ${shopId}::uuid and s.resource_id is not null`,
  )
  const upcoming = await tx.booking.findMany({
    where: { shopId, cancelledAt: null, endsAt: { gt: now }, resource: { kind: { in: ['bay', 'oven'] } } },
    include: WHOLE_BOOKING,
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  })

  const orders = [
    ...upcoming.filter(({ startsAt }) => startsAt <= now).map(({ repairOrderId }) => repairOrderId),
    ...running.map(({ joint }) => joint.repairOrderId),
  ]
  const standing = await tx.bond.findMany({
    where: { joint: { repairOrderId: { in: orders } } },
    select: { jointId: true, joint: { select: { name: true, repairOrderId: true } }, ...ATTEMPT_ROW },
    orderBy: [{ jointId: 'asc' }, { attempt: 'asc' }],
  })

  const rows: BayBoard['rows'] = []
  for (const resource of resources) {
    const mine = upcoming.filter((booking) => booking.resourceId === resource.id)
    const current = mine.find((booking) => booking.startsAt <= now)
    const next = mine.find((booking) => booking.startsAt > now)
    // One of which nobody said where it cures is where its vehicle stands.
    const bonds = running.filter(
      ({ bayId, joint }) =>
        bayId === resource.id || (bayId === null && joint.repairOrderId === current?.repairOrderId),
    )
    const orderId = current?.repairOrderId ?? bonds[0]?.joint.repairOrderId
    const latest = sensors.find((sensor) => sensor.resourceId === resource.id)?.latest ?? null
    const row: BayBoard['rows'][number] = {
      resource: toResource(resource),
      current: current ? await toBooking(tx, current, curing, shop.timeZone, now) : null,
      next: next ? await toBooking(tx, next, curing, shop.timeZone, now) : null,
      bonds: [],
      held: heldReasons(standing.filter(({ joint }) => joint.repairOrderId === orderId)),
      temperatureC: latest?.temperatureC ?? null,
      temperatureAt: latest?.at ?? null,
    }
    for (const bond of bonds) row.bonds.push(await toBond(tx, bond, shop.timeZone, now))
    rows.push(row)
  }
  return { shop, asOf: now, rows }
}
