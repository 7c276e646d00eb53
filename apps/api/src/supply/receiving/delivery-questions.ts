import type { DeliveryQuestion } from '@clampclock/contracts'
import { endOfDayMs, formatDate } from '@clampclock/quantities'
import { SOON_DAYS, urgency } from '@clampclock/stock'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate, writtenAt } from '../../foundation/http/dates.ts'

/** How long the same lot coming in again looks like the same delivery taken in twice. Common practice, no source. */
const LATELY_HOURS = 72

interface Delivered {
  readonly product: { readonly id: string; readonly cartridgeForm: string } | null
  readonly lotNumber: string | null
  readonly printedExpiry: string | null
  readonly gtin: string | null
  readonly serials: readonly string[]
  readonly deliveryNote?: string | null
}

interface Shop {
  readonly id: string
  readonly timeZone: string
}

/** What a person should look at before a delivery is taken in, the gravest first. As much as is known is asked about. */
export async function deliveryQuestions(
  tx: Tx,
  shop: Shop,
  delivered: Delivered,
  now: Date,
): Promise<DeliveryQuestion[]> {
  const { product, lotNumber, printedExpiry } = delivered
  const lot =
    product && lotNumber
      ? await tx.lot.findUnique({ where: { productId_lotNumber: { productId: product.id, lotNumber } } })
      : null
  const questions: DeliveryQuestion[] = []
  const expiry = printedExpiry ?? (lot ? isoDate(lot.printedExpiry) : null)
  if (expiry) questions.push(...expiryQuestions(expiry, shop.timeZone, now))
  if (lot && printedExpiry && isoDate(lot.printedExpiry) !== printedExpiry) {
    questions.push({
      code: 'otherExpiry',
      message: `Lot ${lot.lotNumber} is on file with ${formatDate(isoDate(lot.printedExpiry))}, this label says ${formatDate(printedExpiry)}: one lot has one expiry`,
    })
  }
  if (lot?.holdReason) questions.push({ code: 'onHold', message: `The lot is on hold: ${lot.holdReason}` })
  if (product && !(await anyDispenserTakes(tx, shop.id, product.cartridgeForm))) {
    questions.push({
      code: 'noDispenserFits',
      message: `No dispenser of this shop takes a ${product.cartridgeForm} cartridge: until one does, this is no stock`,
    })
  }
  questions.push(...(await seenBefore(tx, shop, lot?.id, delivered, now)))
  return questions
}

function expiryQuestions(expiry: string, timeZone: string, now: Date): DeliveryQuestion[] {
  switch (urgency(endOfDayMs(expiry, timeZone), now.getTime())) {
    case 'expired':
      return [
        { code: 'expired', message: `The lot has expired already: printed expiry ${formatDate(expiry)}` },
      ]
    case 'soon':
      return [
        {
          code: 'shortDated',
          message: `The lot expires within ${SOON_DAYS} days (${formatDate(expiry)}): is it meant to be so short-dated?`,
        },
      ]
    case 'good':
      return []
  }
}

async function anyDispenserTakes(tx: Tx, shopId: string, cartridgeForm: string): Promise<boolean> {
  const fitting = await tx.dispenser.findFirst({
    where: { shopId, active: true, cartridgeForms: { has: cartridgeForm } },
  })
  return fitting !== null
}

async function seenBefore(
  tx: Tx,
  shop: Shop,
  lotId: string | undefined,
  { gtin, serials, deliveryNote }: Delivered,
  now: Date,
): Promise<DeliveryQuestion[]> {
  const receiptOf = (where: object) =>
    tx.receipt.findFirst({ where, orderBy: { at: 'desc' }, include: { shop: { select: { name: true } } } })
  const when = ({ at, recordedBy }: { at: Date; recordedBy: string }) =>
    `${writtenAt(at, shop.timeZone)} by ${recordedBy}`
  if (gtin && serials.length > 0) {
    const same = await receiptOf({ gtin, serials: { hasSome: [...serials] } })
    if (same)
      return [
        {
          code: 'sameSerial',
          message: `Serial ${same.serials.filter((each) => serials.includes(each)).join(', ')} was received already, in ${same.shop.name}, ${when(same)}: it cannot come twice`,
        },
      ]
  }
  if (!lotId) return []
  if (deliveryNote) {
    const same = await receiptOf({ shopId: shop.id, lotId, deliveryNote })
    if (same)
      return [
        {
          code: 'sameDelivery',
          message: `This lot of delivery note ${deliveryNote} was received already, ${when(same)}: ${piecesOf(same.cartridges)}`,
        },
      ]
  }
  const since = new Date(now.getTime() - LATELY_HOURS * 3_600_000)
  const lately = await receiptOf({ shopId: shop.id, lotId, at: { gte: since } })
  if (!lately || (deliveryNote && lately.deliveryNote && lately.deliveryNote !== deliveryNote)) return []
  return [
    {
      code: 'receivedLately',
      message: `The same lot was received here ${when(lately)}: ${piecesOf(lately.cartridges)}. Is this more of it, or the same delivery again?`,
    },
  ]
}

function piecesOf(count: number): string {
  return count === 1 ? '1 cartridge' : `${count} cartridges`
}
