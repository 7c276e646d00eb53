import type { BodyOf, Chemistry, Product, productRoutes, ResultOf } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma, Product as ProductRow } from '../../generated/prisma/client.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { toMl, toUl } from '../../foundation/database/volumes.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import { sheetApproved } from './events.ts'
import { addSheet, type SheetFigures } from './add-sheet.ts'
import { approveSheet, rejectSheet } from './approval.ts'
import { keepDocument, type toPdf } from './documents.ts'
import { newestFirst, sheetOn, toSheet, withPoints } from './sheets.ts'

type WithSheets = ProductRow & {
  productSheets: Prisma.ProductSheetGetPayload<{ include: typeof withPoints }>[]
}

const sheets = {
  include: withPoints,
  orderBy: newestFirst,
} satisfies Prisma.Product$productSheetsArgs

export async function listProducts(tx: Tx, now: Date): Promise<Product[]> {
  const rows = await tx.product.findMany({
    include: { productSheets: sheets },
    orderBy: { name: 'asc' },
  })
  return rows.map((row) => toProduct(row, now))
}

export async function getProduct(
  tx: Tx,
  id: string,
  now: Date,
): Promise<ResultOf<typeof productRoutes.getProduct>> {
  const row = await productRow(tx, id)
  return { ...toProduct(row, now), sheets: row.productSheets.map(toSheet) }
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
    await addSheet(
      tx,
      { organizationId, recordedBy: actor.id, name: actor.name },
      product.id,
      body.sheet,
      'body.sheet.',
      now,
    )
  await announce(tx, { organizationId, shopId: null, topic: 'products', subjectId: product.id })
  return toProduct(await productRow(tx, product.id), now)
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
  await addSheet(
    tx,
    { organizationId, recordedBy: actor.id, name: actor.name },
    productId,
    figures,
    'body.',
    now,
  )
  await announce(tx, { organizationId, shopId: null, topic: 'products', subjectId: productId })
  return toProduct(await productRow(tx, productId), now)
}

interface WhichSheet {
  readonly productId: string
  readonly sheetId: string
}

/**
 * Somebody else has compared the figures with the print; where nobody else could, the one who recorded them has on another
 * day.
 *
 * @throws {ProblemError} `wrong-state` for a revision that is decided on already, or one's own.
 */
export async function approveProductSheet(
  tx: Tx,
  actor: Actor,
  which: WhichSheet,
  secondLook: boolean,
  now: Date,
): Promise<Product> {
  await approveSheet(tx, actor, await lockedSheet(tx, which), secondLook, now)
  const { productId } = which
  await tell(tx, sheetApproved, { organizationId: actor.organization.id, productId, now })
  return changed(tx, actor, which, now)
}

/** @throws {ProblemError} `wrong-state` for a revision that is decided on already. */
export async function rejectProductSheet(
  tx: Tx,
  actor: Actor,
  which: WhichSheet,
  reason: string,
  now: Date,
): Promise<Product> {
  await rejectSheet(tx, actor, await lockedSheet(tx, which), reason, now)
  return changed(tx, actor, which, now)
}

/** Keeps the maker's document with a revision. */
export async function addSheetDocument(
  tx: Tx,
  actor: Actor,
  which: WhichSheet,
  document: ReturnType<typeof toPdf>,
  now: Date,
): Promise<Product> {
  await keepDocument(tx, actor, await lockedSheet(tx, which), document, now)
  return changed(tx, actor, which, now)
}

/** Two who decide on one product at once do so one after the other. */
async function lockedSheet(tx: Tx, { productId, sheetId }: WhichSheet) {
  await tx.$queryRaw`select 1 from product where id = ${productId}::uuid for no key update`
  const { productSheets } = await productRow(tx, productId)
  const sheet = productSheets.find(({ id }) => id === sheetId)
  if (!sheet) throw notFound('data sheet', sheetId)
  return sheet
}

async function changed(tx: Tx, actor: Actor, { productId }: WhichSheet, now: Date): Promise<Product> {
  const organizationId = actor.organization.id
  await announce(tx, { organizationId, shopId: null, topic: 'products', subjectId: productId })
  return toProduct(await productRow(tx, productId), now)
}

async function productRow(tx: Tx, id: string): Promise<WithSheets> {
  const row = await tx.product.findUnique({ where: { id }, include: { productSheets: sheets } })
  if (!row) throw notFound('product', id)
  return row
}

/** Which revision counts is asked of each shop's own day where it is used; the catalogue shows that of UTC. */
function toProduct(row: WithSheets, now: Date): Product {
  const counts = sheetOn(row.productSheets, now, 'utc')
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
    sheet: counts ? toSheet(counts) : null,
    waitingSheets: row.productSheets.filter(({ decision }) => decision === null).length,
    retiredAt: row.retiredAt,
  }
}
