import { message } from '@clampclock/messages'
import type { Tx } from '../../foundation/database/database.ts'
import { openReservations } from './reservation-store.ts'
import { endReservations, type By } from './reserve.ts'

/** The job is done: what was kept for its joints is free again. */
export async function endForOrder(tx: Tx, by: By, repairOrderId: string, at: Date): Promise<void> {
  await endReservations(tx, by, await openReservations(tx, { joint: { repairOrderId } }), {
    kind: 'released',
    reason: message('reason.orderIsDone'),
    at,
  })
}
