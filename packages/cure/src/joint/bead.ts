import { requireInRange, requireNotNegative, requirePositive, type Range } from '@clampclock/quantities'

export type BeadShape =
  | { readonly shape: 'round'; readonly diameterMm: number }
  | { readonly shape: 'triangular'; readonly widthMm: number; readonly heightMm: number }

export interface BeadPlan {
  readonly lengthMm: number
  /** Skim coat: width and film; both zero or left out when there is none. */
  readonly skimWidthMm?: number
  readonly skimFilmMm?: number
  /** Left behind in each nozzle. */
  readonly nozzleHoldUpMl?: number
  /** Nozzles that are used; one for each cartridge when not given. */
  readonly nozzles?: number
  /** Share of what is dispensed that is lost (purge, squeeze-out scraped off), 0 to 0.9. */
  readonly wasteShare?: number
  /** Contents of a cartridge. */
  readonly cartridgeMl: number
  /** Width of the flange; with it the squeezed film is given. */
  readonly flangeWidthMm?: number
  /** Glass beads that set the bond line; the film is never thinner. */
  readonly glassBeadMm?: number
  /** Flow from the dispenser; with it the dispensing time is given. */
  readonly flowMlPerMinute?: number
  /** Work time at the panel's temperature; with it and the flow `isTimely` is given. */
  readonly workTimeMinutes?: number
}

export interface BeadAmount {
  readonly beadMl: number
  readonly skimMl: number
  readonly nozzleMl: number
  readonly wasteMl: number
  /** What comes out of the cartridges, all told. */
  readonly totalMl: number
  readonly cartridges: number
  readonly nozzles: number
  /** Length that one cartridge and one nozzle do, waste and skim coat counted, mm. */
  readonly lengthPerCartridgeMm: number
  /** Film once the panels are pressed together: bead area / flange width, never below the glass beads. */
  readonly filmMm: number | null
  /** Share of the bead that is pressed out of the flange, 0 to 1, when the glass beads stop the panels. */
  readonly squeezeOutShare: number | null
  readonly dispensingMinutes: number | null
  /**
   * Whether bead and skim coat are out of the nozzle within the work time. Closing the joint takes time as
   * well.
   */
  readonly isTimely: boolean | null
}

/** Share of what is dispensed that is lost to purge, squeeze-out and the bead's tail. Common practice, no source. */
export const USUAL_WASTE_SHARE = 0.1

const SHARE: Range = { min: 0, max: 0.9 }

/** Area of a bead's section, mm2: pi d^2 / 4 for a round one, w h / 2 for a triangle. @throws RangeError */
export function beadAreaMm2(bead: BeadShape): number {
  if (bead.shape === 'round') {
    return (Math.PI / 4) * requirePositive('diameterMm', bead.diameterMm, 'mm', 'measure the nozzle cut') ** 2
  }
  const width = requirePositive('widthMm', bead.widthMm, 'mm', 'measure the nozzle notch')
  return (width * requirePositive('heightMm', bead.heightMm, 'mm', 'measure the nozzle notch')) / 2
}

/**
 * How much adhesive a joint takes. 1 mm2 of section is 1 mL per metre.
 *
 * @throws RangeError naming the field for lengths, volumes or shares that cannot be.
 */
export function beadAmount(plan: BeadShape & BeadPlan): BeadAmount {
  const { skimWidthMm = 0, skimFilmMm = 0, nozzleHoldUpMl = 0, wasteShare = 0 } = plan
  const areaMm2 = beadAreaMm2(plan)
  const lengthMm = requireNotNegative('lengthMm', plan.lengthMm, 'mm', 'measure the joint')
  requireNotNegative('skimWidthMm', skimWidthMm, 'mm', 'measure the bared metal')
  requireNotNegative('skimFilmMm', skimFilmMm, 'mm', 'give the film of the skim coat')
  requireNotNegative('nozzleHoldUpMl', nozzleHoldUpMl, 'mL', 'give what one nozzle keeps')
  requireInRange('wasteShare', wasteShare, SHARE, 'parts of one', 'give 0.1 for 10 %')
  requirePositive('cartridgeMl', plan.cartridgeMl, 'mL', 'see the cartridge')
  if (plan.nozzles !== undefined && !(Number.isInteger(plan.nozzles) && plan.nozzles >= 1)) {
    throw new RangeError(
      `nozzles is ${plan.nozzles}, but must be a whole number, one or more: count the nozzles`,
    )
  }
  const skimAreaMm2 = skimWidthMm * skimFilmMm
  const beadMl = (areaMm2 * lengthMm) / 1000
  const skimMl = (skimAreaMm2 * lengthMm) / 1000
  const grossMl = (beadMl + skimMl) / (1 - wasteShare)
  const { cartridges, nozzles } = countCartridges(grossMl, nozzleHoldUpMl, plan.cartridgeMl, plan.nozzles)
  const nozzleMl = nozzles * nozzleHoldUpMl
  const usableMl = (plan.cartridgeMl - nozzleHoldUpMl) * (1 - wasteShare)
  return {
    beadMl,
    skimMl,
    nozzleMl,
    wasteMl: grossMl - beadMl - skimMl,
    totalMl: grossMl + nozzleMl,
    cartridges,
    nozzles,
    lengthPerCartridgeMm: (usableMl * 1000) / (areaMm2 + skimAreaMm2),
    ...squeeze(areaMm2, plan),
    ...timing(grossMl, plan),
  }
}

