import { cartridgeReach, USUAL_WASTE_SHARE, type BeadShape } from '@clampclock/cure'
import { mmToInches } from '@clampclock/quantities'
import { formatLength, formatNumber } from '../../lib/measures.ts'
import type { Product } from '../../api/types.ts'
import { t, reader, together } from '../../lib/reader.ts'

/** Nozzle cuts and notches that a body shop uses; common practice, no source. */
const BEADS: readonly BeadShape[] = [
  ...[3, 4, 5, 6, 8, 10].map((diameterMm) => ({ shape: 'round', diameterMm }) as const),
  { shape: 'triangular', widthMm: 8, heightMm: 10 },
  { shape: 'triangular', widthMm: 10, heightMm: 12 },
]

/** Widths of bared metal that get a skim coat as thick as the glass beads; 0 for the bead alone. */
export const SKIM_WIDTHS_MM = [0, 12, 20, 30] as const

export interface ReachRow {
  readonly bead: BeadShape
  /** Metres of joint from one cartridge and one nozzle, in the order of `SKIM_WIDTHS_MM`. */
  readonly metres: readonly number[]
}

/** How far one cartridge goes, for each bead and skim coat: waste and what stays in the nozzle taken off. */
export function reachRows({
  cartridgeMl,
  nozzleHoldUpMl,
  glassBeadMm,
}: Pick<Product, 'cartridgeMl' | 'nozzleHoldUpMl' | 'glassBeadMm'>): readonly ReachRow[] {
  const columns = SKIM_WIDTHS_MM.map((skimWidthMm) =>
    cartridgeReach([cartridgeMl], BEADS, {
      skimWidthMm,
      skimFilmMm: glassBeadMm,
      nozzleHoldUpMl,
      wasteShare: USUAL_WASTE_SHARE,
    }),
  )
  return BEADS.map((bead, row) => ({
    bead,
    metres: columns.map((column) => (column[row]?.lengthMm ?? 0) / 1000),
  }))
}

/** `Round, 5 mm` as it is cut. */
export function beadName(bead: BeadShape): string {
  return bead.shape === 'round'
    ? t('products.round', { diameter: formatLength(bead.diameterMm) })
    : t('products.triangle', { width: formatLength(bead.widthMm), height: formatLength(bead.heightMm) })
}

/** Metres, or feet for who measures in inches. Rounded down: nobody should run short on the last hand's breadth. */
export function metresText(metres: number): string {
  const isMetric = reader().length === 'mm'
  const [value, digits] = isMetric ? [metres, 2] : [mmToInches(metres * 1000) / 12, 1]
  const down = Math.floor(value * 10 ** digits + 1e-9) / 10 ** digits
  return together(`${formatNumber(down, digits)} ${isMetric ? 'm' : 'ft'}`)
}
