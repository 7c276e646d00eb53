import { mayIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import type { CartridgeRow } from './cartridge-store.ts'

/** Whoever sees the shop that has it; one on its way also who sees the shop that waits for it. */
export async function maySee(
  tx: Tx,
  actor: Actor,
  { id, shop_id: shopId, state }: CartridgeRow,
): Promise<boolean> {
  if (mayIn(actor, 'readShop', shopId)) return true
  if (state !== 'inTransit') return false
  const line = await tx.shipmentLine.findFirst({
    where: { cartridgeId: id, outcome: null },
    select: { shipment: { select: { toShopId: true } } },
  })
  return line !== null && mayIn(actor, 'readShop', line.shipment.toShopId)
}

/** @throws {ProblemError} `not-found`, as of one that does not exist: nothing of it is told. */
export async function requireSeen(tx: Tx, actor: Actor, row: CartridgeRow): Promise<void> {
  if (!(await maySee(tx, actor, row))) throw notFound('cartridge', row.id)
}
