import { message, type Message } from '@clampclock/messages'
import { param } from '../../foundation/words/params.ts'
import { IS_STILL_ON } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import { ProblemError } from '../../foundation/problems/problem-error.ts'
import {
  type By,
  endForOrder,
  endReservations,
  faultsOf,
  type Kept,
  lockJoints,
  nextBooking,
  openReservations,
  reserve,
  THE_PLAN,
  whenNeeded,
} from '../../supply/index.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'

type Found = Omit<AttentionNeeded, 'organizationId' | 'openedAt'>

/** How long it is told that something else was kept in place of what died. */
const TOLD_HOURS = 24

/** What was needed by now moves on with every look. */
const WORTH_MOVING_MS = 3_600_000

/** Of reservations `v`: given up by the watch, and the joint `j` of the order `r` still waits for its adhesive. */
const LOST = Prisma.sql`
  v.end_kind = 'died' and r.state = 'open'
  and not exists (select from bond b where b.joint_id = j.id and ${IS_STILL_ON})
  and not exists (select from reservation later where later.joint_id = v.joint_id and later.end_kind = 'released' and later.ended_at > v.ended_at)`
const HAS_ANOTHER = Prisma.sql`exists (select from reservation o where o.joint_id = v.joint_id and o.ended_at is null)`

/**
 * Looks at what is kept for joints: bookings move, lots are held, cartridges die sooner in the warmth, and others take
 * from them. What will not do on its day is given up, something else is kept in its place, and both are told. Where
 * nothing sufficed, it is tried again at each look: a delivery may have come.
 */
export async function lostReservations(tx: Tx, organizationId: string, now: Date): Promise<Found[]> {
  const by: By = { organizationId, name: THE_PLAN }
  const open = await openReservations(tx, {})
  const wanted = open.filter(({ joint }) => joint.repairOrder.state === 'open')
  const bookings = await nextBookings(
    tx,
    wanted.map(({ joint }) => joint.repairOrderId),
    now,
  )
  const kept = wanted.map((each) => ({
    each,
    neededAt: whenNeeded(bookings.get(each.joint.repairOrderId) ?? null, each.neededAt, now),
  }))
  const faults = await faultsOf(tx, kept)
  const lost = new Map(
    kept.filter(({ each }) => faults.has(each.id)).map(({ each, neededAt }) => [each.jointId, neededAt]),
  )
  const waiting = await whatWaits(tx, now)
  await lockJoints(tx, [...lost.keys(), ...waiting.keys()])
  await moveOn(
    tx,
    kept.filter(({ each }) => !faults.has(each.id)),
    now,
  )
  for (const [jointId, neededAt] of lost) await keepAnother(tx, by, jointId, neededAt, faults, now)
  for (const [jointId, neededAt] of waiting) await reserveIfThere(tx, by, jointId, neededAt, now)
  const done = open.filter(({ joint }) => joint.repairOrder.state === 'done')
  for (const orderId of new Set(done.map(({ joint }) => joint.repairOrderId)))
    await endForOrder(tx, by, orderId, now)
  return told(tx, now)
}

async function nextBookings(
  tx: Tx,
  repairOrderIds: readonly string[],
  now: Date,
): Promise<ReadonlyMap<string, { startsAt: Date }>> {
  const { where, orderBy } = nextBooking(now)
  const bookings = await tx.booking.findMany({
    where: { ...where, repairOrderId: { in: [...repairOrderIds] } },
    orderBy,
    select: { repairOrderId: true, startsAt: true },
  })
  // The last one of a key stays in a map, and the first is the next.
  return new Map(bookings.toReversed().map(({ repairOrderId, startsAt }) => [repairOrderId, { startsAt }]))
}

/** Only a booking moves the day of a reservation; without one it stays as it was said, and is never past. */
async function moveOn(tx: Tx, kept: readonly Kept[], now: Date): Promise<void> {
  for (const { each, neededAt } of kept) {
    const byMs = Math.abs(neededAt.getTime() - each.neededAt.getTime())
    if (byMs > (neededAt > now ? 0 : WORTH_MOVING_MS))
      await tx.reservation.updateMany({ where: { id: each.id, endedAt: null }, data: { neededAt } })
  }
}

