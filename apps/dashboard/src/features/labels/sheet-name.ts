import { formatNumber } from '../../lib/measures.ts'
import { t, together } from '../../lib/reader.ts'
interface Sheet {
  readonly widthMm: number
  readonly columns: number
  readonly rows: number
  readonly labelWidthMm: number
  readonly labelHeightMm: number
}

/** A sheet by its geometry, as stationers print it on the box: `A4, 3 × 8, 70 × 36 mm`. */
export function sheetName({ widthMm, columns, rows, labelWidthMm, labelHeightMm }: Sheet): string {
  const size = together(`${formatNumber(labelWidthMm)} × ${formatNumber(labelHeightMm)} mm`)
  if (columns * rows === 1) return t('features.labelPrinter', { size })
  return `${widthMm === 210 ? 'A4' : t('features.usLetter')}, ${columns} × ${rows}, ${size}`
}

/**
 * The sheet that is proposed until somebody has chosen one: in US Letter where the shop reckons in °F or stands in America,
 * else in A4. Common practice, no source.
 */
export function usualSheet(
  shop: { readonly temperatureUnit: string; readonly timeZone: string } | undefined,
): string {
  const isLetter = shop?.temperatureUnit === 'F' || shop?.timeZone.startsWith('America/') === true
  return isLetter ? 'letter-3x10' : 'a4-3x8'
}
