import { Prisma } from '../../generated/prisma/client.ts'
import { onClock, readyOnClock } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import { sentences } from '../../foundation/words/params.ts'
import type {
  BakeProgram,
  BodyOf,
  Booking,
  bookingRoutes,
  ProblemReason,
  QueryOf,
} from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import { bondsOfRepairOrder, estimateOf, runningBonds, storedProgram } from '../../cure/index.ts'
import { heldReasons, isRunning } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import { requireVersion } from '../../foundation/http/versions.ts'
import { announce } from '../../foundation/live/hub.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { bakeReasons } from './bake.ts'
import { bookingRow, bookingsBetween, nextBookingIn, type BookingRow } from './booking-store.ts'
import { curingOf, toBooking } from './to-booking.ts'
import { judgeBooked } from './vehicle-bake.ts'

const LONGEST_LOOK_MS = 100 * 86_400_000

export async function listBookings(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof bookingRoutes.listBookings>,
  now: Date,
): Promise<Booking[]> {
  requireIn(actor, 'readShop', query.shopId)
  if (query.to <= query.from) throw invalidField('query.to', message('problem.afterFrom'))
  if (query.to.getTime() - query.from.getTime() > LONGEST_LOOK_MS)
    throw invalidField('query.to', message('problem.daysAfterFrom', { days: 100 }))
  const { timeZone } = await shopById(tx, query.shopId)
  const curing = await curingOf(tx, await runningBonds(tx, { in: [query.shopId] }), timeZone, now)
  const bookings: Booking[] = []
  for (const row of await bookingsBetween(tx, query.shopId, query.from, query.to))
    bookings.push(await toBooking(tx, row, curing, timeZone, now))
  return bookings
}

/** Further ahead a year has been mistyped. Common practice, no source. */
const MOST_AHEAD_DAYS = 3653

/** What is over took place or did not: nobody plans it. */
function requireTimely({ startsAt, endsAt }: { startsAt: Date; endsAt: Date }, now: Date): void {
  if (endsAt <= now)
    throw invalidField('body.endsAt', message('plan-problem.isOver'), message('plan-problem.bookAheadFix'))
  if (startsAt.getTime() > now.getTime() + MOST_AHEAD_DAYS * 86_400_000)
    throw invalidField(
      'body.startsAt',
      message('plan-problem.tenYears'),
      message('plan-problem.checkYearFix'),
    )
}

export async function addBooking(
  tx: Tx,
  actor: Actor,
  body: BodyOf<typeof bookingRoutes.addBooking>,
  now: Date,
): Promise<Booking> {
  const resource = await tx.resource.findUnique({ where: { id: body.resourceId } })
  if (!resource) throw invalidField('body.resourceId', message('plan-problem.notBookable'))
  requireIn(actor, 'planWork', resource.shopId)
  if (!resource.active) throw wrongState(message('problem.outOfUse', { name: resource.name }))
  const order = await tx.repairOrder.findFirst({ where: { id: body.repairOrderId, shopId: resource.shopId } })
  if (!order) throw invalidField('body.repairOrderId', message('plan-problem.noOrderOfShop'))
  if (order.state !== 'open') throw wrongState(message('problem.orderDone', { number: order.number }))
  if ((body.purpose === 'bake') !== (resource.kind === 'oven')) {
    throw invalidField('body.purpose', message('plan-problem.purposeOfPlace'))
  }
  requireTimely(body, now)
  const highestMetalC = body.purpose === 'bake' ? await requireBakeFits(tx, order.id, body, now) : null

  await waitForPlace(tx, resource.id)
  await requireFree(tx, resource, body)
  const organizationId = actor.organization.id
  const { bakeProgram, ...facts } = body
  const { id } = await tx.booking.create({
    data: {
      ...facts,
      organizationId,
      shopId: resource.shopId,
      highestMetalC,
      ...(bakeProgram === null ? {} : { bakeProgram }),
    },
  })
  await announce(tx, { organizationId, shopId: resource.shopId, topic: 'bookings', subjectId: id })
  return oneBooking(tx, id, now)
}