/** All of a joint's cartridges are looked for anew: two halves of different lots would be worse than one. */
async function keepAnother(
  tx: Tx,
  by: By,
  jointId: string,
  neededAt: Date,
  faults: ReadonlyMap<string, Message>,
  now: Date,
): Promise<void> {
  // Somebody may have given it back, or bonded with it, since we looked.
  const open = await openReservations(tx, { jointId })
  const dead = open.filter(({ id }) => faults.has(id))
  if (dead.length === 0) return
  for (const each of dead)
    await endReservations(tx, by, [each], { kind: 'died', reason: faults.get(each.id)!, at: now })
  await endReservations(
    tx,
    by,
    open.filter(({ id }) => !faults.has(id)),
    { kind: 'released', reason: message('reason.lookedAnew'), at: now },
  )
  await reserveIfThere(tx, by, jointId, neededAt, now)
}

/** Joints that lost what was kept for them and have nothing, where there is something of their product to be had. */
async function whatWaits(tx: Tx, now: Date): Promise<ReadonlyMap<string, Date>> {
  const rows = await tx.$queryRaw<{ joint_id: string; repair_order_id: string; needed_at: Date }[]>`
    select distinct on (v.joint_id) v.joint_id, r.id as repair_order_id, v.needed_at
      from reservation v join joint j on j.id = v.joint_id join repair_order r on r.id = j.repair_order_id
     where ${LOST} and not ${HAS_ANOTHER}
       and exists (select from cartridge c join lot l on l.id = c.lot_id
                    where c.shop_id = v.shop_id and l.product_id = j.product_id and l.hold_reason is null
                      and c.state in ('sealed', 'opened') and c.expires_at > ${now}::timestamptz
                      and not exists (select from cartridge_quarantine q where q.cartridge_id = c.id and q.decided_at is null))
     order by v.joint_id, v.ended_at desc, v.id`
  const bookings = await nextBookings(
    tx,
    rows.map((row) => row.repair_order_id),
    now,
  )
  return new Map(
    rows.map((row) => [
      row.joint_id,
      whenNeeded(bookings.get(row.repair_order_id) ?? null, row.needed_at, now),
    ]),
  )
}

async function reserveIfThere(tx: Tx, by: By, jointId: string, neededAt: Date, now: Date): Promise<void> {
  try {
    await reserve(tx, by, jointId, neededAt, now)
  } catch (error) {
    // Wrong by now: the job was done, or the joint bonded, since we looked.
    if (!(error instanceof ProblemError && (error.code === 'stock-short' || error.code === 'wrong-state')))
      throw error
  }
}

async function told(tx: Tx, now: Date): Promise<Found[]> {
  const since = new Date(now.getTime() - TOLD_HOURS * 3_600_000)
  const rows = await tx.$queryRaw<
    {
      joint_id: string
      shop_id: string
      name: string
      number: string
      repair_order_id: string
      reason: string
      said: Message | null
      instead: string | null
    }[]
  >`
    select distinct on (v.joint_id) v.joint_id, v.shop_id, j.name, r.number, r.id as repair_order_id, v.end_reason as reason, v.end_said as said,
           (select string_agg(c.code, ', ' order by c.code) from reservation o join cartridge c on c.id = o.cartridge_id
             where o.joint_id = v.joint_id and o.ended_at is null) as instead
      from reservation v join joint j on j.id = v.joint_id join repair_order r on r.id = j.repair_order_id
     where ${LOST} and (v.ended_at > ${since}::timestamptz or not ${HAS_ANOTHER})
     order by v.joint_id, v.ended_at desc, v.id`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'reservedDies',
    message: reservedDies(row),
    subjectKind: 'joint',
    subjectId: row.joint_id,
    repairOrderId: row.repair_order_id,
  }))
}

function reservedDies({
  number: order,
  name: joint,
  reason,
  said,
  instead: codes,
}: {
  readonly number: string
  readonly name: string
  readonly reason: string
  readonly said: Message | null
  readonly instead: string | null
}) {
  const facts = { order, joint, reason: param(said ?? reason) }
  return codes === null
    ? message('alert.reservedDiesNothing', facts)
    : message('alert.reservedDies', { ...facts, codes })
}
