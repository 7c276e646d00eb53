import { toldOf } from '../../foundation/words/kept.ts'
import { holder } from './holder.ts'
import { message } from '@clampclock/messages'
import type { Lot, QueryOf, ResultOf, stockRoutes } from '@clampclock/contracts'
import { shopsWith, type Actor } from '../../foundation/permissions/actor.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { dateOf, isoDate } from '../../foundation/http/dates.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { toMl } from '../../foundation/database/volumes.ts'

const withTotals = { product: true, stockOnHands: true } satisfies Prisma.LotInclude
type LotRow = NonNullable<Awaited<ReturnType<typeof lotRow>>>

export async function listLots(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof stockRoutes.listLots>,
): Promise<ResultOf<typeof stockRoutes.listLots>> {
  const after = query.cursor ? unpackCursor(query.cursor, 2) : undefined
  const rows = await tx.lot.findMany({
    where: {
      ...(query.productId ? { productId: query.productId } : {}),
      ...(query.lotNumber ? { lotNumber: query.lotNumber } : {}),
      ...(after
        ? {
            OR: [
              { printedExpiry: { gt: cursorDate(after[0]) } },
              { printedExpiry: cursorDate(after[0]), id: { gt: String(after[1]) } },
            ],
          }
        : {}),
    },
    include: withTotals,
    orderBy: [{ printedExpiry: 'asc' }, { id: 'asc' }],
    take: query.limit + 1,
  })
  return toPage(
    rows,
    query.limit,
    (row) => toLot(row, actor),
    (row) => [isoDate(row.printedExpiry), row.id],
  )
}

function cursorDate(text: string | number | undefined): Date {
  const date = /^\d{4}-\d{2}-\d{2}$/.test(String(text)) ? dateOf(String(text)) : new Date(Number.NaN)
  if (Number.isNaN(date.getTime())) throw invalidField('query.cursor', message('problem.badCursor'))
  return date
}

export async function getLot(tx: Tx, actor: Actor, id: string): Promise<Lot> {
  return toLot(await requireLot(tx, id), actor)
}

function lotRow(tx: Tx, id: string) {
  return tx.lot.findUnique({ where: { id }, include: withTotals })
}

export async function requireLot(tx: Tx, id: string): Promise<LotRow> {
  const row = await lotRow(tx, id)
  if (!row) throw notFound('lot', id)
  return row
}

export function toLot(row: LotRow, actor: Actor): Lot {
  const visible = shopsWith(actor, 'readShop')
  return {
    id: row.id,
    productId: row.productId,
    productName: row.product.name,
    lotNumber: row.lotNumber,
    printedExpiry: isoDate(row.printedExpiry),
    expiryPrecision: row.expiryPrecision as Lot['expiryPrecision'],
    hold:
      row.holdReason !== null && row.holdSince !== null && row.holdBy !== null
        ? {
            reason: toldOf(row.holdReason, row.holdSaid),
            since: row.holdSince,
            by: holder(row.holdBy),
            kind: row.holdKind as 'person' | 'excursion' | 'scrapped',
          }
        : null,
    onHand: row.stockOnHands
      .filter(({ shopId }) => visible === 'all' || visible.has(shopId))
      .map(({ shopId, sealed, opened, volumeUl }) => ({ shopId, sealed, opened, volumeMl: toMl(volumeUl) })),
  }
}
