import { shopTime } from '../../cure/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { BookingRow } from './booking-store.ts'

/** What could be done about a booking whose bay is still held: another bay of the shop that is free, or a later start. */
export async function proposalFor(
  tx: Tx,
  booking: BookingRow,
  heldUntil: Date | null,
  timeZone: string,
): Promise<string> {
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
  if (free) return `Proposal: move ${booking.repairOrder.number} to ${free.name}, which is free then.`
  if (heldUntil)
    return `Proposal: start ${booking.repairOrder.number} at ${shopTime(heldUntil.getTime(), timeZone)}.`
  return 'Proposal: warm the bay, so that the cure comes to an end.'
}
