import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'

export const WHOLE_BOOKING = {
  resource: true,
  repairOrder: true,
  operation: true,
} satisfies Prisma.BookingInclude

export type BookingRow = Awaited<ReturnType<typeof bookingRow>>

export async function bookingRow(tx: Tx, id: string) {
  const row = await tx.booking.findUnique({ where: { id }, include: WHOLE_BOOKING })
  if (!row || row.cancelledAt) throw notFound('booking', id)
  return row
}

/** Bookings of a shop that overlap `[from, to)`. */
export function bookingsBetween(tx: Tx, shopId: string, from: Date, to: Date): Promise<BookingRow[]> {
  return tx.booking.findMany({
    where: { shopId, cancelledAt: null, startsAt: { lt: to }, endsAt: { gt: from } },
    include: WHOLE_BOOKING,
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  })
}

/** The booking that a vehicle holds a bay by at an instant; if it has run out, the last one that it held there. */
export function bookingOfVehicleIn(
  tx: Tx,
  resourceId: string,
  repairOrderId: string,
  at: Date,
): Promise<BookingRow | null> {
  return tx.booking.findFirst({
    where: { resourceId, repairOrderId, cancelledAt: null, startsAt: { lte: at } },
    include: WHOLE_BOOKING,
    orderBy: { startsAt: 'desc' },
  })
}

/** The next booking of a place, from an instant on: but for one booking, or for those of one vehicle. */
export function nextBookingIn(
  tx: Tx,
  resourceId: string,
  from: Date,
  { except, notOf }: { readonly except?: string | undefined; readonly notOf?: string } = {},
): Promise<BookingRow | null> {
  return tx.booking.findFirst({
    where: {
      resourceId,
      cancelledAt: null,
      endsAt: { gt: from },
      ...(except ? { id: { not: except } } : {}),
      ...(notOf ? { repairOrderId: { not: notOf } } : {}),
    },
    include: WHOLE_BOOKING,
    orderBy: { startsAt: 'asc' },
  })
}
