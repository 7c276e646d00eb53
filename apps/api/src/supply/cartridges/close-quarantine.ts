import { Prisma } from '../../generated/prisma/client.ts'
import type { Told } from '@clampclock/messages'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { keptReason } from '../../foundation/words/kept.ts'

/** Ends what is open of these; nothing where nothing is. */
export async function closeQuarantine(
  tx: Tx,
  actor: Actor,
  cartridgeIds: readonly string[],
  decision: 'use' | 'discard',
  reason: Told,
  now: Date,
): Promise<void> {
  const kept = keptReason(reason)
  await tx.cartridgeQuarantine.updateMany({
    where: { cartridgeId: { in: [...cartridgeIds] }, decidedAt: null },
    data: {
      decision,
      decidedAt: now,
      decidedBy: actor.name,
      decisionReason: kept.reason,
      decisionSaid: kept.said ?? Prisma.DbNull,
    },
  })
}
