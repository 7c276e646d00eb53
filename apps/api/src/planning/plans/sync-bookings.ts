import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { storedProgram } from '../../cure/index.ts'
import { union, without, type Interval } from '../problem/intervals.ts'

interface Wanted {
  readonly resourceId: string
  readonly repairOrderId: string
  readonly operationId: string | null
  readonly purpose: 'work' | 'bake'
  readonly highestMetalC: number | null
  readonly bakeProgram?: Prisma.InputJsonObject
  readonly startsAt: Date
  readonly endsAt: Date
  readonly units: number
}

interface Scope {
  readonly organizationId: string
  readonly shopId: string
  readonly planId: string
}

/**
 * Makes the bookings of a plan the ones that hold: those of the plan before it that are still to come are cancelled, those
 * that have begun end when the new plan says, and the rest is booked. Bookings made by hand stay; where the same vehicle has
 * one in its bay already, the plan books what is left. Whether a place is free, the database decides.
 */
export async function syncBookings(tx: Tx, scope: Scope, now: Date): Promise<void> {
  const wanted = await wantedBookings(tx, scope.planId, now)
  const standing = await tx.booking.findMany({
    where: { shopId: scope.shopId, planId: { not: null }, cancelledAt: null, endsAt: { gt: now } },
    orderBy: { id: 'asc' },
  })
  const kept = new Map<Wanted, { readonly id: string; readonly endsAt: Date }>()
  const over: string[] = []
  const gone: string[] = []
  for (const booking of standing) {
    const same = wanted.find(
      (each) => !kept.has(each) && keyOf(each) === keyOf(booking) && each.startsAt <= now,
    )
    if (booking.startsAt <= now && same) kept.set(same, { id: booking.id, endsAt: booking.endsAt })
    else if (booking.startsAt < now) over.push(booking.id)
    else gone.push(booking.id)
  }
  // First what makes room, then what takes it.
  await changeAll(tx, over, { endsAt: now })
  await changeAll(tx, gone, { cancelledAt: now })
  const lengths = [...kept].toSorted(([a, was], [b, wasToo]) => growth(a, was) - growth(b, wasToo))
  for (const [{ endsAt }, { id }] of lengths) await changeAll(tx, [id], { endsAt, planId: scope.planId })
  const byHand = await tx.booking.findMany({
    where: { shopId: scope.shopId, planId: null, cancelledAt: null, endsAt: { gt: now } },
  })
  const fresh = wanted.filter((each) => !kept.has(each)).flatMap((each) => beside(each, byHand, now))
  await tx.booking.createMany({ data: fresh.map((each) => ({ ...each, ...scope })) })
}

function growth({ endsAt }: Wanted, was: { readonly endsAt: Date }): number {
  return endsAt.getTime() - was.endsAt.getTime()
}

async function changeAll(
  tx: Tx,
  ids: readonly string[],
  data: { endsAt?: Date; cancelledAt?: Date; planId?: string },
): Promise<void> {
  if (ids.length === 0) return
  await tx.booking.updateMany({
    where: { id: { in: [...ids] } },
    data: { ...data, version: { increment: 1 } },
  })
}

function keyOf({
  resourceId,
  repairOrderId,
  operationId,
}: Pick<Wanted, 'resourceId' | 'repairOrderId' | 'operationId'>): string {
  return `${resourceId} ${repairOrderId} ${operationId ?? ''}`
}

/** What is left of a wish beside the same vehicle's own bookings of the place, from now on. */
function beside(
  wish: Wanted,
  byHand: readonly { resourceId: string; repairOrderId: string; startsAt: Date; endsAt: Date }[],
  now: Date,
): Wanted[] {
  const own = byHand
    .filter((each) => each.resourceId === wish.resourceId && each.repairOrderId === wish.repairOrderId)
    .map(({ startsAt, endsAt }): Interval => [startsAt.getTime(), endsAt.getTime()])
  const whole: Interval = [Math.max(wish.startsAt.getTime(), now.getTime()), wish.endsAt.getTime()]
  const left = wish.units > 1 ? union([whole]) : without([whole], own)
  return left.map(([from, until]) => ({ ...wish, startsAt: new Date(from), endsAt: new Date(until) }))
}

async function wantedBookings(tx: Tx, planId: string, now: Date): Promise<Wanted[]> {
  const operations = await tx.plannedOperation.findMany({
    where: { planId, endsAt: { gt: now } },
    include: { operation: true, place: true },
    orderBy: [{ startsAt: 'asc' }, { operationId: 'asc' }],
  })
  const stays = await tx.plannedStay.findMany({
    where: { planId, endsAt: { gt: now } },
    include: { resource: true },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  })
  const people = operations.flatMap(({ operation, startsAt, endsAt, technicianIds }) =>
    technicianIds.map((resourceId): Wanted => ({
      ...plain(operation.repairOrderId, resourceId),
      operationId: operation.id,
      startsAt,
      endsAt,
    })),
  )
  const places = stays.flatMap((stay): Wanted[] => {
    const { repairOrderId, resourceId, startsAt, endsAt, units } = stay
    const whole = { ...plain(repairOrderId, resourceId), startsAt, endsAt, units }
    const bake = operations.find(
      ({ operation, placeId }) =>
        operation.kind === 'bake' && operation.repairOrderId === repairOrderId && placeId === resourceId,
    )
    if (stay.resource.kind !== 'oven' || !bake) return [whole]
    const bakeProgram = storedProgram(bake.operation.bakeProgram)
    // From the bake on the oven is hot: that is booked as one, with its program and what the metal gets to.
    const baking: Wanted = {
      ...whole,
      operationId: bake.operationId,
      purpose: 'bake',
      highestMetalC: bake.operation.highestMetalC,
      ...(bakeProgram && { bakeProgram }),
      startsAt: bake.startsAt,
    }
    return [...(startsAt < bake.startsAt ? [{ ...whole, endsAt: bake.startsAt }] : []), baking]
  })
  return [...places, ...people].filter(({ endsAt }) => endsAt > now)
}

function plain(repairOrderId: string, resourceId: string) {
  return {
    repairOrderId,
    resourceId,
    operationId: null,
    purpose: 'work' as const,
    highestMetalC: null,
    units: 1,
  }
}
