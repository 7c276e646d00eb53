import { message } from '@clampclock/messages'
import type { BodyOf, RepairOrderDetail, repairRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import { bondsOfRepairOrders, lockedBond, type BondRow } from '../estimates/bond-store.ts'
import { releaseLocked } from '../bonds/lifecycle.ts'
import { vehicleCheck } from '../estimates/move-check.ts'
import { overriddenReasons } from '../bonds/overrides.ts'
import { isRunning } from '../../work/index.ts'
import { toBonds } from '../estimates/to-bond.ts'
import { attentionOver } from '../../foundation/events/attention.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { orderRow, toDetail } from './repair-orders.ts'
import { lockOrdersOfVehicle, ordersOfVehicle, seenFrom } from './same-vehicle.ts'

/**
 * The vehicle leaves its bay: every running bond on it is released with it, and the bay is free from now. Its other open
 * repair orders move with it.
 *
 * @throws {ProblemError} `wrong-state` where the order is done; `not-ready` with the reasons of every bond, unless it is said to have happened already.
 */
export async function moveVehicle(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  body: BodyOf<typeof repairRoutes.moveVehicle>,
  now: Date,
): Promise<RepairOrderDetail> {
  await lockOrdersOfVehicle(tx, repairOrderId)
  const order = await orderRow(tx, repairOrderId, now)
  requireIn(actor, 'makeBonds', order.shopId)
  if (order.state === 'done')
    throw wrongState(
      message('cure-problem.vehicleLeft', { number: order.number }),
      message('cure-problem.openOrderFix'),
    )
  // All of them first: whoever works on one of them waits before, and not between; one that ended meanwhile is left as it is.
  const locked: BondRow[] = []
  const orders = await ordersOfVehicle(tx, order)
  for (const { id } of await bondsOfRepairOrders(tx, orders)) locked.push(await lockedBond(tx, id))
  const running = locked.filter(isRunning)
  const bonds = await toBonds(tx, locked, now)
  const check = vehicleCheck(
    locked.map((row, i) => seenFrom(repairOrderId, { row, check: bonds[i]!.moveCheck })),
    now,
  )
  if (!body.alreadyHappened)
    overriddenReasons(actor, order.shopId, check.reasons, body.overrides, 'not-ready')
  for (const bond of running) await releaseLocked({ tx, actor, now }, bond, body)
  for (const id of orders) await freeBays(tx, id, now)

  const scope = { organizationId: actor.organization.id, shopId: order.shopId }
  for (const { id } of running)
    await tell(tx, attentionOver, { ...scope, kind: 'bayClash', subjectId: id, at: now })
  await announce(tx, { ...scope, topic: 'bonds' })
  await announce(tx, { ...scope, topic: 'bookings' })
  for (const id of orders) await announce(tx, { ...scope, topic: 'repairs', subjectId: id })
  return toDetail(tx, await orderRow(tx, repairOrderId, now), now)
}

/** Ends the running bookings of bays at this minute; one that began this very moment is cancelled instead. */
async function freeBays(tx: Tx, repairOrderId: string, now: Date): Promise<void> {
  const standing = { repairOrderId, cancelledAt: null, endsAt: { gt: now }, resource: { kind: 'bay' } }
  await tx.booking.updateMany({
    where: { ...standing, startsAt: { lt: now } },
    data: { endsAt: now, version: { increment: 1 } },
  })
  await tx.booking.updateMany({
    where: { ...standing, startsAt: now },
    data: { cancelledAt: now, version: { increment: 1 } },
  })
}
