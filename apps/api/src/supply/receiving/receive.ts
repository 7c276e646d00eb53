import { message } from '@clampclock/messages'
import { randomBytes, randomUUID } from 'node:crypto'
import type { BodyOf, ResultOf, stockRoutes } from '@clampclock/contracts'
import { endOfMonthDate } from '@clampclock/quantities'
import { CODE_LETTERS, effectiveExpiry } from '@clampclock/stock'
import type { Actor } from '../../foundation/permissions/actor.ts'
import { learnGtin } from '../../work/index.ts'
import { Prisma, type Product } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { dateOf, isoDate } from '../../foundation/http/dates.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { countReceipt } from '../replenishment/orders.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { selectCartridges, toCartridge } from '../cartridges/cartridge-store.ts'
import { deliveryQuestions } from './delivery-questions.ts'
import { post } from '../cartridges/ledger.ts'
import { requireLot, toLot } from '../lots/lots.ts'

type Delivery = BodyOf<typeof stockRoutes.receiveLot>

/**
 * Takes a delivery in. What a person should look at is told as warnings and refuses nothing: the goods are there, and
 * the record must say so.
 */
export async function receiveLot(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: Delivery,
  now: Date,
): Promise<ResultOf<typeof stockRoutes.receiveLot>> {
  const shop = await shopById(tx, shopId)
  const product = await tx.product.findUnique({ where: { id: body.productId } })
  if (!product)
    throw invalidField(
      'body.productId',
      message('problem.noProductOfChain'),
      message('stock-problem.addProductFix'),
    )
  if (body.locationId) await requireLocation(tx, shopId, body.locationId, 'body.locationId')
  const isKnown = body.gtin ? await learnGtin(tx, actor, { ...body, gtin: body.gtin }, now) : true
  if (!body.gtin && body.serials.length > 0)
    throw invalidField(
      'body.serials',
      message('stock-problem.serialsNeedGtin'),
      message('stock-problem.sendGtinFix'),
    )

  const { printedExpiry, precision } = readExpiry(body.printedExpiry)
  const warnings = (await deliveryQuestions(tx, shop, { ...body, product, printedExpiry }, now)).map(
    (question) => question.message,
  )
  if (!isKnown) warnings.push(message('stock-problem.gtinNotRemembered'))
  const lot = await findOrAddLot(tx, actor.organization.id, body, printedExpiry, precision)
  const receipt = await tx.receipt.create({
    data: {
      organizationId: actor.organization.id,
      shopId,
      lotId: lot.id,
      cartridges: body.cartridges,
      deliveryNote: body.deliveryNote,
      gtin: body.gtin,
      serials: body.serials,
      at: now,
      recordedBy: actor.name,
    },
  })
  const place = { shopId, timeZone: shop.timeZone, lotId: lot.id, receiptId: receipt.id }
  const ids = await addCartridges(tx, actor, place, { body, product, printedExpiry }, now)
  await countReceipt(tx, actor, { shopId, productId: product.id, cartridges: body.cartridges }, now)
  const rows = await selectCartridges(tx, Prisma.sql`c.id = any (${ids}::uuid[])`, ids.length)
  return {
    receiptId: receipt.id,
    lot: toLot(await requireLot(tx, lot.id), actor),
    cartridges: rows.map((row) => toCartridge(row, now)),
    warnings,
  }
}

async function addCartridges(
  tx: Tx,
  actor: Actor,
  place: { shopId: string; timeZone: string; lotId: string; receiptId: string },
  { body, product, printedExpiry }: { body: Delivery; product: Product; printedExpiry: string },
  now: Date,
): Promise<string[]> {
  const { shopId, timeZone, lotId, receiptId } = place
  const expiry = effectiveExpiry({
    printedExpiry,
    timeZone,
    openedAtMs: null,
    openLifeDays: product.openLifeDays,
    warmStorageLossMs: 0,
  })
  const ids = Array.from({ length: body.cartridges }, () => randomUUID())
  await tx.cartridge.createMany({
    data: ids.map((id) => ({
      id,
      organizationId: actor.organization.id,
      shopId,
      lotId,
      receiptId,
      locationId: body.locationId,
      code: newCode(),
      receivedAt: now,
      warmLossThrough: now,
      expiresAt: new Date(expiry.atMs),
      expiryLimit: expiry.limit,
    })),
  })
  await post(
    tx,
    actor,
    now,
    ids.map((cartridgeId) => ({
      shopId,
      lotId,
      cartridgeId,
      kind: 'received',
      locationId: body.locationId,
      sealedChange: 1,
      openedChange: 0,
      volumeChangeUl: product.cartridgeUl,
      at: now,
      reason: body.reason || message('stock-reason.delivery'),
    })),
  )
  return ids
}

async function findOrAddLot(
  tx: Tx,
  organizationId: string,
  body: Delivery,
  printedExpiry: string,
  precision: 'day' | 'month',
) {
  const known = await tx.lot.findUnique({
    where: { productId_lotNumber: { productId: body.productId, lotNumber: body.lotNumber } },
  })
  if (!known) {
    return tx.lot.create({
      data: {
        organizationId,
        productId: body.productId,
        lotNumber: body.lotNumber,
        printedExpiry: dateOf(printedExpiry),
        expiryPrecision: precision,
      },
    })
  }
  if (isoDate(known.printedExpiry) !== printedExpiry) {
    throw invalidField(
      'body.printedExpiry',
      message('stock-problem.expiryOnFile', {
        given: printedExpiry,
        lot: known.lotNumber,
        known: isoDate(known.printedExpiry),
      }),
      message('stock-problem.lookAtCartridgeFix'),
    )
  }
  return known
}

function readExpiry(expiry: Delivery['printedExpiry']): {
  printedExpiry: string
  precision: 'day' | 'month'
} {
  if ('date' in expiry) return { printedExpiry: expiry.date, precision: 'day' }
  const [year = 0, month = 0] = expiry.month.split('-').map(Number)
  return { printedExpiry: endOfMonthDate(year, month), precision: 'month' }
}

export async function requireLocation(
  tx: Tx,
  shopId: string,
  locationId: string,
  field: string,
): Promise<void> {
  if (!(await tx.storageLocation.findFirst({ where: { id: locationId, shopId } }))) {
    throw invalidField(field, message('problem.noLocation'))
  }
}

function newCode(): string {
  const letters = Array.from(randomBytes(8), (byte) => CODE_LETTERS[byte % 32])
  return `${letters.slice(0, 4).join('')}-${letters.slice(4).join('')}`
}
