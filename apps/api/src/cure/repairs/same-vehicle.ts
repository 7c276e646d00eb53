import { message } from '@clampclock/messages'
import type { Tx } from '../../foundation/database/database.ts'
import { param } from '../../foundation/words/params.ts'
import type { AnsweredAttempt } from '../estimates/move-check.ts'

interface OrderOfVehicle {
  readonly id: string
  readonly shopId: string
  readonly vin: string | null
  readonly state: string
}

/**
 * The open repair orders of one vehicle in one shop, by its VIN: work for an insurer and for the customer is often on two.
 * Where one of them may not be moved, the other stands on the same wheels.
 *
 * @returns ids, the order's own first; it alone where its VIN is not on file.
 */
export async function ordersOfVehicle(
  tx: Tx,
  { id, shopId, vin, state }: OrderOfVehicle,
): Promise<readonly [string, ...string[]]> {
  // One that is done tells of its own work: the vehicle may have come back since, for something else.
  if (vin === null || state !== 'open') return [id]
  const others = await tx.repairOrder.findMany({
    where: { shopId, vin, state: 'open', id: { not: id } },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  return [id, ...others.map((other) => other.id)]
}

/**
 * Before the vehicle is moved: locks the order and the others of its vehicle, one after the other as everybody does, so that
 * adhesive goes on none of them meanwhile.
 */
export async function lockOrdersOfVehicle(tx: Tx, repairOrderId: string): Promise<void> {
  await tx.$queryRaw`
    select 1 from repair_order
     where id = ${repairOrderId}::uuid
        or (state = 'open' and (shop_id, vin) = (select shop_id, vin from repair_order where id = ${repairOrderId}::uuid))
     order by id for no key update`
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
