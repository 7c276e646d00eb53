import { message } from '@clampclock/messages'
import type { countRoutes, QueryOf, ResultOf, StockCount } from '@clampclock/contracts'
import { requireIn, visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'

const cartridge = { include: { lot: { include: { product: true } } } } as const
const whole = {
  location: true,
  stockCountEntries: { include: { cartridge }, orderBy: [{ countedAt: 'desc' }, { cartridgeId: 'asc' }] },
  stockCountDifferences: { include: { cartridge }, orderBy: [{ kind: 'asc' }, { cartridgeId: 'asc' }] },
} satisfies Prisma.StockCountInclude
type CountRow = Prisma.StockCountGetPayload<{ include: typeof whole }>

export async function countById(tx: Tx, actor: Actor, id: string): Promise<StockCount> {
  const row = await tx.stockCount.findUnique({ where: { id }, include: whole })
  if (!row) throw notFound('stock count', id)
  requireIn(actor, 'readShop', row.shopId)
  return toCount(row)
}

export async function listCounts(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof countRoutes.listStockCounts>,
): Promise<ResultOf<typeof countRoutes.listStockCounts>> {
  const shops = visibleShops(actor, query.shopId)
  const after = query.cursor ? countCursor(query.cursor) : undefined
  const rows = await tx.stockCount.findMany({
    where: {
      ...(shops ? { shopId: shops } : {}),
      ...(after
        ? { OR: [{ startedAt: { lt: after.at } }, { startedAt: after.at, id: { gt: after.id } }] }
        : {}),
    },
    include: {
      location: true,
      stockCountDifferences: { select: { settledAt: true } },
      _count: { select: { stockCountEntries: true } },
    },
    orderBy: [{ startedAt: 'desc' }, { id: 'asc' }],
    take: query.limit + 1,
  })
  return toPage(
    rows,
    query.limit,
    (row) => ({
      ...headOf(row),
      counted: row._count.stockCountEntries,
      differing: row.finishedAt === null ? null : row.stockCountDifferences.length,
      unsettled: row.stockCountDifferences.filter(({ settledAt }) => settledAt === null).length,
    }),
    (row) => [row.startedAt.getTime(), row.id],
  )
}

function countCursor(cursor: string): { at: Date; id: string } {
  const [ms, id] = unpackCursor(cursor, 2)
  const at = new Date(Number(ms))
  if (Number.isNaN(at.getTime()) || !/^[0-9a-f-]{36}$/.test(String(id)))
    throw invalidField('query.cursor', message('problem.badCursor'))
  return { at, id: String(id) }
}

function toCount(row: CountRow): StockCount {
  return {
    ...headOf(row),
    entries: row.stockCountEntries.map(({ countedAt, countedBy, ...entry }) => ({
      ...namesOf(entry),
      countedAt,
      countedBy,
    })),
    differences:
      row.finishedAt === null
        ? null
        : row.stockCountDifferences.map(({ kind, settledAt, settledBy, settlement, ...each }) => ({
            ...namesOf(each),
            kind: kind as NonNullable<StockCount['differences']>[number]['kind'],
            settled:
              settledAt && settledBy !== null && settlement !== null
                ? { at: settledAt, by: settledBy, how: settlement as 'booked' }
                : null,
          })),
  }
}

function headOf(row: Omit<CountRow, 'stockCountEntries' | 'stockCountDifferences'>) {
  const { id, shopId, locationId, location, startedAt, startedBy, finishedAt, finishedBy } = row
  return {
    id,
    shopId,
    locationId,
    locationName: location?.name ?? null,
    startedAt,
    startedBy,
    finishedAt,
    finishedBy,
  }
}

function namesOf({
  cartridgeId,
  cartridge: piece,
}: Pick<CountRow['stockCountEntries'][number], 'cartridgeId' | 'cartridge'>) {
  return {
    cartridgeId,
    code: piece.code,
    productName: piece.lot.product.name,
    lotNumber: piece.lot.lotNumber,
  }
}
