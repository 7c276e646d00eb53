import type { MovementKind } from '@clampclock/contracts'
import type { Told } from '@clampclock/messages'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { announce } from '../../foundation/live/hub.ts'
import { keptReason } from '../../foundation/words/kept.ts'

export interface Movement {
  readonly shopId: string
  readonly lotId: string
  readonly cartridgeId: string
  readonly kind: MovementKind
  readonly sealedChange: number
  readonly openedChange: number
  readonly volumeChangeUl: number
  readonly at: Date
  readonly reason: Told
  readonly bondId?: string
  readonly shipmentId?: string
  /** Where it lies from now on, of what is received, moved, arrives or is found. */
  readonly locationId?: string | null
}

/**
 * Adds movements to the ledger: the only way that stock changes. The database's trigger keeps the totals and what
 * each cartridge holds in the same transaction, and refuses what would go below zero.
 */
export async function post(tx: Tx, actor: Actor, now: Date, movements: readonly Movement[]): Promise<void> {
  const organizationId = actor.organization.id
  await tx.stockMovement.createMany({
    data: movements.map((movement) => ({
      ...movement,
      ...keptReason(movement.reason),
      organizationId,
      recordedAt: now,
      recordedBy: actor.name,
      actorId: actor.id,
    })),
  })
  for (const shopId of new Set(movements.map((movement) => movement.shopId))) {
    await announce(tx, { organizationId, shopId, topic: 'stock' })
  }
}
