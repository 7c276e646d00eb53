import { ProblemError } from '../../foundation/problems/problem-error.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { message } from '@clampclock/messages'
import { onClock } from '../../foundation/words/params.ts'
import type { JointRow } from '../../work/index.ts'
import type { Step } from './step.ts'

type Vehicle = Pick<JointRow, 'repairOrderId' | 'repairOrder'>

/**
 * The bay that is named for a bond is where the vehicle stands: it is moved there on the board, or refused by name. A bond
 * whose bay holds somebody else's car would follow the wrong air, and send whoever looks for it to the wrong car.
 *
 * @throws {ProblemError} `booking-taken` when another vehicle stands in the bay; `not-ready` when this one cures in another.
 */
export async function placeVehicle(
  { tx, now }: Step,
  vehicle: Vehicle,
  bayId: string | null,
  timeZone: string,
): Promise<void> {
  if (bayId === null) return
  await tx.$queryRaw`select 1 from resource where id = ${bayId}::uuid for no key update`
  const problem = await placeProblem(tx, vehicle, bayId, timeZone, now)
  if (problem) throw problem
  // It was moved: the bay that it leaves is free from now.
  await tx.booking.updateMany({
    where: {
      ...standingAt(now),
      repairOrderId: vehicle.repairOrderId,
      resourceId: { not: bayId },
      startsAt: { lt: now },
    },
    data: { endsAt: now, version: { increment: 1 } },
  })
}

/** Why the vehicle cannot stand in the bay as things are now; null where it can. What asks before may change. */
export async function placeProblem(
  tx: Tx,
  vehicle: Vehicle,
  bayId: string | null,
  timeZone: string,
  now: Date,
): Promise<ProblemError | null> {
  if (bayId === null) return null
  return (
    (await takenProblem(tx, vehicle, bayId, timeZone, now)) ??
    (await elsewhereProblem(
      tx,
      { repairOrderId: vehicle.repairOrderId, number: vehicle.repairOrder.number },
      bayId,
      'body.bayId',
    ))
  )
}

const standingAt = (now: Date) => ({
  cancelledAt: null,
  startsAt: { lte: now },
  endsAt: { gt: now },
  resource: { kind: { in: ['bay', 'oven'] } },
})

async function takenProblem(
  tx: Tx,
  { repairOrderId, repairOrder }: Vehicle,
  bayId: string,
  timeZone: string,
  now: Date,
): Promise<ProblemError | null> {
  const other = await tx.booking.findFirst({
    where: { ...standingAt(now), resourceId: bayId, repairOrderId: { not: repairOrderId } },
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
  if (!taken) return null
  const bay = await tx.resource.findUniqueOrThrow({ where: { id: bayId } })
  const what = { order: taken.number, vehicle: taken.vehicle, bay: bay.name }
  const says = other
    ? message('gate.bayTaken', { ...what, until: onClock(other.endsAt.getTime(), timeZone) })
    : message('gate.bayCuring', what)
  const fix = message('gate.bayTakenFix', { order: repairOrder.number, taken: taken.number })
  return new ProblemError('booking-taken', says, [
    { code: 'bay-taken', field: 'body.bayId', message: says, fix },
  ])
}

/**
 * A vehicle with a joint that cures stands where that was bonded: nothing is begun on it in another bay.
 *
 * @throws {ProblemError} `not-ready`, naming joint and bay.
 */
export async function requireNotElsewhere(
  tx: Tx,
  vehicle: { readonly repairOrderId: string; readonly number: string },
  bayId: string,
  field: string,
): Promise<void> {
  const problem = await elsewhereProblem(tx, vehicle, bayId, field)
  if (problem) throw problem
}

async function elsewhereProblem(
  tx: Tx,
  { repairOrderId, number }: { readonly repairOrderId: string; readonly number: string },
  bayId: string,
  field: string,
): Promise<ProblemError | null> {
  const elsewhere = await tx.bond.findFirst({
    where: { joint: { repairOrderId }, state: { in: ['applied', 'clamped'] }, bayId: { not: bayId } },
    include: { bay: true, joint: true },
  })
  if (!elsewhere?.bay) return null
  const says = message('gate.standsElsewhere', {
    joint: elsewhere.joint.name,
    order: number,
    bay: elsewhere.bay.name,
  })
  const fix = message('gate.standsElsewhereFix', { bay: elsewhere.bay.name })
  return new ProblemError('not-ready', says, [{ code: 'stands-elsewhere', field, message: says, fix }])
}
