import { ProblemError } from '../http/problem-error.ts'
import type { Tx } from '../database/database.ts'
import { openReservations, type ReservationRow } from '../reservations/reservation-store.ts'
import { endReservations, neededAtOf, reserve, type By } from '../reservations/reserve.ts'
import { expiryOf, selectCartridges, type CartridgeRow } from '../stock/cartridge-store.ts'
import { faultSentence, usability } from '../stock/cartridges.ts'
import { Prisma } from '../generated/prisma/client.ts'
import { usabilityFaults } from '@clampclock/stock'
import { toMl } from '../stock/volumes.ts'
import type { NewAlert } from './raise.ts'

type Found = Omit<NewAlert, 'organizationId' | 'openedAt'>

/** How long it is told that something else was kept in place of what died. */
const TOLD_HOURS = 24

/** A joint without a booking is needed 'now', which moves on with every look. */
const WORTH_MOVING_MS = 3_600_000

/**
 * Looks at what is kept for joints: bookings move, lots are held, cartridges die sooner in the warmth. What will not do on
 * its day is given up, something else is kept in its place, and both are told.
 */
export async function lostReservations(tx: Tx, organizationId: string, now: Date): Promise<Found[]> {
  const by: By = { organizationId, name: 'The plan' }
  const open = await openReservations(tx, {})
  const rows = await selectCartridges(
    tx,
    Prisma.sql`c.id = any (${open.map(({ cartridgeId }) => cartridgeId)}::uuid[])`,
    Math.max(1, open.length),
  )
  const lost = new Set<string>()
  for (const each of open) {
    const neededAt = await neededAtOf(tx, each.joint, now)
    const fault = faultOf(
      each,
      rows.find(({ id }) => id === each.cartridgeId)!,
      neededAt,
    )
    if (fault) {
      lost.add(each.jointId)
      await endReservations(tx, by, [each], { kind: 'died', reason: fault, at: now })
    } else if (Math.abs(neededAt.getTime() - each.neededAt.getTime()) > WORTH_MOVING_MS) {
      await tx.reservation.update({ where: { id: each.id }, data: { neededAt } })
    }
  }
  for (const jointId of lost) await keepAnother(tx, by, jointId, now)
  return told(tx, now)
}

function faultOf(each: ReservationRow, row: CartridgeRow, neededAt: Date): string | undefined {
  if (row.shop_id !== each.shopId) return `The cartridge ${row.code} is in another shop`
  const openedAt = row.opened_at ?? neededAt
  const [fault] = usabilityFaults({
    ...usability(row),
    effectiveExpiryMs: Math.min(expiryOf(row).atMs, expiryOf(row, openedAt).atMs),
    neededMl: toMl(each.amountUl),
    atMs: neededAt.getTime(),
  })
  return fault && faultSentence(fault, row)
}

/** All of a joint's cartridges are looked for anew: two halves of different lots would be worse than one. */
async function keepAnother(tx: Tx, by: By, jointId: string, now: Date): Promise<void> {
  const rest = await openReservations(tx, { jointId })
  await endReservations(tx, by, rest, {
    kind: 'released',
    reason: 'Looked for anew with the one that died',
    at: now,
  })
  try {
    await reserve(tx, by, jointId, undefined, now)
  } catch (error) {
    if (!(error instanceof ProblemError && error.code === 'stock-short')) throw error
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
      instead: string | null
    }[]
  >`
    select distinct on (v.joint_id) v.joint_id, v.shop_id, j.name, r.number, r.id as repair_order_id, v.end_reason as reason,
           (select string_agg(c.code, ', ' order by c.code) from reservation o join cartridge c on c.id = o.cartridge_id
             where o.joint_id = v.joint_id and o.ended_at is null) as instead
      from reservation v join joint j on j.id = v.joint_id join repair_order r on r.id = j.repair_order_id
     where v.end_kind = 'died' and r.state = 'open'
       and not exists (select from bond b where b.joint_id = j.id and b.state in ('applied', 'clamped', 'released'))
       and not exists (select from reservation later where later.joint_id = v.joint_id and later.end_kind = 'released' and later.ended_at > v.ended_at)
       and (v.ended_at > ${since}::timestamptz
            or not exists (select from reservation o where o.joint_id = v.joint_id and o.ended_at is null))
     order by v.joint_id, v.ended_at desc`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'reservedDies',
    message:
      `${row.number}, ${row.name}: what was kept will not do. ${row.reason}. ` +
      (row.instead ? `${row.instead} is kept instead` : 'Nothing else here suffices'),
    subjectKind: 'joint',
    subjectId: row.joint_id,
    repairOrderId: row.repair_order_id,
  }))
}
