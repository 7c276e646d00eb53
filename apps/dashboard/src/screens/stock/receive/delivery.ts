import type { ROUTES } from '@clampclock/contracts'
import type { InputOf } from '../../../api/client.ts'
import { sortReasons, ProblemError } from '../../../api/problem.ts'
import type { ResultOf } from '../../../api/types.ts'
import { todayIn } from '../../../lib/instants.ts'
import { t } from '../../../lib/reader.ts'

export type Receipt = ResultOf<typeof ROUTES.receiveLot>
type ScanAnswer = ResultOf<typeof ROUTES.readScan>
export type ScannedProduct = Extract<ScanAnswer, { kind: 'product' }>
export type ReceiptRequest = InputOf<typeof ROUTES.receiveLot>

/** One lot of a delivery, as the form holds it. */
export interface Line {
  readonly id: string
  readonly productId: string
  readonly lotNumber: string
  readonly precision: 'day' | 'month'
  readonly printedExpiry: string
  readonly cartridges: number | string
  /** Empty where nothing was scanned. */
  readonly gtin: string
  readonly cartridgesPerScan: number | string
  readonly serials: readonly string[]
  /** The last label of it that was scanned; null where it was typed. */
  readonly scanned: ScannedProduct | null
  /** Whether somebody has looked at what the last scan asks. */
  readonly hasLooked: boolean
  /** Why the service refused it, by field and else. */
  readonly refused: Refused | null
}

export interface Refused {
  readonly byField: Readonly<Record<string, string>>
  readonly message: string | null
}

/** A delivery that is being taken in: shop, shelf and note of all of it, and a line for each lot. */
export interface Delivery {
  readonly shopId: string
  readonly locationId: string
  readonly deliveryNote: string
  readonly lines: readonly Line[]
  /** The line that the form shows. */
  readonly currentId: string
  /** Scans that are in, so that one whose answer was lost counts once. */
  readonly scanIds: readonly string[]
  /** What came in last, the newest first. */
  readonly receipts: readonly Receipt[]
}

const REMEMBERED_SCANS = 1000
const FIELDS = ['productId', 'lotNumber', 'printedExpiry', 'cartridges', 'cartridgesPerScan']

export function emptyLine(id: string): Line {
  return {
    id,
    productId: '',
    lotNumber: '',
    precision: 'day',
    printedExpiry: '',
    cartridges: 1,
    gtin: '',
    cartridgesPerScan: 1,
    serials: [],
    scanned: null,
    hasLooked: false,
    refused: null,
  }
}

export function emptyDelivery(shopId: string): Delivery {
  return {
    shopId,
    locationId: '',
    deliveryNote: '',
    lines: [emptyLine('first')],
    currentId: 'first',
    scanIds: [],
    receipts: [],
  }
}

/** Nothing has been scanned or typed into it. */
export function isBlank({ productId, lotNumber, printedExpiry, gtin }: Line): boolean {
  return productId === '' && lotNumber === '' && printedExpiry === '' && gtin === ''
}

/** Whether this very piece, by its serial number, is in the delivery already. */
export function hasSerial({ lines }: Delivery, { gtin, serial }: ScannedProduct): boolean {
  return serial !== null && lines.some((line) => line.gtin === gtin && line.serials.includes(serial))
}

/**
 * The delivery after a scan. The same lot again is one more of it, so that three cartridges are three scans; another lot
 * is another line, and so is a label without a lot: nobody knows which it is. A scan counts once however often it is told,
 * and a serial number however often it is scanned. Lines in `locked` are on their way and stay as they are.
 */
export function withScan(
  delivery: Delivery,
  scanId: string,
  scan: ScannedProduct,
  locked: ReadonlySet<string> = new Set(),
): Delivery {
  if (delivery.scanIds.includes(scanId)) return delivery
  const scanIds = [...delivery.scanIds, scanId].slice(-REMEMBERED_SCANS)
  if (hasSerial(delivery, scan)) return { ...delivery, scanIds }
  const open = delivery.lines.filter(({ id }) => !locked.has(id))
  const same = open.find((line) => isMoreOf(line, scan))
  const blank = open.find(isBlank)
  const line = same ? oneMore(same, scan) : filled(blank?.id ?? scanId, scan)
  const isNew = same === undefined && blank === undefined
  return {
    ...delivery,
    scanIds,
    // What came in before is of the delivery before.
    receipts: [],
    currentId: line.id,
    lines: isNew ? [...delivery.lines, line] : delivery.lines.map((old) => (old.id === line.id ? line : old)),
  }
}

function isMoreOf(line: Line, { gtin, lotNumber, expiry }: ScannedProduct): boolean {
  if (line.gtin !== gtin || lotNumber === null || line.lotNumber !== lotNumber) return false
  return expiry === null || expiryOf(expiry) === line.printedExpiry
}

