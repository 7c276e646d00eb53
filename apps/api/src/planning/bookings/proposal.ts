import { message, type Message } from '@clampclock/messages'
import { readyOnClock } from '../../foundation/words/params.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { BookingRow } from './booking-store.ts'

/** What could be done about a booking whose bay is still held: another bay of the shop that is free, or a later start. */
export async function proposalFor(
  tx: Tx,
  booking: BookingRow,
  heldUntil: Date | null,
  timeZone: string,
): Promise<Message> {
  const free = await tx.resource.findFirst({
    where: {
      shopId: booking.shopId,
      kind: booking.resource.kind,
      active: true,
      id: { not: booking.resourceId },
      bookings: {
        none: { cancelledAt: null, startsAt: { lt: booking.endsAt }, endsAt: { gt: booking.startsAt } },
      },
    },
    orderBy: { name: 'asc' },
  })
  const order = booking.repairOrder.number
  if (free) return message('alert.proposalMove', { order, place: free.name })
  if (heldUntil)
    return message('alert.proposalStart', { order, at: readyOnClock(heldUntil.getTime(), timeZone) })
  return message('alert.proposalWarm')
}
