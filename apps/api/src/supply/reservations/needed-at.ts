import type { Prisma } from '../../generated/prisma/client.ts'

/** The booking in which a repair order's joints will be made: the first one for work that is not over. */
export function nextBooking(now: Date) {
  return {
    where: { cancelledAt: null, purpose: 'work', endsAt: { gt: now } },
    orderBy: { startsAt: 'asc' },
  } satisfies Prisma.BookingFindManyArgs
}

/** When a joint needs its adhesive: at the next booking of its vehicle, else when it is promised, else now. Never in the past. */
export function whenNeeded(
  booking: { readonly startsAt: Date } | null,
  promisedAt: Date | null,
  now: Date,
): Date {
  const at = booking?.startsAt ?? promisedAt ?? now
  return at > now ? at : now
}
