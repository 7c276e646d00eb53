import type { Range } from '@clampclock/quantities'
import type { ReadyInstant } from '../estimate/estimate-figures.ts'
import type { HeldState } from '../joint/joint-state.ts'

/** Where a joint stands that must not be baked, whatever its clock says: held, or never closed. */
export type AgainstBake = HeldState | 'open'

/** A bond as a bake is judged by it. */
export interface BakedBond {
  readonly joint: string
  readonly product: string
  readonly serviceRangeC: Range
  /** The panel that it is on; null where the metal of the whole vehicle is one figure. */
  readonly panel: string | null
  /** The conservative instant of handling strength. */
  readonly handlingReadyAt: ReadyInstant
  /** Where the joint stands, when a person has to do something about it first; null or left out: nobody has to. */
  readonly heldBy?: AgainstBake | null
}

export interface BakeQuestion {
  /** When the vehicle is moved to the oven, ms. */
  readonly moveAtMs: number
  /** The warmest that each panel gets, degC; one figure with null for the whole vehicle. */
  readonly metal: readonly { readonly panel: string | null; readonly peakC: number }[]
  readonly bonds: readonly BakedBond[]
  /** As the vehicle's maker says, degC; null where it has none. */
  readonly vehicleLimitC: number | null
}

/** What the metal is held against, degC. */
export interface BakeLimits {
  readonly vehicleC: number | null
  readonly rated: readonly { readonly joint: string; readonly product: string; readonly rangeC: Range }[]
}

export type BakeVerdict =
  | {
      readonly kind: 'aboveVehicleLimit'
      readonly panel: string | null
      readonly peakMetalC: number
      readonly vehicleLimitC: number
    }
  | {
      readonly kind: 'aboveServiceRange'
      readonly joint: string
      readonly product: string
      readonly peakMetalC: number
      readonly highestC: number
    }
  | {
      readonly kind: 'notPastHandling'
      readonly joint: string
      readonly moveAtMs: number
      readonly handlingReadyAt: ReadyInstant
    }
  | { readonly kind: 'held'; readonly joint: string; readonly state: AgainstBake }

/**
 * Whether a vehicle may go into the oven: every bond past handling strength by the move, the metal inside the
 * rated range of every product on it, and inside the vehicle's own limit. The one judge of this, however the
 * metal's temperature was come by. Each joint, panel and number that stands against it is listed.
 */
export function judgeBake({ moveAtMs, metal, bonds, vehicleLimitC }: BakeQuestion): {
  readonly limits: BakeLimits
  readonly refusals: readonly BakeVerdict[]
} {
  const rated = bonds.map(({ joint, product, serviceRangeC }) => ({ joint, product, rangeC: serviceRangeC }))
  return {
    limits: { vehicleC: vehicleLimitC, rated },
    refusals: [
      ...metal.flatMap(({ panel, peakC }): BakeVerdict[] =>
        vehicleLimitC !== null && peakC > vehicleLimitC
          ? [{ kind: 'aboveVehicleLimit', panel, peakMetalC: peakC, vehicleLimitC }]
          : [],
      ),
      ...bonds.flatMap((bond) => rangeVerdicts(bond, metal)),
      ...bonds.flatMap((bond) => travelVerdicts(bond, moveAtMs)),
    ],
  }
}

function rangeVerdicts(
  { joint, product, serviceRangeC, panel }: BakedBond,
  metal: BakeQuestion['metal'],
): BakeVerdict[] {
  const highestC = serviceRangeC.max
  return metal
    .filter((one) => one.panel === panel && one.peakC > highestC)
    .map(({ peakC }) => ({ kind: 'aboveServiceRange', joint, product, peakMetalC: peakC, highestC }))
}

function travelVerdicts(
  { joint, handlingReadyAt, heldBy = null }: BakedBond,
  moveAtMs: number,
): BakeVerdict[] {
  if (heldBy !== null) return [{ kind: 'held', joint, state: heldBy }]
  if (handlingReadyAt.kind === 'at' && handlingReadyAt.atMs <= moveAtMs) return []
  return [{ kind: 'notPastHandling', joint, moveAtMs, handlingReadyAt }]
}
