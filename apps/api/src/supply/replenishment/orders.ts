import { message } from '@clampclock/messages'
import type { BodyOf, PurchaseOrder, QueryOf, ResultOf, orderRoutes } from '@clampclock/contracts'
import { requireIn, visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField, notFound, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { policyOf } from './policy.ts'
import { requireSupplier, supplies } from './suppliers.ts'

const whole = {
  supplier: true,
  lines: { include: { product: { select: { name: true } } }, orderBy: { product: { name: 'asc' } } },
} satisfies Prisma.PurchaseOrderInclude
type OrderRow = Prisma.PurchaseOrderGetPayload<{ include: typeof whole }>

const DAY_MS = 86_400_000

export async function listOrders(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof orderRoutes.listOrders>,
): Promise<ResultOf<typeof orderRoutes.listOrders>> {
  const shops = visibleShops(actor, query.shopId)
  const { currency } = await policyOf(tx, actor.organization.id)
  const after = query.cursor ? orderCursor(query.cursor) : undefined
  const rows = await tx.purchaseOrder.findMany({
    where: {
      ...(shops ? { shopId: shops } : {}),
      ...(query.state ? { state: query.state } : {}),
      ...(after
        ? { OR: [{ createdAt: { lt: after.at } }, { createdAt: after.at, id: { gt: after.id } }] }
        : {}),
    },
    include: whole,
    orderBy: [{ createdAt: 'desc' }, { id: 'asc' }],
    take: query.limit + 1,
  })
  return toPage(
    rows,
    query.limit,
    (row) => toOrder(row, currency),
    (row) => [row.createdAt.getTime(), row.id],
  )
}

function orderCursor(cursor: string): { at: Date; id: string } {
  const [ms, id] = unpackCursor(cursor, 2)
  const at = new Date(Number(ms))
  if (Number.isNaN(at.getTime()) || !/^[0-9a-f-]{36}$/.test(String(id)))
    throw invalidField('query.cursor', message('problem.badCursor'))
  return { at, id: String(id) }
}

export async function getOrder(tx: Tx, actor: Actor, id: string): Promise<PurchaseOrder> {
  const row = await orderRow(tx, id)
  requireIn(actor, 'readShop', row.shopId)
  return toOrder(row, (await policyOf(tx, actor.organization.id)).currency)
}

export async function addOrder(
  tx: Tx,
  actor: Actor,
  shopId: string,
  { supplierId, note, lines }: BodyOf<typeof orderRoutes.addOrder>,
  now: Date,
): Promise<PurchaseOrder> {
  requireIn(actor, 'handleStock', shopId)
  const organizationId = actor.organization.id
  await requireSupplier(tx, supplierId)
  const supplyOf = await supplies(tx)
  lines.forEach(({ productId }, i) => {
    const supply = supplyOf.get(productId)
    if (supply?.supplierId !== supplierId)
      throw invalidField(
        `body.lines.${i}.productId`,
        supply
          ? message('stock-problem.orderedFrom', { supplier: supply.supplierName })
          : message('stock-problem.noSupply'),
        message('stock-problem.whereOrderedFix'),
      )
  })
  // Numbers are counted within the shop: who drafts at the same moment waits for the other's.
  await tx.$queryRaw`select 1 from shop where id = ${shopId}::uuid for no key update`
  const last = await tx.purchaseOrder.aggregate({ where: { shopId }, _max: { number: true } })
  const order = await tx.purchaseOrder.create({
    data: {
      organizationId,
      shopId,
      supplierId,
      number: (last._max.number ?? 0) + 1,
      note,
      createdAt: now,
      createdBy: actor.name,
    },
  })
  await tx.purchaseOrderLine.createMany({
    data: lines.map((line) => ({
      ...line,
      orderId: order.id,
      organizationId,
      shopId,
      unitPriceCents: supplyOf.get(line.productId)!.unitPriceCents,
    })),
  })
  return changed(tx, actor, order.id)
}

export async function placeOrder(tx: Tx, actor: Actor, id: string, now: Date): Promise<PurchaseOrder> {
  const order = await lockedOrder(tx, actor, id)
  if (order.state !== 'draft')
    throw wrongState(message('stock-problem.orderIs', { number: order.number, state: order.state }))
  await tx.purchaseOrder.update({
    where: { id },
    data: { state: 'placed', placedAt: now, placedBy: actor.name, version: { increment: 1 } },
  })
  return changed(tx, actor, id)
}

/** What has come stays; what has not is no longer on order. */
export async function cancelOrder(
  tx: Tx,
  actor: Actor,
  id: string,
  reason: string,
  now: Date,
): Promise<PurchaseOrder> {
  const order = await lockedOrder(tx, actor, id)
  if (order.state !== 'draft' && order.state !== 'placed')
    throw wrongState(message('stock-problem.orderIs', { number: order.number, state: order.state }))
  const note = order.note === '' ? reason : `${order.note}\n${reason}`
  await tx.purchaseOrder.update({
    where: { id },
    data: { state: 'cancelled', note, closedAt: now, closedBy: actor.name, version: { increment: 1 } },
  })
  return changed(tx, actor, id)
}

/**
 * Counts a delivery against the placed orders of its shop, the oldest first; an order that has come whole is closed.
 * More than was ordered is received all the same: the rest belongs to no order.
 */
export async function countReceipt(
  tx: Tx,
  actor: Actor,
  { shopId, productId, cartridges }: { shopId: string; productId: string; cartridges: number },
  now: Date,
): Promise<void> {
  const orders = await tx.$queryRaw<{ id: string }[]>`
    select o.id from purchase_order o
     where o.shop_id = ${shopId}::uuid and o.state = 'placed'
       and exists (select from purchase_order_line l where l.order_id = o.id and l.product_id = ${productId}::uuid)
     order by o.placed_at, o.number for update`
  let left = cartridges
  for (const { id } of orders) {
    if (left === 0) return
    const lines = await tx.purchaseOrderLine.findMany({ where: { orderId: id } })
    const line = lines.find((each) => each.productId === productId)!
    const counted = Math.min(left, line.cartridges - line.receivedCartridges)
    if (counted === 0) continue
    left -= counted
    await tx.purchaseOrderLine.update({
      where: { orderId_productId: { orderId: id, productId } },
      data: { receivedCartridges: { increment: counted } },
    })
    const isWhole = lines.every(
      (each) => each.cartridges === each.receivedCartridges + (each === line ? counted : 0),
    )
    await tx.purchaseOrder.update({
      where: { id },
      data: {
        version: { increment: 1 },
        ...(isWhole ? { state: 'received', closedAt: now, closedBy: actor.name } : {}),
      },
    })
  }
}

async function orderRow(tx: Tx, id: string): Promise<OrderRow> {
  const row = await tx.purchaseOrder.findUnique({ where: { id }, include: whole })
  if (!row) throw notFound('order', id)
  return row
}

async function lockedOrder(tx: Tx, actor: Actor, id: string): Promise<OrderRow> {
  await tx.$queryRaw`select 1 from purchase_order where id = ${id}::uuid for update`
  const row = await orderRow(tx, id)
  requireIn(actor, 'handleStock', row.shopId)
  return row
}

async function changed(tx: Tx, actor: Actor, id: string): Promise<PurchaseOrder> {
  const organizationId = actor.organization.id
  const row = await orderRow(tx, id)
  await announce(tx, { organizationId, shopId: row.shopId, topic: 'stock', subjectId: id })
  return toOrder(row, (await policyOf(tx, organizationId)).currency)
}

function toOrder(row: OrderRow, currency: string): PurchaseOrder {
  const { id, shopId, number, supplierId, note, createdAt, createdBy, version } = row
  return {
    id,
    shopId,
    number,
    supplierId,
    supplierName: row.supplier.name,
    state: row.state as PurchaseOrder['state'],
    note,
    createdAt,
    createdBy,
    placed: row.placedAt && row.placedBy !== null ? { at: row.placedAt, by: row.placedBy } : null,
    closed: row.closedAt && row.closedBy !== null ? { at: row.closedAt, by: row.closedBy } : null,
    expectedAt: row.placedAt && new Date(row.placedAt.getTime() + row.supplier.leadDays * DAY_MS),
    currency,
    totalCents: row.lines.reduce((sum, line) => sum + line.cartridges * line.unitPriceCents, 0),
    lines: row.lines.map(({ product, productId, cartridges, receivedCartridges, unitPriceCents }) => ({
      productId,
      productName: product.name,
      cartridges,
      receivedCartridges,
      unitPriceCents,
    })),
    version,
  }
}
