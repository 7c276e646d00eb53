import { message, type Message } from '@clampclock/messages'
import { asJson, sentences, param } from '../../foundation/words/params.ts'
import { inEnglish } from '../../foundation/words/words.ts'
import { allocate, type Candidate } from '@clampclock/stock'
import { amountNeededMl, isStillOn, type JointRow, lockedJoint } from '../../work/index.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { expiryOf, selectCartridges, type CartridgeRow } from '../cartridges/cartridge-store.ts'
import { toMl, toUl } from '../../foundation/database/volumes.ts'
import { nextBooking, whenNeeded } from './needed-at.ts'
import { openReservations, toReservation, type ReservationRow } from './reservation-store.ts'

/** Who keeps something for a joint: a person, or the plan itself. */
export interface By {
  readonly organizationId: string
  readonly name: string
}

/**
 * Keeps cartridges for a joint by first expired, first out on the day of use. One that has a reservation keeps it.
 *
 * @throws {ProblemError} `wrong-state` when the job is done or the joint bonded, `stock-short`, naming who has what there is.
 */
export async function reserve(
  tx: Tx,
  by: By,
  jointId: string,
  wantedAt: Date | undefined,
  now: Date,
): Promise<ReservationRow[]> {
  const joint = await lockedJoint(tx, jointId)
  requireToBeBonded(joint)
  const there = await openReservations(tx, { jointId })
  if (there.length > 0) return there
  const neededAt = wantedAt ?? (await neededAtOf(tx, joint, now))
  const cartridges = await lockedOfProduct(tx, joint)
  const others = await openReservations(tx, { cartridgeId: { in: cartridges.map(({ id }) => id) } })
  const allocation = allocate(
    cartridges.map((row) => toCandidate(row, others, neededAt)),
    {
      amountMl: amountNeededMl(joint),
      nozzleMl: toMl(joint.product.nozzleHoldUpUl),
      atMs: neededAt.getTime(),
    },
  )
  if (allocation.kind === 'short') throw short(joint, allocation, others)
  await tx.reservation.createMany({
    data: allocation.shares.map(({ id, amountMl }) => ({
      organizationId: by.organizationId,
      shopId: joint.shopId,
      jointId,
      cartridgeId: id,
      amountUl: toUl(amountMl),
      neededAt,
      madeAt: now,
      madeBy: by.name,
    })),
  })
  await tell(tx, by, joint.shopId)
  return openReservations(tx, { jointId })
}

/**
 * For whoever keeps something for several joints at once: their vehicles and then they themselves are locked in one
 * order for everybody, so that two of them cannot wait for each other.
 */
export async function lockJoints(tx: Tx, jointIds: readonly string[]): Promise<void> {
  if (jointIds.length === 0) return
  await tx.$queryRaw`
    select 1 from repair_order r where r.id in (select repair_order_id from joint where id = any (${jointIds}::uuid[]))
     order by r.id for share`
  await tx.$queryRaw`select 1 from joint where id = any (${jointIds}::uuid[]) order by id for no key update`
}

/** Asked of a locked joint: whoever ends the job, or bonds it, waits for us or was first. */
function requireToBeBonded({ name, repairOrder, bonds }: JointRow): void {
  if (repairOrder.state !== 'open')
    throw wrongState(message('problem.orderDone', { number: repairOrder.number }))
  if (bonds.some(isStillOn)) throw wrongState(message('stock-problem.bondedAlready', { joint: name }))
}

async function neededAtOf(
  tx: Tx,
  { repairOrderId, repairOrder }: { repairOrderId: string; repairOrder: { promisedAt: Date | null } },
  now: Date,
): Promise<Date> {
  const { where, orderBy } = nextBooking(now)
  const booking = await tx.booking.findFirst({ where: { ...where, repairOrderId }, orderBy })
  return whenNeeded(booking, repairOrder.promisedAt, now)
}

