import { message } from '@clampclock/messages'
import type { Tx } from '../../foundation/database/database.ts'
import { param } from '../../foundation/words/params.ts'
import type { AnsweredAttempt } from '../estimates/move-check.ts'

/**
 * The open repair orders of one vehicle in one shop, by its VIN: work for an insurer and for the customer is often on two.
 * Where one of them may not be moved, the other stands on the same wheels.
 *
 * @returns ids, the order's own first; it alone where its VIN is not on file.
 */
export async function ordersOfVehicle(
  tx: Tx,
  { id, shopId, vin }: { readonly id: string; readonly shopId: string; readonly vin: string | null },
): Promise<readonly [string, ...string[]]> {
  if (vin === null) return [id]
  const others = await tx.repairOrder.findMany({
    where: { shopId, vin, state: 'open', id: { not: id } },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  return [id, ...others.map((other) => other.id)]
}

/** Its reasons name the order that it is on, where that is not the one that is asked about. */
export function seenFrom(repairOrderId: string, { row, check }: AnsweredAttempt): AnsweredAttempt {
  if (row.joint.repairOrderId === repairOrderId) return { row, check }
  const order = row.joint.repairOrder.number
  const reasons = check.reasons.map((reason) => ({
    ...reason,
    message: message('move.onOtherOrder', { order, says: param(reason.message) }),
  }))
  return { row, check: { ...check, reasons } }
}