function oneMore(line: Line, scan: ScannedProduct): Line {
  return {
    ...line,
    cartridges: Number(line.cartridges) + scan.cartridges,
    serials: scan.serial === null ? line.serials : [...line.serials, scan.serial],
    scanned: scan,
    hasLooked: false,
  }
}

function filled(id: string, scan: ScannedProduct): Line {
  return {
    ...emptyLine(id),
    productId: scan.product?.id ?? '',
    lotNumber: scan.lotNumber ?? '',
    precision: scan.expiry?.precision ?? 'day',
    printedExpiry: scan.expiry === null ? (scan.lot?.printedExpiry ?? '') : expiryOf(scan.expiry),
    cartridges: scan.cartridges,
    gtin: scan.gtin,
    cartridgesPerScan: scan.product === null ? scan.cartridges : 1,
    serials: scan.serial === null ? [] : [scan.serial],
    scanned: scan,
  }
}

function expiryOf({ date, precision }: NonNullable<ScannedProduct['expiry']>): string {
  return precision === 'month' ? date.slice(0, 7) : date
}

export function withLine(delivery: Delivery, id: string, change: Partial<Line>): Delivery {
  return {
    ...delivery,
    lines: delivery.lines.map((line) => (line.id === id ? { ...line, ...change } : line)),
  }
}

/** Without a line; what is left is never nothing to write on. */
export function withoutLine(delivery: Delivery, id: string, blankId: string): Delivery {
  const left = delivery.lines.filter((line) => line.id !== id)
  const lines = left.length > 0 ? left : [emptyLine(blankId)]
  const isThere = lines.some((line) => line.id === delivery.currentId)
  return { ...delivery, lines, currentId: isThere ? delivery.currentId : lines[0]!.id }
}

/** A line came in. */
export function withReceipt(delivery: Delivery, id: string, receipt: Receipt, blankId: string): Delivery {
  // Told a second time, since its answer was lost: it is in the list already.
  const others = delivery.receipts.filter(({ receiptId }) => receiptId !== receipt.receiptId)
  return { ...withoutLine(delivery, id, blankId), receipts: [receipt, ...others] }
}

/** A line was refused: each reason beside the field that it names. */
export function refusalOf(error: Error): Refused {
  if (!(error instanceof ProblemError)) return { byField: {}, message: error.message }
  const { byField, others } = sortReasons(error.reasons, FIELDS)
  const isNamed = Object.keys(byField).length > 0 && others.length === 0
  return { byField, message: isNamed ? null : error.message }
}

export interface Question {
  readonly code: string
  readonly message: string
}

/** A printed expiry further ahead has its year mistyped. Common practice, no source. */
const FAR_AHEAD_YEARS = 10

/**
 * What a person should look at before a line is received: what the service asked about a scan, and of what was typed an
 * expiry that is past, or too far ahead to be true.
 *
 * @param today YYYY-MM-DD.
 */
export function questionsOf(line: Line, today = todayIn('utc', Date.now())): readonly Question[] {
  const asked = line.scanned?.questions ?? []
  const { printedExpiry: printed } = line
  if (printed === '') return asked
  // Of a month its last day counts: it is past once the next one has begun.
  const isPast = printed < today.slice(0, printed.length)
  const far = `${Number(today.slice(0, 4)) + FAR_AHEAD_YEARS}${today.slice(4)}`
  if (isPast && !asked.some(({ code }) => code === 'expired'))
    return [{ code: 'expired', message: t('stock.isPastExpiry', { expiry: printed }) }, ...asked]
  return printed > far
    ? [{ code: 'farAhead', message: t('stock.isFarExpiry', { expiry: printed }) }, ...asked]
    : asked
}

/** What keeps a line from being received; undefined when nothing does. */
export function missingIn(line: Line, today?: string): string | undefined {
  if (line.productId === '') return t('stock.chooseItsProduct')
  if (line.lotNumber.trim() === '') return t('stock.giveItsLotNumber')
  if (line.printedExpiry === '') return t('stock.giveItsPrintedExpiry')
  if (!(Number(line.cartridges) >= 1)) return t('stock.sayHowManyCartridges')
  if (questionsOf(line, today).length > 0 && !line.hasLooked) return t('stock.lookAtWhatIsAskedAboutIt')
  return undefined
}

export function toRequest({ shopId, locationId, deliveryNote }: Delivery, line: Line): ReceiptRequest {
  return {
    params: { shopId },
    body: {
      productId: line.productId,
      lotNumber: line.lotNumber,
      printedExpiry: line.precision === 'day' ? { date: line.printedExpiry } : { month: line.printedExpiry },
      cartridges: Number(line.cartridges),
      cartridgesPerScan: Number(line.cartridgesPerScan),
      serials: [...line.serials],
      locationId: locationId === '' ? null : locationId,
      deliveryNote: deliveryNote === '' ? null : deliveryNote,
      gtin: line.gtin === '' ? null : line.gtin,
    },
  }
}
