import { requireInRange, requireNotNegative, requirePositive, type Range } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C, type DataSheet } from './data-sheet.ts'
import type { ReadyInstant, ThreeLines } from './estimate.ts'
import { integrateArc } from './integrate.ts'
import { minutesToTemperature, panelArcs, peakC, type AirPoint } from './panel-heat.ts'
import { rateCurve } from './rate-curve.ts'
import type { TemperatureArc } from './temperature-arc.ts'

/** What the oven is told, and what the paint asks of the metal. */
export interface BakeProgram {
  /** Air when the vehicle comes in, degC. */
  readonly airStartC: number
  readonly setPointC: number
  /** How fast the air rises; at once when not given. */
  readonly rampCPerMinute?: number
  /** How far the air may be off its set point, degC, 0 to 30. */
  readonly airToleranceC: number
  /** The dwell counts from the slowest panel at this temperature, not from the set point. */
  readonly metalTargetC: number
  readonly dwellMinutes: number
  /** Air it cools down in, degC. */
  readonly coolAirC: number
  /** The vehicle may be touched from here down, degC. */
  readonly touchC: number
}

export interface OvenPanel {
  readonly name: string
  readonly tauMinutes: number
  /** In the air that it cools down in; as in the oven when not given. */
  readonly coolingTauMinutes?: number
}

export interface OvenBond {
  readonly joint: string
  readonly product: string
  readonly sheet: DataSheet
  /** Panel that the joint is on. */
  readonly panel: string
  /** The conservative instant of handling strength. */
  readonly handlingReadyAt: ReadyInstant
  /** Full cure when the bake starts. */
  readonly fullCureProgress: ThreeLines<number>
}

export interface BakeRequest {
  readonly program: BakeProgram
  /** When the vehicle is moved to the oven, ms. */
  readonly moveAtMs: number
  readonly metalStartC: number
  readonly panels: readonly OvenPanel[]
  readonly bonds: readonly OvenBond[]
  /**
   * The vehicle's own limit for its metal, degC, where it has one (battery vehicles: as their maker says).
   */
  readonly vehicleLimitC?: number
}

export type BakeRefusal =
  | {
      readonly kind: 'targetNotReached'
      readonly panel: string
      readonly metalTargetC: number
      readonly coldestAirC: number
    }
  | { readonly kind: 'neverCool'; readonly panel: string; readonly touchC: number; readonly coolAirC: number }
  | {
      readonly kind: 'aboveServiceRange'
      readonly joint: string
      readonly product: string
      readonly peakMetalC: number
      readonly highestC: number
    }
  | {
      readonly kind: 'aboveVehicleLimit'
      readonly panel: string
      readonly peakMetalC: number
      readonly vehicleLimitC: number
    }
  | {
      readonly kind: 'notPastHandling'
      readonly joint: string
      readonly moveAtMs: number
      readonly handlingReadyAt: ReadyInstant
    }

/**
 * A joint that is not fully cured gets warmer than its sheet's highest cure temperature: no credit for the
 * excess.
 */
export interface BakeCaution {
  readonly kind: 'aboveHighestCure'
  readonly joint: string
  readonly peakMetalC: number
  readonly highestCureC: number
}

export interface BakeWindow {
  /** Until the slowest panel is at the metal target, minutes; conservative with the air on its cold side. */
  readonly heatUpMinutes: ThreeLines<number>
  /** Heat-up, dwell and cool-down, minutes; Infinity when it cannot be. */
  readonly windowMinutes: ThreeLines<number>
  /** The fastest panel with the air on its warm side, for as long as the bake may take. */
  readonly peakMetalC: number
  readonly panels: readonly {
    readonly name: string
    readonly heatUpMinutes: number
    readonly peakMetalC: number
  }[]
  /** Full cure when the vehicle is cool: what the bake adds, by the metal's own temperature. */
  readonly bonds: readonly {
    readonly joint: string
    readonly fullCureProgress: ThreeLines<number>
    readonly gained: ThreeLines<number>
  }[]
  /** Empty when the bake may be booked. */
  readonly refusals: readonly BakeRefusal[]
  readonly cautions: readonly BakeCaution[]
}

