import { celsiusToKelvin, requireInRange, requirePositive, type Range } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C } from '../sheet/data-sheet.ts'
import type { Material } from './materials.ts'
import { arcC, crossingOf, followingArc, turningPoint, type TemperatureArc } from './temperature-arc.ts'

/** From this Biot number on a panel's inside lags its surface, and one temperature for all of it is wrong. */
export const HIGHEST_BIOT = 0.1

/** W/(m2 K). Stefan-Boltzmann constant, CODATA 2018. */
const STEFAN_BOLTZMANN = 5.670374419e-8

/** Layers from one side to the other: sheet, adhesive, sheet. */
export interface Panel {
  readonly layers: readonly { readonly material: Material; readonly thicknessMm: number }[]
  /** Sides that the air reaches. */
  readonly sidesHeated: 1 | 2
  /**
   * Still air 2 to 25, moving air 25 to 250 W/(m2 K) (Cengel; Incropera table 1.1); radiation comes on top.
   */
  readonly heatTransferWPerM2K: number
}

export type TimeConstant =
  | { readonly kind: 'lumped'; readonly tauMinutes: number; readonly biot: number }
  /** Too thick or too poor a conductor for the air it stands in: measure the metal instead. */
  | { readonly kind: 'notLumped'; readonly biot: number; readonly highestBiot: number }

const COEFFICIENT: Range = { min: 0.1, max: 1000 }

/**
 * Time constant of a panel in air: tau = sum(rho c s) / (n h), with the Biot number h sum(s/k) / n
 * (characteristic length V/A). Braces, clamps and hidden mass make a real panel slower: a lower bound.
 *
 * @throws RangeError for a thickness that is not above zero, no layers, or a coefficient outside 0.1 to 1000
 * W/(m2 K).
 */
export function panelTimeConstant(panel: Panel): TimeConstant {
  const { layers, sidesHeated, heatTransferWPerM2K: h } = panel
  if (layers.length === 0) throw new RangeError('layers is empty: give at least one layer of the panel')
  if (sidesHeated !== 1 && sidesHeated !== 2)
    throw new RangeError(`sidesHeated is ${String(sidesHeated)}: give 1 or 2`)
  requireInRange('heatTransferWPerM2K', h, COEFFICIENT, 'W/(m2 K)', 'still air is about 10, an oven about 25')
  let capacity = 0
  let resistance = 0
  for (const [i, { material, thicknessMm }] of layers.entries()) {
    const thicknessM =
      requirePositive(`layers[${i}].thicknessMm`, thicknessMm, 'mm', 'measure the sheet') / 1000
    capacity += material.densityKgPerM3 * material.heatCapacityJPerKgK * thicknessM
    resistance += thicknessM / material.conductivityWPerMK
  }
  const biot = (h * resistance) / sidesHeated
  if (biot >= HIGHEST_BIOT) return { kind: 'notLumped', biot, highestBiot: HIGHEST_BIOT }
  return { kind: 'lumped', tauMinutes: capacity / (sidesHeated * h) / 60, biot }
}

/**
 * Radiation as a heat-transfer coefficient, W/(m2 K), to be added to that of the air: emissivity sigma (Ts +
 * Tw) (Ts^2 + Tw^2). It changes with the surface's temperature; taking it half way is good to about 1 % of
 * the heating time.
 *
 * @param emissivity 0 to 1. @throws RangeError
 */
export function radiativeCoefficient(emissivity: number, surfaceC: number, surroundingsC: number): number {
  requireInRange(
    'emissivity',
    emissivity,
    { min: 0, max: 1 },
    'parts of one',
    'bare metal is about 0.1, paint about 0.9',
  )
  const surfaceK = celsiusToKelvin(
    requireInRange('surfaceC', surfaceC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'check it'),
  )
  const wallsK = celsiusToKelvin(
    requireInRange('surroundingsC', surroundingsC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'check it'),
  )
  return emissivity * STEFAN_BOLTZMANN * (surfaceK + wallsK) * (surfaceK ** 2 + wallsK ** 2)
}

/**
 * Air at an instant, minutes from the start; between points it goes in a straight line. Two points at one
 * instant are a step.
 */
export interface AirPoint {
  readonly atMinutes: number
  readonly airC: number
}

/**
 * A panel's answer to air that goes in straight lines, exact: one arc for each leg.
 *
 * @throws RangeError for fewer than two points, points out of order, or a time constant that is not above
 * zero.
 */
export function panelArcs(
  tauMinutes: number,
  startC: number,
  air: readonly AirPoint[],
): readonly TemperatureArc[] {
  requirePositive('tauMinutes', tauMinutes, 'minutes', 'see panelTimeConstant')
  requireInRange('startC', startC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'measure the panel')
  if (air.length < 2)
    throw new RangeError(`air has ${air.length} points: give its temperature at two instants at least`)
  const arcs: TemperatureArc[] = []
  let panelC = startC
  for (const [i, to] of air.entries()) {
    requireInRange(`air[${i}].airC`, to.airC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'check the air temperature')
    const from = air[i - 1]
    if (from === undefined) continue
    if (!(to.atMinutes >= from.atMinutes)) {
      throw new RangeError(
        `air[${i}].atMinutes is ${to.atMinutes}, before the point ahead of it: sort them by time`,
      )
    }
    if (to.atMinutes === from.atMinutes) continue
    const arc = followingArc(to.atMinutes - from.atMinutes, panelC, from.airC, to.airC, tauMinutes)
    arcs.push(arc)
    panelC = arcC(arc, arc.minutes)
  }
  return arcs
}

/**
 * Minutes from the start until the panel first is at `targetC`; Infinity when the arcs never bring it there.
 */
export function minutesToTemperature(arcs: readonly TemperatureArc[], targetC: number): number {
  let start = 0
  for (const arc of arcs) {
    const turn = turningPoint(arc, 0, arc.minutes)
    const cuts = turn === undefined ? [0, arc.minutes] : [0, turn, arc.minutes]
    for (let i = 1; i < cuts.length; i++) {
      const [from, to] = [cuts[i - 1]!, cuts[i]!]
      const [a, b] = [arcC(arc, from), arcC(arc, to)]
      if (a === targetC) return start + from
      if ((targetC - a) * (targetC - b) <= 0) return start + crossingOf(arc, from, to, targetC)
    }
    start += arc.minutes
  }
  return Infinity
}

/** Highest temperature on the arcs, degC. */
export function peakC(arcs: readonly TemperatureArc[]): number {
  return Math.max(
    ...arcs.flatMap((arc) => {
      const turn = turningPoint(arc, 0, arc.minutes)
      return [arcC(arc, 0), arcC(arc, arc.minutes), ...(turn === undefined ? [] : [arcC(arc, turn)])]
    }),
  )
}