export async function moveBooking(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof bookingRoutes.moveBooking>,
  version: number,
  now: Date,
): Promise<Booking> {
  const before = await bookingRow(tx, id)
  requireIn(actor, 'planWork', before.shopId)
  requireByHand(before)
  const resourceId = body.resourceId ?? before.resourceId
  const startsAt = body.startsAt ?? before.startsAt
  const endsAt = body.endsAt ?? before.endsAt
  if (endsAt <= startsAt)
    throw invalidField(body.endsAt ? 'body.endsAt' : 'body.startsAt', message('plan-problem.endAfterStart'))
  if (body.startsAt || body.endsAt) requireTimely({ startsAt, endsAt }, now)
  if (resourceId !== before.resourceId) {
    const target = await tx.resource.findFirst({
      where: { id: resourceId, shopId: before.shopId, kind: before.resource.kind, active: true },
    })
    if (!target)
      throw invalidField(
        'body.resourceId',
        message('plan-problem.noOtherOfKind', { kind: before.resource.kind }),
      )
  }
  await waitForPlace(tx, resourceId)
  await requireFree(tx, { ...before.resource, id: resourceId }, { startsAt, endsAt }, id)
  await requireBondsMayGo(tx, before, { resourceId, startsAt, endsAt }, now)
  const bake = {
    startsAt,
    endsAt,
    highestMetalC: before.highestMetalC,
    bakeProgram: storedProgram(before.bakeProgram),
    metalStartC: before.metalStartC,
  }
  const highestMetalC =
    before.purpose === 'bake' ? await requireBakeFits(tx, before.repairOrderId, bake, now) : null
  const { count } = await tx.booking.updateMany({
    where: { id, version, cancelledAt: null },
    data: {
      resourceId,
      startsAt,
      endsAt,
      highestMetalC,
      ...(body.note === undefined ? {} : { note: body.note, noteSaid: Prisma.DbNull }),
      version: { increment: 1 },
    },
  })
  requireVersion(count, (await bookingRow(tx, id)).version)
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: before.shopId,
    topic: 'bookings',
    subjectId: id,
  })
  return oneBooking(tx, id, now)
}

export async function cancelBooking(tx: Tx, actor: Actor, id: string, now: Date): Promise<void> {
  const booking = await bookingRow(tx, id)
  requireIn(actor, 'planWork', booking.shopId)
  requireByHand(booking)
  await requireBondsMayGo(tx, booking, null, now)
  await tx.booking.update({ where: { id }, data: { cancelledAt: now, version: { increment: 1 } } })
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: booking.shopId,
    topic: 'bookings',
    subjectId: id,
  })
}

/**
 * One after the other, whoever books a place by hand. The constraint alone has each of many who come at once wait for all
 * the others, which the database ends by its search for deadlocks, a second and one of them at a time.
 */
async function waitForPlace(tx: Tx, resourceId: string): Promise<void> {
  await tx.$queryRaw`select 1 from resource where id = ${resourceId}::uuid for no key update`
}

/**
 * Says whose a place is before the database refuses it. The constraint stays the judge: between this look and the write
 * somebody else may come, and then the work runs again and finds them here.
 */
async function requireFree(
  tx: Tx,
  resource: { readonly id: string; readonly name: string; readonly capacity: number },
  { startsAt, endsAt }: { readonly startsAt: Date; readonly endsAt: Date },
  except?: string,
): Promise<void> {
  if (resource.capacity > 1) return
  const other = await nextBookingIn(tx, resource.id, startsAt, { except })
  if (!other || other.startsAt >= endsAt) return
  const { timeZone } = await shopById(tx, other.shopId)
  const taken = message('plan-problem.bookedFor', {
    place: other.resource.name,
    from: onClock(other.startsAt.getTime(), timeZone),
    until: onClock(other.endsAt.getTime(), timeZone),
    order: other.repairOrder.number,
    vehicle: other.repairOrder.vehicle,
  })
  throw new ProblemError('booking-taken', taken, [
    {
      code: 'booking-taken',
      field: 'body.startsAt',
      message: taken,
      fix: message('problem.placeTakenFix'),
    },
  ])
}

