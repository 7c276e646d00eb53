import { message, type Message } from '@clampclock/messages'
import type { ScanAnswer } from '@clampclock/contracts'
import { readOwnLabel, readScan, type Label } from '@clampclock/stock'
import { DateTime } from 'luxon'
import { shopsWith, type Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { invalidField, type ProblemError } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { selectCartridges, toCartridge, type CartridgeRow } from '../cartridges/cartridge-store.ts'
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
  if (scan.kind === 'fault') {
    const typed = TYPED.test(text.trim()) ? await ofBeginning(tx, actor, text.trim()) : undefined
    if (typed?.length === 1) return { kind: 'cartridge', cartridge: toCartridge(typed[0]!, now) }
    const what = scanSentence(scan.message)
    if (typed && isNoLabel(what)) throw unknownBeginning(text.trim(), typed.length > 1)
    throw invalidField('body.text', what, message('stock-problem.scanAgainFix'))
  }
  return ofProduct(tx, shop, scan, now)
}

/** Short, with a letter in it: what a person types of a code. */
const TYPED = /^(?=.*[A-Za-z])[A-Za-z0-9-]{2,9}$/

/** Of cartridges on hand whose code begins so, in the shops that the actor may see: two at most. */
async function ofBeginning(tx: Tx, actor: Actor, typed: string): Promise<CartridgeRow[]> {
  const letters = typed.toUpperCase().replaceAll('-', '')
  const begins = letters.length > 4 ? `${letters.slice(0, 4)}-${letters.slice(4)}` : letters
  const shops = shopsWith(actor, 'readShop')
  const seen = shops === 'all' ? Prisma.empty : Prisma.sql`and c.shop_id = any (${[...shops]}::uuid[])`
  const where = Prisma.sql`starts_with(c.code, ${begins}) and c.state in ('sealed', 'opened') ${seen}`
  return selectCartridges(tx, where, 2)
}

/** Nothing that a label begins with. */
function isNoLabel({ code, params }: Message): boolean {
  const inside = params['what']
  if (code !== 'stock-problem.labelUnreadable' || typeof inside !== 'object') return false
  return 'message' in inside && inside.message.code === 'stock-problem.noIdentifierAt'
}

function unknownBeginning(text: string, areSeveral: boolean): ProblemError {
  return areSeveral
    ? invalidField(
        'body.text',
        message('stock-problem.severalBegin', { text }),
        message('stock-problem.moreLettersFix'),
      )
    : invalidField(
        'body.text',
        message('stock-problem.noneBegins', { text }),
        message('stock-problem.elsewhereFix'),
      )
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
