import { ProblemError } from '../../foundation/problems/problem-error.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { message } from '@clampclock/messages'
import { onClock } from '../../foundation/words/params.ts'
import type { JointRow } from '../../work/index.ts'
import type { Step } from './step.ts'

/**
 * The bay that is named for a bond is where the vehicle stands: it is moved there on the board, or refused by name. A bond
 * whose bay holds somebody else's car would follow the wrong air, and send whoever looks for it to the wrong car.
 *
 * @throws {ProblemError} `booking-taken` when another vehicle stands in the bay; `not-ready` when this one cures in another.
 */
export async function placeVehicle(
  { tx, now }: Step,
  { repairOrderId, repairOrder }: Pick<JointRow, 'repairOrderId' | 'repairOrder'>,
  bayId: string | null,
  timeZone: string,
): Promise<void> {
  if (bayId === null) return
  const bay = await tx.resource.findUniqueOrThrow({ where: { id: bayId } })
  await tx.$queryRaw`select 1 from resource where id = ${bayId}::uuid for no key update`
  const standing = {
    cancelledAt: null,
    startsAt: { lte: now },
    endsAt: { gt: now },
    resource: { kind: { in: ['bay', 'oven'] } },
  }
  const other = await tx.booking.findFirst({
    where: { ...standing, resourceId: bayId, repairOrderId: { not: repairOrderId } },
    include: { repairOrder: true },
  })
  const curing = await tx.bond.findFirst({
    where: {
      bayId,
      state: { in: ['applied', 'clamped'] },
      joint: { repairOrderId: { not: repairOrderId } },
    },
    include: { joint: { include: { repairOrder: true } } },
  })
  const taken = other?.repairOrder ?? curing?.joint.repairOrder
  if (taken) {
    const what = { order: taken.number, vehicle: taken.vehicle, bay: bay.name }
    const says = other
      ? message('gate.bayTaken', { ...what, until: onClock(other.endsAt.getTime(), timeZone) })
      : message('gate.bayCuring', what)
    throw new ProblemError('booking-taken', says, [
      {
        code: 'bay-taken',
        field: 'body.bayId',
        message: says,
        fix: message('gate.bayTakenFix', { order: repairOrder.number, taken: taken.number }),
      },
    ])
  }
  await requireNotElsewhere(tx, { repairOrderId, number: repairOrder.number }, bayId, 'body.bayId')
  // It was moved: the bay that it leaves is free from now.
  await tx.booking.updateMany({
    where: { ...standing, repairOrderId, resourceId: { not: bayId }, startsAt: { lt: now } },
    data: { endsAt: now, version: { increment: 1 } },
  })
}

/**
 * A vehicle with a joint that cures stands where that was bonded: nothing is begun on it in another bay.
 *
 * @throws {ProblemError} `not-ready`, naming joint and bay.
 */
export async function requireNotElsewhere(
  tx: Tx,
  { repairOrderId, number }: { readonly repairOrderId: string; readonly number: string },
  bayId: string,
  field: string,
): Promise<void> {
  const elsewhere = await tx.bond.findFirst({
    where: { joint: { repairOrderId }, state: { in: ['applied', 'clamped'] }, bayId: { not: bayId } },
    include: { bay: true, joint: true },
  })
  if (!elsewhere?.bay) return
  const says = message('gate.standsElsewhere', {
    joint: elsewhere.joint.name,
    order: number,
    bay: elsewhere.bay.name,
  })
  const fix = message('gate.standsElsewhereFix', { bay: elsewhere.bay.name })
  throw new ProblemError('not-ready', says, [{ code: 'stands-elsewhere', field, message: says, fix }])
}