/** Everything of the product that could be taken, in one order for everybody: who comes second sees what the first took. */
async function lockedOfProduct(tx: Tx, joint: JointRow): Promise<CartridgeRow[]> {
  await tx.$queryRaw`
    select 1 from cartridge c join lot l on l.id = c.lot_id
     where c.shop_id = ${joint.shopId}::uuid and l.product_id = ${joint.productId}::uuid and c.state in ('sealed', 'opened')
     order by c.id for no key update of c`
  const rows = await selectCartridges(
    tx,
    Prisma.sql`c.shop_id = ${joint.shopId}::uuid and l.product_id = ${joint.productId}::uuid
      and c.state in ('sealed', 'opened') and l.hold_reason is null and q.id is null`,
    5000,
  )
  return rows.filter(({ fits }) => fits)
}

/**
 * What is left of it beside other promises; a sealed one is opened by whoever needs it first. Nothing, where opening it
 * for us would have it dead on the day of somebody to whom it is promised.
 */
function toCandidate(row: CartridgeRow, others: readonly ReservationRow[], neededAt: Date): Candidate {
  const promised = others.filter(({ cartridgeId }) => cartridgeId === row.id)
  const openedAt =
    row.opened_at ??
    new Date(Math.min(neededAt.getTime(), ...promised.map((other) => other.neededAt.getTime())))
  const onceOpenedMs = expiryOf(row, openedAt).atMs
  const kills = row.state === 'sealed' && promised.some((other) => other.neededAt.getTime() >= onceOpenedMs)
  const keptUl = promised.reduce((sum, { amountUl }) => sum + amountUl, 0)
  return {
    id: row.id,
    // One that somebody else opens before will be an opened one by then.
    state: row.state === 'opened' || openedAt < neededAt ? 'opened' : 'sealed',
    remainingMl: kills ? 0 : toMl(row.remaining_ul - keptUl),
    effectiveExpiryMs: expiryOf(row).atMs,
    expiryOnceOpenedMs: onceOpenedMs,
    receivedAtMs: row.received_at.getTime(),
  }
}

function short(
  joint: JointRow,
  { availableMl, missingMl }: { availableMl: number; missingMl: number },
  others: readonly ReservationRow[],
): ProblemError {
  const needed = Math.ceil(availableMl + missingMl)
  const detail = message('stock-problem.short', {
    order: joint.repairOrder.number,
    joint: joint.name,
    needed: { millilitres: needed, round: 'up' },
    product: joint.product.name,
    free: { millilitres: Math.floor(availableMl), round: 'down' },
  })
  const holders = others.map(toReservation).map((other) => ({
    code: 'reserved',
    message: message('stock-problem.holderHas', {
      order: other.repairOrderNumber,
      joint: other.jointName,
      amount: { millilitres: other.amountMl },
      code: other.code,
      by: param(other.madeBy),
    }),
  }))
  return new ProblemError(
    'stock-short',
    sentences([detail, ...holders.slice(0, 1).map((holder) => holder.message)]),
    [{ code: 'short', message: detail, fix: message('stock-problem.orderOrMoveFix') }, ...holders],
  )
}

export async function endReservations(
  tx: Tx,
  by: By,
  rows: readonly { id: string; shopId: string }[],
  end: { kind: 'used' | 'released' | 'died'; reason: Message; at: Date },
): Promise<void> {
  if (rows.length === 0) return
  await tx.reservation.updateMany({
    where: { id: { in: rows.map(({ id }) => id) }, endedAt: null },
    data: {
      endedAt: end.at,
      endKind: end.kind,
      endReason: inEnglish(end.reason),
      endSaid: asJson(end.reason),
    },
  })
  for (const shopId of new Set(rows.map((row) => row.shopId))) await tell(tx, by, shopId)
}

async function tell(tx: Tx, { organizationId }: By, shopId: string): Promise<void> {
  await announce(tx, { organizationId, shopId, topic: 'stock' })
}
