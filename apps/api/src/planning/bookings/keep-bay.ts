import { inEnglish } from '../../foundation/words/words.ts'
import type { ReadyInstant } from '@clampclock/cure'
import { message } from '@clampclock/messages'
import { type BondChanged, type BondRow, bondRow, keptEstimateOf, runningBonds } from '../../cure/index.ts'
import { onClock, readyOnClock, asJson } from '../../foundation/words/params.ts'
import { isRunning } from '../../work/index.ts'
import { attentionNeeded, attentionOver } from '../../foundation/events/attention.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { announce } from '../../foundation/live/hub.ts'
import { bookingOfVehicleIn, nextBookingIn, WHOLE_BOOKING, type BookingRow } from './booking-store.ts'
import { proposalFor } from './proposal.ts'

/** What a technician did to a bond changes how long its bay is needed. */
export async function keepBayOfBond(tx: Tx, { organizationId, bondId, now }: BondChanged): Promise<void> {
  const bond = await bondRow(tx, bondId)
  await keepBayBooked(tx, organizationId, bond, bond.joint.repairOrder.shop.timeZone, now)
}

/** Every bay is kept as long as its cure needs it: a colder night makes that longer. */
export async function keepBaysForCures(tx: Tx, organizationId: string, now: Date): Promise<void> {
  for (const bond of await runningBonds(tx))
    await keepBayBooked(tx, organizationId, bond, bond.joint.repairOrder.shop.timeZone, now)
}

/**
 * A bay stays booked until the bond on it is ready (conservatively). The booking is lengthened as far as the next one lets
 * it; that one is never overwritten: what then overlaps is told as a clash, with a proposal (rule 7).
 */
export async function keepBayBooked(
  tx: Tx,
  organizationId: string,
  bond: BondRow,
  timeZone: string,
  now: Date,
): Promise<void> {
  if (!bond.bayId) return
  const running = isRunning(bond)
  const { estimate } = await keptEstimateOf(tx, bond, timeZone, now)
  const ready = estimate.handlingStrength.readyAt.conservative

  // One writer at a time decides how long this bay is kept.
  await tx.$queryRaw`select 1 from resource where id = ${bond.bayId}::uuid for no key update`
  const held = await bookingOfVehicleIn(tx, bond.bayId, bond.joint.repairOrderId, now)
  const { repairOrderId } = bond.joint
  const from = held && held.endsAt > now ? held.startsAt : now
  const next = await nextBookingIn(tx, bond.bayId, from, { notOf: repairOrderId })
  // The vehicle's own next booking of the bay keeps it as well, and is no clash.
  const own = await nextOwn(tx, bond.bayId, repairOrderId, now)
  const until = running ? keptUntil(ready, held, now) : null
  const scope = { organizationId, shopId: bond.shopId }

  // Told only when something did change: whoever watches bookings looks here again because of it.
  const first = own && (!next || own.startsAt < next.startsAt) ? own : next
  const isHeldLonger =
    until !== null && (!held || held.endsAt < until) && (await lengthen(tx, bond, held, first, until, now))
  const isOwnLonger = until !== null && own !== null && (await lengthenOwn(tx, own, until))
  if (isHeldLonger || isOwnLonger) {
    await announce(tx, { ...scope, topic: 'bookings', subjectId: held?.id ?? null })
  }
  const clashes = running && next !== null && (ready.kind === 'never' || next.startsAt.getTime() < ready.atMs)
  if (!clashes) {
    await tell(tx, attentionOver, { ...scope, kind: 'bayClash', subjectId: bond.id, at: now })
    return
  }
  const facts = {
    bay: bond.bay?.name ?? { message: message('alert.theBay') },
    order: bond.joint.repairOrder.number,
    next: next.repairOrder.number,
    from: onClock(next.startsAt.getTime(), timeZone),
    proposal: { message: await proposalFor(tx, next, ready.kind === 'at' ? until : null, timeZone) },
  }
  await tell(tx, attentionNeeded, {
    ...scope,
    kind: 'bayClash',
    message:
      ready.kind === 'at'
        ? message('alert.bayClash', { ...facts, until: readyOnClock(ready.atMs, timeZone) })
        : message('alert.bayClashNoEnd', facts),
    subjectKind: 'bond',
    subjectId: bond.id,
    repairOrderId: bond.joint.repairOrderId,
    openedAt: now,
  })
}

const KEPT_FOR_CURE = message('plan-reason.keptForCure')

/** As long as nobody can say when a cure ends, its bay is kept for a day, and again when half of that is over. */
const UNKNOWN_KEPT_MS = 24 * 3_600_000

function keptUntil(ready: ReadyInstant, held: BookingRow | null, now: Date): Date | null {
  if (ready.kind === 'at') return wholeMinute(ready.atMs)
  const leftMs = (held?.endsAt.getTime() ?? 0) - now.getTime()
  return leftMs > UNKNOWN_KEPT_MS / 2 ? null : wholeMinute(now.getTime() + UNKNOWN_KEPT_MS)
}

function nextOwn(tx: Tx, resourceId: string, repairOrderId: string, now: Date): Promise<BookingRow | null> {
  return tx.booking.findFirst({
    where: { resourceId, repairOrderId, cancelledAt: null, startsAt: { gt: now } },
    include: WHOLE_BOOKING,
    orderBy: { startsAt: 'asc' },
  })
}

/** As `lengthen`, of a booking that begins before the cure is over. */
async function lengthenOwn(tx: Tx, own: BookingRow, until: Date): Promise<boolean> {
  const next = await nextBookingIn(tx, own.resourceId, own.startsAt, { except: own.id })
  const end = next && next.startsAt < until ? next.startsAt : until
  if (own.startsAt >= until || end <= own.endsAt) return false
  await tx.booking.update({ where: { id: own.id }, data: { endsAt: end, version: { increment: 1 } } })
  return true
}

/** Answers whether it could be lengthened at all. */
async function lengthen(
  tx: Tx,
  bond: BondRow,
  held: BookingRow | null,
  next: BookingRow | null,
  until: Date,
  now: Date,
): Promise<boolean> {
  const end = next && next.startsAt < until ? next.startsAt : until
  if (held && held.endsAt >= now) {
    if (end <= held.endsAt) return false
    await tx.booking.update({ where: { id: held.id }, data: { endsAt: end, version: { increment: 1 } } })
    return true
  }
  // The vehicle stands there without a booking: it gets one from now, if nobody else has the bay.
  if (end <= now) return false
  await tx.booking.create({
    data: {
      organizationId: bond.organizationId,
      shopId: bond.shopId,
      resourceId: bond.bayId!,
      repairOrderId: bond.joint.repairOrderId,
      startsAt: now,
      endsAt: end,
      note: inEnglish(KEPT_FOR_CURE),
      noteSaid: asJson(KEPT_FOR_CURE),
    },
  })
  return true
}

/** Rounded up: a booking that ends a second early would be a promise broken. */
function wholeMinute(ms: number): Date {
  return new Date(Math.ceil(ms / 60_000) * 60_000)
}
