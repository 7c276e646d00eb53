import type { ROUTES } from '@clampclock/contracts'
import type { ResultOf } from '../../api/types.ts'

export type Receipt = ResultOf<typeof ROUTES.receiveLot>
type ScanAnswer = ResultOf<typeof ROUTES.readScan>
export type ScannedProduct = Extract<ScanAnswer, { kind: 'product' }>

/** The receive form as it stands. */
export interface ReceiveValues {
  readonly shopId: string
  readonly productId: string
  readonly lotNumber: string
  readonly precision: 'day' | 'month'
  readonly printedExpiry: string
  readonly cartridges: number | string
  readonly locationId: string
  readonly deliveryNote: string
  /** Empty where nothing was scanned. */
  readonly gtin: string
  readonly cartridgesPerScan: number
  readonly serials: readonly string[]
}

/** What is filled in anew for each lot; shop, shelf and delivery note stay for the next box. */
export const NEXT_BOX = {
  productId: '',
  lotNumber: '',
  printedExpiry: '',
  cartridges: 1,
  gtin: '',
  cartridgesPerScan: 1,
  serials: [],
} as const

/**
 * The form after a scan. The same lot again is one more of it, so that three cartridges are three scans; a serial number
 * counts once however often it is scanned.
 */
export function filledBy(values: ReceiveValues, scan: ScannedProduct): ReceiveValues {
  const serials = scan.serial === null ? [] : [scan.serial]
  const isMore = values.gtin === scan.gtin && values.lotNumber !== '' && values.lotNumber === scan.lotNumber
  if (isMore) {
    if (serials.some((serial) => values.serials.includes(serial))) return values
    return {
      ...values,
      cartridges: Number(values.cartridges) + scan.cartridges,
      serials: [...values.serials, ...serials],
    }
  }
  const { expiry } = scan
  const precision = expiry?.precision ?? 'day'
  return {
    ...values,
    productId: scan.product?.id ?? '',
    lotNumber: scan.lotNumber ?? '',
    precision,
    printedExpiry:
      expiry === null
        ? (scan.lot?.printedExpiry ?? '')
        : precision === 'month'
          ? expiry.date.slice(0, 7)
          : expiry.date,
    cartridges: scan.cartridges,
    gtin: scan.gtin,
    cartridgesPerScan: scan.product === null ? scan.cartridges : values.cartridgesPerScan,
    serials,
  }
}