/** What the published plan has booked is moved by the plan, so that the two never differ. */
function requireByHand({ planId, operation }: BookingRow): void {
  if (planId === null) return
  throw wrongState(
    operation
      ? message('plan-problem.belongsToPlanFor', { name: operation.name })
      : message('plan-problem.belongsToPlan'),
    message('plan-problem.moveOnPlanFix'),
  )
}

async function oneBooking(tx: Tx, id: string, now: Date): Promise<Booking> {
  const row = await bookingRow(tx, id)
  const { timeZone } = await shopById(tx, row.shopId)
  const bonds = (await bondsOfRepairOrder(tx, row.repairOrderId)).filter(isRunning)
  return toBooking(tx, row, await curingOf(tx, bonds, timeZone, now), timeZone, now)
}

/** A booking that a curing vehicle stands in may not be given up, moved elsewhere or cut short of the conservative ready time. */
async function requireBondsMayGo(
  tx: Tx,
  booking: Awaited<ReturnType<typeof bookingRow>>,
  wish: { resourceId: string; startsAt: Date; endsAt: Date } | null,
  now: Date,
): Promise<void> {
  if (booking.startsAt > now || booking.endsAt < now) return
  const bonds = (await bondsOfRepairOrder(tx, booking.repairOrderId)).filter(
    (bond) => isRunning(bond) && bond.bayId === booking.resourceId,
  )
  if (bonds.length === 0) return
  const { timeZone } = await shopById(tx, booking.shopId)
  for (const bond of bonds) {
    const { estimate } = await estimateOf(tx, bond, timeZone, now)
    const ready = estimate.handlingStrength.readyAt.conservative
    const stays = wish !== null && wish.resourceId === booking.resourceId && wish.startsAt <= now
    // Lengthening is always right, even when it is not yet long enough.
    const longEnough =
      stays && (wish.endsAt >= booking.endsAt || (ready.kind === 'at' && wish.endsAt.getTime() >= ready.atMs))
    if (longEnough) continue
    const joint = bond.joint.name
    const cures =
      ready.kind === 'at'
        ? message('plan-problem.curingHere', { joint, ready: readyOnClock(ready.atMs, timeZone) })
        : message('plan-problem.curingHereNoReady', { joint })
    throw new ProblemError('not-ready', cures, [
      {
        code: 'handling-strength',
        field: 'body.endsAt',
        message: cures,
        fix: message('plan-problem.keepBayFix'),
      },
    ])
  }
}

interface Bake {
  readonly startsAt: Date
  readonly endsAt: Date
  readonly highestMetalC: number | null
  readonly bakeProgram: BakeProgram | null
  readonly metalStartC: number | null
}

/** The highest temperature of the metal: as it was given, or as it follows from the program. */
async function requireBakeFits(tx: Tx, repairOrderId: string, bake: Bake, now: Date): Promise<number> {
  const { startsAt, endsAt, bakeProgram, metalStartC, highestMetalC } = bake
  // Adhesive that was left on the vehicle would be baked with it.
  requireNone(heldReasons(await bondsOfRepairOrder(tx, repairOrderId)))
  if (bakeProgram === null) {
    const metal = { startsAt, highestMetalC: highestMetalC! }
    requireNone(await bakeReasons(tx, repairOrderId, metal, now))
    return metal.highestMetalC
  }
  const program = { startsAt, endsAt, bakeProgram, metalStartC }
  const { reasons, peakMetalC } = await judgeBooked(tx, repairOrderId, program, now)
  requireNone(reasons)
  return peakMetalC!
}

function requireNone(reasons: readonly ProblemReason[]): void {
  if (reasons.length > 0)
    throw new ProblemError('bake-refused', sentences(reasons.map((each) => each.message)), reasons)
}
