import { message } from '@clampclock/messages'
import type { MovementKind, QueryOf, ResultOf, stockRoutes } from '@clampclock/contracts'
import { visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { toldOf } from '../../foundation/words/kept.ts'
import { toMl } from '../../foundation/database/volumes.ts'

export async function listMovements(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof stockRoutes.listStockMovements>,
): Promise<ResultOf<typeof stockRoutes.listStockMovements>> {
  const shops = visibleShops(actor, query.shopId)
  const rows = await tx.stockMovement.findMany({
    where: {
      ...(shops ? { shopId: shops } : {}),
      ...(query.lotId ? { lotId: query.lotId } : {}),
      ...(query.cartridgeId ? { cartridgeId: query.cartridgeId } : {}),
      ...(query.cursor ? { id: { lt: movementCursor(query.cursor) } } : {}),
    },
    include: {
      lot: { select: { lotNumber: true } },
      cartridge: { select: { code: true } },
      location: { select: { name: true } },
    },
    orderBy: { id: 'desc' },
    take: query.limit + 1,
  })
  return toPage(
    rows,
    query.limit,
    (row) => ({
      id: String(row.id),
      at: row.at,
      recordedAt: row.recordedAt,
      kind: row.kind as MovementKind,
      shopId: row.shopId,
      lotId: row.lotId,
      lotNumber: row.lot.lotNumber,
      cartridgeId: row.cartridgeId,
      cartridgeCode: row.cartridge.code,
      sealedChange: row.sealedChange,
      openedChange: row.openedChange,
      volumeChangeMl: toMl(row.volumeChangeUl),
      by: row.recordedBy,
      reason: toldOf(row.reason, row.said),
      bondId: row.bondId,
      shipmentId: row.shipmentId,
      locationName: row.location?.name ?? null,
    }),
    (row) => [String(row.id)],
  )
}

function movementCursor(cursor: string): bigint {
  const [id] = unpackCursor(cursor, 1)
  if (!/^\d{1,18}$/.test(String(id))) throw invalidField('query.cursor', message('problem.badCursor'))
  return BigInt(String(id))
}
