import { toldOf } from '../../foundation/words/kept.ts'
import { written, param } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { DeliveryQuestion } from '@clampclock/contracts'
import { endOfDayMs } from '@clampclock/quantities'
import { SOON_DAYS, urgency } from '@clampclock/stock'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate } from '../../foundation/http/dates.ts'

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
      message: message('stock-problem.otherExpiry', {
        lot: lot.lotNumber,
        known: { day: isoDate(lot.printedExpiry) },
        printed: { day: printedExpiry },
      }),
    })
  }
  if (lot?.holdReason)
    questions.push({
      code: 'onHold',
      message: message('stock-problem.lotIsHeld', { reason: param(toldOf(lot.holdReason, lot.holdSaid)) }),
    })
  if (product && !(await anyDispenserTakes(tx, shop.id, product.cartridgeForm))) {
    questions.push({
      code: 'noDispenserFits',
      message: message('stock-problem.noDispenserTakes', { form: product.cartridgeForm }),
    })
  }
  questions.push(...(await seenBefore(tx, shop, lot?.id, delivered, now)))
  return questions
}

function expiryQuestions(expiry: string, timeZone: string, now: Date): DeliveryQuestion[] {
  switch (urgency(endOfDayMs(expiry, timeZone), now.getTime())) {
    case 'expired':
      return [{ code: 'expired', message: message('stock-problem.lotExpired', { day: { day: expiry } }) }]
    case 'soon':
      return [
        {
          code: 'shortDated',
          message: message('stock-problem.lotShortDated', { days: SOON_DAYS, day: { day: expiry } }),
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
  if (gtin && serials.length > 0) {
    const same = await receiptOf({ gtin, serials: { hasSome: [...serials] } })
    if (same)
      return [
        {
          code: 'sameSerial',
          message: message('stock-problem.sameSerial', {
            serial: { list: same.serials.filter((each) => serials.includes(each)), join: 'plain' },
            shop: same.shop.name,
            at: written(same.at, shop.timeZone),
            by: same.recordedBy,
          }),
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
          message: message('stock-problem.sameDelivery', {
            note: deliveryNote,
            at: written(same.at, shop.timeZone),
            by: same.recordedBy,
            pieces: same.cartridges,
          }),
        },
      ]
  }
  const since = new Date(now.getTime() - LATELY_HOURS * 3_600_000)
  const lately = await receiptOf({ shopId: shop.id, lotId, at: { gte: since } })
  if (!lately || (deliveryNote && lately.deliveryNote && lately.deliveryNote !== deliveryNote)) return []
  return [
    {
      code: 'receivedLately',
      message: message('stock-problem.receivedLately', {
        at: written(lately.at, shop.timeZone),
        by: lately.recordedBy,
        pieces: lately.cartridges,
      }),
    },
  ]
}
