import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'

/** Ends what is open of these; nothing where nothing is. */
export async function closeQuarantine(
  tx: Tx,
  actor: Actor,
  cartridgeIds: readonly string[],
  decision: 'use' | 'discard',
  reason: string,
  now: Date,
): Promise<void> {
  await tx.cartridgeQuarantine.updateMany({
    where: { cartridgeId: { in: [...cartridgeIds] }, decidedAt: null },
    data: { decision, decidedAt: now, decidedBy: actor.name, decisionReason: reason },
  })
}
