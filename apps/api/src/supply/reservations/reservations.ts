import { message } from '@clampclock/messages'
import type { Reservation, reservationRoutes, ResultOf } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import { IS_STILL_ON, jointRow } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, ProblemError } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { openReservations, toReservation } from './reservation-store.ts'
import { endReservations, lockJoints, reserve, type By } from './reserve.ts'

export async function reserveForJoint(
  tx: Tx,
  actor: Actor,
  jointId: string,
  neededAt: Date | undefined,
  now: Date,
): Promise<Reservation[]> {
  const joint = await jointRow(tx, jointId)
  requireIn(actor, 'reserveStock', joint.shopId)
  if (neededAt && neededAt < now) throw invalidField('body.neededAt', message('problem.inPast'))
  return (await reserve(tx, byOf(actor), jointId, neededAt, now)).map(toReservation)
}

export async function releaseReservation(tx: Tx, actor: Actor, jointId: string, now: Date): Promise<void> {
  const joint = await jointRow(tx, jointId)
  requireIn(actor, 'reserveStock', joint.shopId)
  const rows = await openReservations(tx, { jointId })
  await endReservations(tx, byOf(actor), rows, {
    kind: 'released',
    reason: message('reason.givenBack', { by: actor.name }),
    at: now,
  })
}

/** Whoever needs it first is served first; what does not suffice for one joint may suffice for the next. */
export async function reserveForPlan(
  tx: Tx,
  actor: Actor,
  shopId: string,
  days: number,
  now: Date,
): Promise<ResultOf<typeof reservationRoutes.reserveForPlan>> {
  requireIn(actor, 'reserveStock', shopId)
  await shopById(tx, shopId)
  const until = new Date(now.getTime() + days * 86_400_000)
  const joints = await tx.$queryRaw<{ id: string; name: string; number: string }[]>`
    select j.id, j.name, r.number
      from joint j join repair_order r on r.id = j.repair_order_id
      join lateral (select min(b.starts_at) as starts_at from booking b
                     where b.repair_order_id = r.id and b.cancelled_at is null and b.purpose = 'work'
                       and b.ends_at > ${now}::timestamptz) next on next.starts_at <= ${until}::timestamptz
     where j.shop_id = ${shopId}::uuid and r.state = 'open'
       and not exists (select from bond b where b.joint_id = j.id and ${IS_STILL_ON})
       and not exists (select from reservation v where v.joint_id = j.id and v.ended_at is null)
     order by next.starts_at, j.id`
  await lockJoints(
    tx,
    joints.map(({ id }) => id),
  )
  const made: Reservation[] = []
  const missing: ResultOf<typeof reservationRoutes.reserveForPlan>['short'] = []
  for (const { id, name, number } of joints) {
    try {
      made.push(...(await reserve(tx, byOf(actor), id, undefined, now)).map(toReservation))
    } catch (error) {
      // Nothing was written: the allocation is worked out before.
      if (!(error instanceof ProblemError)) throw error
      // Done or bonded since we looked: it needs nothing any more.
      if (error.code === 'wrong-state') continue
      if (error.code !== 'stock-short') throw error
      missing.push({ jointId: id, jointName: name, repairOrderNumber: number, message: error.detail })
    }
  }
  return { made, short: missing }
}

function byOf(actor: Actor): By {
  return { organizationId: actor.organization.id, name: actor.name }
}