/**
 * Whether a bake may be booked, how long it takes and what it gives the bonds. Time counts from the metal at
 * temperature. Limits are checked against the warm side of the oven's air for as long as the bake takes on
 * its cold side.
 *
 * @throws RangeError naming the field at fault; a bond on a panel that is not listed.
 */
export function bakeWindow(request: BakeRequest): BakeWindow {
  requireRequest(request)
  const { program, panels, bonds } = request
  const heatUp = (offsetC: number): number =>
    Math.max(...panels.map((panel) => heatUpMinutes(request, panel, offsetC)))
  const tolerance = program.airToleranceC
  const heatUpMinutesByLine = lines((offset) => heatUp(offset * tolerance))
  const longest = heatUpMinutesByLine.conservative + program.dwellMinutes
  const checked = panels.map((panel) => ({
    panel,
    peak: peakC(
      heatArcs(request, panel, tolerance, Number.isFinite(longest) ? longest : LONGEST_BAKE_MINUTES),
    ),
  }))
  return {
    heatUpMinutes: heatUpMinutesByLine,
    windowMinutes: lines((offset) => windowMinutes(request, heatUp(offset * tolerance), offset * tolerance)),
    peakMetalC: Math.max(...checked.map(({ peak }) => peak)),
    panels: checked.map(({ panel, peak }) => ({
      name: panel.name,
      heatUpMinutes: heatUpMinutes(request, panel, 0),
      peakMetalC: peak,
    })),
    bonds: bonds.map((bond) => ({
      joint: bond.joint,
      ...credit(request, bond, heatUpMinutesByLine.expected),
    })),
    refusals: [
      ...panels.flatMap((panel) => programRefusals(request, panel)),
      ...checked.flatMap(({ panel, peak }) => limitRefusals(request, panel, peak)),
      ...bonds.flatMap((bond) => travelRefusals(request, bond)),
    ],
    cautions: checked.flatMap(({ panel, peak }) => cureCautions(request, panel, peak)),
  }
}

/** A bake that cannot end is judged over this long. */
const LONGEST_BAKE_MINUTES = 24 * 60
const DWELL: Range = { min: 0, max: 24 * 60 }

/** Offset of the air: on its warm side +1, on its cold side -1. */
function lines(value: (offset: -1 | 0 | 1) => number): ThreeLines<number> {
  return { earliest: value(1), expected: value(0), conservative: value(-1) }
}

function requireRequest({ program, panels, bonds, metalStartC, vehicleLimitC }: BakeRequest): void {
  for (const field of ['airStartC', 'setPointC', 'metalTargetC', 'coolAirC', 'touchC'] as const) {
    requireInRange(
      `program.${field}`,
      program[field],
      PLAUSIBLE_TEMPERATURE_C,
      'degC',
      'check the bake program',
    )
  }
  requireInRange(
    'program.airToleranceC',
    program.airToleranceC,
    { min: 0, max: 30 },
    'degC',
    'give how far the air may be off',
  )
  requireInRange('program.dwellMinutes', program.dwellMinutes, DWELL, 'minutes', 'see the paint')
  if (program.rampCPerMinute !== undefined) {
    requirePositive(
      'program.rampCPerMinute',
      program.rampCPerMinute,
      'degC/min',
      'leave it out for air that is hot at once',
    )
  }
  requireInRange('metalStartC', metalStartC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'measure the metal')
  if (vehicleLimitC !== undefined)
    requireNotNegative('vehicleLimitC', vehicleLimitC, 'degC', 'as the vehicle maker says')
  if (panels.length === 0)
    throw new RangeError('panels is empty: give at least the slowest and the fastest panel')
  panels.forEach((panel, i) => {
    requirePositive(
      `panels[${i}].tauMinutes`,
      panel.tauMinutes,
      'minutes',
      'see panelTimeConstant or fitTimeConstant',
    )
    if (panel.coolingTauMinutes !== undefined) {
      requirePositive(
        `panels[${i}].coolingTauMinutes`,
        panel.coolingTauMinutes,
        'minutes',
        'leave it out where not known',
      )
    }
  })
  bonds.forEach((bond, i) => {
    if (panels.some((panel) => panel.name === bond.panel)) return
    throw new RangeError(`bonds[${i}].panel is '${bond.panel}', which is not among panels: add that panel`)
  })
}

