import { ProblemError } from '../../foundation/problems/problem-error.ts'
import { shopTime } from '../estimates/notes.ts'
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
    const until = other ? `, booked until ${shopTime(other.endsAt.getTime(), timeZone)}` : ', curing'
    const message = `${taken.number}, ${taken.vehicle}, stands in ${bay.name}${until}`
    throw new ProblemError('booking-taken', message, [
      {
        code: 'bay-taken',
        field: 'body.bayId',
        message,
        fix: `Choose the bay that ${repairOrder.number} stands in, or end the booking of ${taken.number} first`,
      },
    ])
  }
  const elsewhere = await tx.bond.findFirst({
    where: { joint: { repairOrderId }, state: { in: ['applied', 'clamped'] }, bayId: { not: bayId } },
    include: { bay: true, joint: true },
  })
  if (elsewhere?.bay) {
    const message = `${elsewhere.joint.name} on ${repairOrder.number} cures in ${elsewhere.bay.name}: the vehicle stands there`
    throw new ProblemError('not-ready', message, [
      { code: 'stands-elsewhere', field: 'body.bayId', message, fix: `Choose ${elsewhere.bay.name}` },
    ])
  }
  // It was moved: the bay that it leaves is free from now.
  await tx.booking.updateMany({
    where: { ...standing, repairOrderId, resourceId: { not: bayId }, startsAt: { lt: now } },
    data: { endsAt: now, version: { increment: 1 } },
  })
}
