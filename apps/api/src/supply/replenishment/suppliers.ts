import { message } from '@clampclock/messages'
import type { BodyOf, ProductSupply, Supplier, supplyRoutes } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { requireVersion } from '../../foundation/http/versions.ts'
import { announce } from '../../foundation/live/hub.ts'
import { forgetLevels } from './forget-levels.ts'

export function listSuppliers(tx: Tx): Promise<Supplier[]> {
  return tx.supplier.findMany({ orderBy: { name: 'asc' } })
}

export async function addSupplier(
  tx: Tx,
  actor: Actor,
  body: BodyOf<typeof supplyRoutes.addSupplier>,
): Promise<Supplier> {
  const organizationId = actor.organization.id
  const supplier = await tx.supplier.create({ data: { ...body, organizationId } })
  await announce(tx, { organizationId, shopId: null, topic: 'stock', subjectId: supplier.id })
  return supplier
}

export async function editSupplier(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof supplyRoutes.editSupplier>,
  version: number,
): Promise<Supplier> {
  const { count } = await tx.supplier.updateMany({
    where: { id, version },
    data: { ...given(body), version: { increment: 1 } },
  })
  const supplier = await tx.supplier.findUnique({ where: { id } })
  if (!supplier) throw notFound('supplier', id)
  requireVersion(count, supplier.version)
  await forgetLevels(tx)
  await announce(tx, { organizationId: actor.organization.id, shopId: null, topic: 'stock', subjectId: id })
  return supplier
}

const named = { product: { select: { name: true } }, supplier: { select: { name: true } } } as const
export type SupplyRow = Prisma.ProductSupplyGetPayload<{ include: typeof named }>

export async function supplies(tx: Tx): Promise<Map<string, ProductSupply>> {
  const rows = await tx.productSupply.findMany({ include: named, orderBy: { product: { name: 'asc' } } })
  return new Map(rows.map((row) => [row.productId, toSupply(row)]))
}

export async function addSupply(
  tx: Tx,
  actor: Actor,
  productId: string,
  body: BodyOf<typeof supplyRoutes.addProductSupply>,
): Promise<ProductSupply> {
  const organizationId = actor.organization.id
  if (!(await tx.product.findUnique({ where: { id: productId } }))) throw notFound('product', productId)
  await requireSupplier(tx, body.supplierId)
  const row = await tx.productSupply.create({ data: { ...body, productId, organizationId }, include: named })
  await forgetLevels(tx)
  await announce(tx, { organizationId, shopId: null, topic: 'stock', subjectId: productId })
  return toSupply(row)
}

export async function editSupply(
  tx: Tx,
  actor: Actor,
  productId: string,
  body: BodyOf<typeof supplyRoutes.editProductSupply>,
  version: number,
): Promise<ProductSupply> {
  if (body.supplierId !== undefined) await requireSupplier(tx, body.supplierId)
  const { count } = await tx.productSupply.updateMany({
    where: { productId, version },
    data: { ...given(body), version: { increment: 1 } },
  })
  const row = await tx.productSupply.findUnique({ where: { productId }, include: named })
  if (!row) throw notFound('supply of the product', productId)
  requireVersion(count, row.version)
  await forgetLevels(tx)
  const organizationId = actor.organization.id
  await announce(tx, { organizationId, shopId: null, topic: 'stock', subjectId: productId })
  return toSupply(row)
}

export async function requireSupplier(tx: Tx, id: string): Promise<Supplier> {
  const supplier = await tx.supplier.findUnique({ where: { id } })
  if (!supplier)
    throw invalidField(
      'body.supplierId',
      message('stock-problem.noSupplier'),
      message('stock-problem.addSupplierFix'),
    )
  if (!supplier.active)
    throw invalidField(
      'body.supplierId',
      message('problem.outOfUse', { name: supplier.name }),
      message('stock-problem.anotherSupplierFix'),
    )
  return supplier
}

/** What the body names; an absent field stays as it is. */
function given<Body extends object>(body: Body) {
  return Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined)) as {
    [Key in keyof Body]?: Exclude<Body[Key], undefined>
  }
}

function toSupply({ product, supplier, ...row }: SupplyRow): ProductSupply {
  const { productId, supplierId, unitPriceCents, boxOf, freshDays, version } = row
  return {
    productId,
    productName: product.name,
    supplierId,
    supplierName: supplier.name,
    unitPriceCents,
    boxOf,
    freshDays,
    version,
  }
}