function airPoints({ program }: BakeRequest, offsetC: number, untilMinutes: number): readonly AirPoint[] {
  const { airStartC, setPointC, rampCPerMinute } = program
  const rampMinutes = rampCPerMinute === undefined ? 0 : Math.max(0, (setPointC - airStartC) / rampCPerMinute)
  const startC = airStartC + offsetC
  const endC = setPointC + offsetC
  if (untilMinutes <= rampMinutes) {
    const share = untilMinutes / rampMinutes
    return [
      { atMinutes: 0, airC: startC },
      { atMinutes: untilMinutes, airC: startC + share * (endC - startC) },
    ]
  }
  const ramp = rampMinutes > 0 ? [{ atMinutes: 0, airC: startC }] : []
  return [...ramp, { atMinutes: rampMinutes, airC: endC }, { atMinutes: untilMinutes, airC: endC }]
}

function heatArcs(
  request: BakeRequest,
  panel: OvenPanel,
  offsetC: number,
  untilMinutes: number,
): readonly TemperatureArc[] {
  return panelArcs(panel.tauMinutes, request.metalStartC, airPoints(request, offsetC, untilMinutes))
}

function heatUpMinutes(request: BakeRequest, panel: OvenPanel, offsetC: number): number {
  if (request.metalStartC >= request.program.metalTargetC) return 0
  return minutesToTemperature(
    heatArcs(request, panel, offsetC, LONGEST_BAKE_MINUTES),
    request.program.metalTargetC,
  )
}

/** Cool-down from where each panel stands at the end of the dwell; the slowest counts. */
function coolDownArcs(
  request: BakeRequest,
  panel: OvenPanel,
  offsetC: number,
  bakeMinutes: number,
): readonly TemperatureArc[] {
  const metalC = endC(heatArcs(request, panel, offsetC, bakeMinutes), request.metalStartC)
  const { coolAirC } = request.program
  const tau = panel.coolingTauMinutes ?? panel.tauMinutes
  return panelArcs(tau, metalC, [
    { atMinutes: 0, airC: coolAirC },
    { atMinutes: LONGEST_BAKE_MINUTES, airC: coolAirC },
  ])
}

function endC(arcs: readonly TemperatureArc[], startC: number): number {
  const last = arcs.at(-1)
  return last === undefined ? startC : last.endC + last.transientC * Math.exp(-last.minutes / last.tauMinutes)
}

function coolDownMinutes(
  request: BakeRequest,
  panel: OvenPanel,
  offsetC: number,
  bakeMinutes: number,
): number {
  const arcs = coolDownArcs(request, panel, offsetC, bakeMinutes)
  const first = arcs[0]!
  if (first.startC + first.transientC <= request.program.touchC) return 0
  return minutesToTemperature(arcs, request.program.touchC)
}

function windowMinutes(request: BakeRequest, heatUp: number, offsetC: number): number {
  const bakeMinutes = heatUp + request.program.dwellMinutes
  if (!Number.isFinite(bakeMinutes)) return Infinity
  return (
    bakeMinutes +
    Math.max(...request.panels.map((panel) => coolDownMinutes(request, panel, offsetC, bakeMinutes)))
  )
}

