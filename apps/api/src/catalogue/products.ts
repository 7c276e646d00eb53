import type { BodyOf, Chemistry, Product, productRoutes, ResultOf } from '@clampclock/contracts'
import type { Actor } from '../access/actor.ts'
import type { Tx } from '../database/database.ts'
import type { Prisma, Product as ProductRow } from '../generated/prisma/client.ts'
import { notFound } from '../http/problem-error.ts'
import { announce } from '../live/hub.ts'
import { toMl, toUl } from '../stock/volumes.ts'
import {
  addSheet,
  newestFirst,
  toSheet,
  withPoints,
  type SheetFigures,
  type SheetWithPoints,
} from './sheets.ts'

type WithSheets = ProductRow & { productSheets: SheetWithPoints[] }

const sheets = {
  include: withPoints,
  orderBy: newestFirst,
} satisfies Prisma.Product$productSheetsArgs

export async function listProducts(tx: Tx): Promise<Product[]> {
  const rows = await tx.product.findMany({
    include: { productSheets: { ...sheets, take: 1 } },
    orderBy: { name: 'asc' },
  })
  return rows.map(toProduct)
}

export async function getProduct(tx: Tx, id: string): Promise<ResultOf<typeof productRoutes.getProduct>> {
  const row = await productRow(tx, id)
  return { ...toProduct(row), sheets: row.productSheets.map(toSheet) }
}

export async function addProduct(
  tx: Tx,
  actor: Actor,
  body: BodyOf<typeof productRoutes.addProduct>,
  now: Date,
): Promise<Product> {
  const organizationId = actor.organization.id
  const product = await tx.product.create({
    data: {
      organizationId,
      name: body.name,
      chemistry: body.chemistry,
      mixRatio: body.mixRatio,
      cartridgeForm: body.cartridgeForm,
      cartridgeUl: toUl(body.cartridgeMl),
      openLifeDays: body.openLifeDays,
      storageMinC: body.storageRangeC.min,
      storageMaxC: body.storageRangeC.max,
      labelStorageC: body.labelStorageC,
      storageQ10: body.storageQ10,
      nozzleHoldUpUl: toUl(body.nozzleHoldUpMl),
      glassBeadMm: body.glassBeadMm,
      toleratesPrimer: body.toleratesPrimer,
      createdAt: now,
    },
  })
  if (body.sheet)
    await addSheet(tx, { organizationId, recordedBy: actor.id }, product.id, body.sheet, 'body.sheet.', now)
  await announce(tx, { organizationId, shopId: null, topic: 'products', subjectId: product.id })
  return toProduct(await productRow(tx, product.id))
}

export async function addProductSheet(
  tx: Tx,
  actor: Actor,
  productId: string,
  figures: SheetFigures,
  now: Date,
): Promise<Product> {
  await productRow(tx, productId)
  const organizationId = actor.organization.id
  await addSheet(tx, { organizationId, recordedBy: actor.id }, productId, figures, 'body.', now)
  await announce(tx, { organizationId, shopId: null, topic: 'products', subjectId: productId })
  return toProduct(await productRow(tx, productId))
}

async function productRow(tx: Tx, id: string): Promise<WithSheets> {
  const row = await tx.product.findUnique({ where: { id }, include: { productSheets: sheets } })
  if (!row) throw notFound('product', id)
  return row
}

function toProduct(row: WithSheets): Product {
  const [newest] = row.productSheets
  return {
    id: row.id,
    name: row.name,
    chemistry: row.chemistry as Chemistry,
    mixRatio: row.mixRatio,
    cartridgeForm: row.cartridgeForm,
    cartridgeMl: toMl(row.cartridgeUl),
    openLifeDays: row.openLifeDays,
    storageRangeC: { min: row.storageMinC, max: row.storageMaxC },
    labelStorageC: row.labelStorageC,
    storageQ10: row.storageQ10,
    nozzleHoldUpMl: toMl(row.nozzleHoldUpUl),
    glassBeadMm: row.glassBeadMm,
    toleratesPrimer: row.toleratesPrimer,
    sheet: newest ? toSheet(newest) : null,
    retiredAt: row.retiredAt,
  }
}
