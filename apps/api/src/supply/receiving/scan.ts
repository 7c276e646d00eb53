import { message } from '@clampclock/messages'
import type { ScanAnswer } from '@clampclock/contracts'
import { readOwnLabel, readScan, type Label } from '@clampclock/stock'
import { DateTime } from 'luxon'
import type { Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { selectCartridges, toCartridge } from '../cartridges/cartridge-store.ts'
import { deliveryQuestions } from './delivery-questions.ts'
import { scanSentence } from './scan-sentences.ts'
import { maySee } from '../cartridges/may-see.ts'

/**
 * Says what a scanned text is, for somebody who stands in this shop.
 *
 * @throws {ProblemError} `invalid-request` that names what is wrong with the label.
 */
export async function answerScan(
  tx: Tx,
  actor: Actor,
  shopId: string,
  text: string,
  now: Date,
): Promise<ScanAnswer> {
  const code = readOwnLabel(text)
  if (code) return ofOwnLabel(tx, actor, code, now)

  const shop = await shopById(tx, shopId)
  const year = DateTime.fromJSDate(now, { zone: shop.timeZone }).year
  const scan = readScan(text, year)
  if (scan.kind === 'fault')
    throw invalidField('body.text', scanSentence(scan.message), message('stock-problem.scanAgainFix'))
  return ofProduct(tx, shop, scan, now)
}

async function ofOwnLabel(tx: Tx, actor: Actor, code: string, now: Date): Promise<ScanAnswer> {
  const [row] = await selectCartridges(tx, Prisma.sql`c.code = ${code}`, 1)
  if (!row || !(await maySee(tx, actor, row)))
    throw invalidField('body.text', message('stock-problem.noCartridgeOfCode', { code }))
  return { kind: 'cartridge', cartridge: toCartridge(row, now) }
}

async function ofProduct(
  tx: Tx,
  shop: { id: string; timeZone: string },
  label: Label,
  now: Date,
): Promise<ScanAnswer> {
  const known = await tx.productGtin.findFirst({ where: { gtin: label.gtin }, include: { product: true } })
  const product = known?.product ?? null
  const lot =
    product && label.lotNumber
      ? await tx.lot.findUnique({
          where: { productId_lotNumber: { productId: product.id, lotNumber: label.lotNumber } },
        })
      : null
  const { gtin, lotNumber, serial } = label
  return {
    kind: 'product',
    gtin,
    product: product && { id: product.id, name: product.name, cartridgeForm: product.cartridgeForm },
    cartridges: label.count ?? known?.cartridges ?? 1,
    lotNumber,
    lot: lot && { id: lot.id, printedExpiry: isoDate(lot.printedExpiry) },
    expiry: label.expiry === null ? null : { date: label.expiry, precision: label.expiryPrecision },
    serial,
    questions: await deliveryQuestions(
      tx,
      shop,
      { product, lotNumber, printedExpiry: label.expiry, gtin, serials: serial ? [serial] : [] },
      now,
    ),
  }
}