/**
 * All three lines over the expected length of the bake, so that colder air never gives more credit by taking
 * longer.
 */
function credit(
  request: BakeRequest,
  bond: OvenBond,
  heatUp: number,
): { readonly fullCureProgress: ThreeLines<number>; readonly gained: ThreeLines<number> } {
  const curve = rateCurve(bond.sheet, 'fullCure')
  const panel = request.panels.find((candidate) => candidate.name === bond.panel)!
  const bakeMinutes = heatUp + request.program.dwellMinutes
  const gained = lines((offset) => {
    if (!Number.isFinite(bakeMinutes)) return 0
    const offsetC = offset * request.program.airToleranceC
    const heating = heatArcs(request, panel, offsetC, bakeMinutes)
    const cooling = coolDownArcs(request, panel, offsetC, bakeMinutes)
    const untilCool = coolDownMinutes(request, panel, offsetC, bakeMinutes)
    const heated = heating.reduce((sum, arc) => sum + integrateArc(curve, arc, 0, arc.minutes), 0)
    const cooled = Number.isFinite(untilCool) ? integrateArc(curve, cooling[0]!, 0, untilCool) : 0
    return heated + cooled
  })
  const before = bond.fullCureProgress
  const fullCureProgress = {
    earliest: before.earliest + gained.earliest,
    expected: before.expected + gained.expected,
    conservative: before.conservative + gained.conservative,
  }
  return { fullCureProgress, gained }
}

function programRefusals(request: BakeRequest, panel: OvenPanel): BakeRefusal[] {
  const { program } = request
  const refusals: BakeRefusal[] = []
  const coldestAirC = program.setPointC - program.airToleranceC
  const heatUp = heatUpMinutes(request, panel, -program.airToleranceC)
  if (!Number.isFinite(heatUp)) {
    refusals.push({
      kind: 'targetNotReached',
      panel: panel.name,
      metalTargetC: program.metalTargetC,
      coldestAirC,
    })
  }
  const bake = Number.isFinite(heatUp) ? heatUp + program.dwellMinutes : LONGEST_BAKE_MINUTES
  if (!Number.isFinite(coolDownMinutes(request, panel, program.airToleranceC, bake))) {
    refusals.push({
      kind: 'neverCool',
      panel: panel.name,
      touchC: program.touchC,
      coolAirC: program.coolAirC,
    })
  }
  return refusals
}

function limitRefusals(request: BakeRequest, panel: OvenPanel, peakMetalC: number): BakeRefusal[] {
  const { vehicleLimitC } = request
  const joints = request.bonds
    .filter((bond) => bond.panel === panel.name && peakMetalC > bond.sheet.serviceRangeC.max)
    .map(({ joint, product, sheet }): BakeRefusal => {
      return { kind: 'aboveServiceRange', joint, product, peakMetalC, highestC: sheet.serviceRangeC.max }
    })
  if (vehicleLimitC === undefined || peakMetalC <= vehicleLimitC) return joints
  return [...joints, { kind: 'aboveVehicleLimit', panel: panel.name, peakMetalC, vehicleLimitC }]
}

function travelRefusals({ moveAtMs }: BakeRequest, { joint, handlingReadyAt }: OvenBond): BakeRefusal[] {
  if (handlingReadyAt.kind === 'at' && handlingReadyAt.atMs <= moveAtMs) return []
  return [{ kind: 'notPastHandling', joint, moveAtMs, handlingReadyAt }]
}

function cureCautions(request: BakeRequest, panel: OvenPanel, peakMetalC: number): BakeCaution[] {
  return request.bonds
    .filter((bond) => bond.panel === panel.name && bond.fullCureProgress.conservative < 1)
    .filter((bond) => peakMetalC > bond.sheet.highestCureC)
    .map(({ joint, sheet }) => ({
      kind: 'aboveHighestCure',
      joint,
      peakMetalC,
      highestCureC: sheet.highestCureC,
    }))
}