/** Every cartridge needs a nozzle of its own at least, and each nozzle keeps its share back. */
function countCartridges(
  grossMl: number,
  holdUpMl: number,
  cartridgeMl: number,
  nozzles: number | undefined,
): { readonly cartridges: number; readonly nozzles: number } {
  if (holdUpMl >= cartridgeMl) {
    throw new RangeError(
      `nozzleHoldUpMl is ${holdUpMl}, as much as a whole cartridge (${cartridgeMl} mL): check both`,
    )
  }
  if (grossMl === 0) return { cartridges: 0, nozzles: 0 }
  // A joint that takes a cartridge exactly takes one, whatever the last bit of the sum says.
  const ceil = (value: number): number => Math.ceil(value - 1e-9)
  const alone = ceil(grossMl / (cartridgeMl - holdUpMl))
  if (nozzles === undefined || nozzles <= alone) return { cartridges: alone, nozzles: alone }
  return { cartridges: ceil((grossMl + nozzles * holdUpMl) / cartridgeMl), nozzles }
}

function squeeze(areaMm2: number, plan: BeadPlan): Pick<BeadAmount, 'filmMm' | 'squeezeOutShare'> {
  if (plan.flangeWidthMm === undefined) return { filmMm: null, squeezeOutShare: null }
  const width = requirePositive('flangeWidthMm', plan.flangeWidthMm, 'mm', 'measure the flange')
  const glass = requireNotNegative('glassBeadMm', plan.glassBeadMm ?? 0, 'mm', 'see the data sheet')
  const spread = areaMm2 / width
  const filmMm = Math.max(spread, glass)
  // Beads hold the panels apart, pressure brings them down to the beads: what does not fit then comes out.
  const squeezeOutShare = glass > 0 ? Math.max(0, 1 - glass / spread) : 0
  return { filmMm, squeezeOutShare }
}

function timing(grossMl: number, plan: BeadPlan): Pick<BeadAmount, 'dispensingMinutes' | 'isTimely'> {
  if (plan.flowMlPerMinute === undefined) return { dispensingMinutes: null, isTimely: null }
  const dispensingMinutes =
    grossMl / requirePositive('flowMlPerMinute', plan.flowMlPerMinute, 'mL/min', 'time the gun')
  if (plan.workTimeMinutes === undefined) return { dispensingMinutes, isTimely: null }
  requirePositive('workTimeMinutes', plan.workTimeMinutes, 'minutes', 'see the data sheet')
  return { dispensingMinutes, isTimely: dispensingMinutes < plan.workTimeMinutes }
}

export interface CartridgeReach {
  readonly cartridgeMl: number
  readonly bead: BeadShape
  readonly lengthMm: number
}

/**
 * How far one cartridge goes: every cartridge with every bead. Other figures as for `beadAmount`. @throws
 * RangeError
 */
export function cartridgeReach(
  cartridgesMl: readonly number[],
  beads: readonly BeadShape[],
  rest: Omit<BeadPlan, 'lengthMm' | 'cartridgeMl'> = {},
): readonly CartridgeReach[] {
  return cartridgesMl.flatMap((cartridgeMl) =>
    beads.map((bead) => {
      const { lengthPerCartridgeMm } = beadAmount({ ...rest, ...bead, lengthMm: 0, cartridgeMl })
      return { cartridgeMl, bead, lengthMm: lengthPerCartridgeMm }
    }),
  )
}
