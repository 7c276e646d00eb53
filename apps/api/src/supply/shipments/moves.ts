import { message } from '@clampclock/messages'
import type { BodyOf, moveRoutes, ResultOf } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, wrongState } from '../../foundation/problems/problem-error.ts'
import {
  lockedCartridges,
  selectCartridges,
  toCartridge,
  type CartridgeRow,
} from '../cartridges/cartridge-store.ts'
import { post } from '../cartridges/ledger.ts'
import { requireSeen } from '../cartridges/may-see.ts'
import { requireLocation } from '../receiving/receive.ts'

export async function moveCartridges(
  tx: Tx,
  actor: Actor,
  shopId: string,
  { cartridgeIds, locationId, reason }: BodyOf<typeof moveRoutes.moveCartridges>,
  now: Date,
): Promise<ResultOf<typeof moveRoutes.moveCartridges>> {
  if (locationId) await requireLocation(tx, shopId, locationId, 'body.locationId')
  const rows = await lockedCartridges(tx, cartridgeIds)
  await requireOnHand(tx, actor, rows, shopId)
  const moving = rows.filter((row) => row.location_id !== locationId)
  await post(
    tx,
    actor,
    now,
    moving.map((row) => ({
      shopId,
      lotId: row.lot_id,
      cartridgeId: row.id,
      kind: 'moved',
      locationId,
      sealedChange: 0,
      openedChange: 0,
      volumeChangeUl: 0,
      at: now,
      reason: reason || message('stock-reason.otherShelf'),
    })),
  )
  const after = await selectCartridges(tx, Prisma.sql`c.id = any (${cartridgeIds}::uuid[])`, rows.length)
  return { cartridges: after.map((row) => toCartridge(row, now)) }
}

/** @throws {ProblemError} Naming the first cartridge that is in another shop, or not on hand. */
export async function requireOnHand(
  tx: Tx,
  actor: Actor,
  rows: readonly CartridgeRow[],
  shopId: string,
): Promise<void> {
  for (const row of rows) {
    await requireSeen(tx, actor, row)
    if (row.state !== 'sealed' && row.state !== 'opened')
      throw wrongState(
        message('cartridge.isState', { code: row.code, state: row.state }),
        message('problem.leaveItOutFix'),
      )
    if (row.shop_id !== shopId)
      throw invalidField(
        'body.cartridgeIds',
        message('gate.anotherShop', { code: row.code }),
        message('problem.leaveItOutFix'),
      )
  }
}
