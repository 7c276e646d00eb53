import { judgeBake, type BakeLimits, type BakeVerdict } from './bake-limits.ts'
import { requireBakeRequest, type BakeRequest, type OvenBond, type OvenPanel } from './bake-request.ts'
import { coolDownArcs, coolDownMinutes, heatArcs, heatUpMinutes, LONGEST_BAKE_MINUTES } from './bake-run.ts'
import type { ThreeLines } from '../estimate/estimate-figures.ts'
import { integrateArc } from '../temperature/integrate.ts'
import { peakC } from '../temperature/panel-heat.ts'
import { rateCurve } from '../sheet/rate-curve.ts'

/** What is wrong with the program itself, whatever is bonded. */
export type ProgramRefusal =
  | {
      readonly kind: 'targetNotReached'
      readonly panel: string
      readonly metalTargetC: number
      readonly coldestAirC: number
    }
  | { readonly kind: 'neverCool'; readonly panel: string; readonly touchC: number; readonly coolAirC: number }

export type BakeRefusal = ProgramRefusal | BakeVerdict

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
  /** What the metal was held against. */
  readonly limits: BakeLimits
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
  requireBakeRequest(request)
  const { program, panels, bonds } = request
  const heatUp = (offsetC: number): number =>
    Math.max(...panels.map((panel) => heatUpMinutes(request, panel, offsetC)))
  const tolerance = program.airToleranceC
  const heatUpMinutesByLine = lines((offset) => heatUp(offset * tolerance))
  const longest = heatUpMinutesByLine.conservative + program.dwellMinutes
  const bakeMinutes = Number.isFinite(longest) ? longest : LONGEST_BAKE_MINUTES
  const checked = panels.map((panel) => ({
    panel,
    peak: Math.max(request.metalStartC, peakC(heatArcs(request, panel, tolerance, bakeMinutes))),
  }))
  const verdict = judgeBake({
    moveAtMs: request.moveAtMs,
    metal: checked.map(({ panel, peak }) => ({ panel: panel.name, peakC: peak })),
    bonds: bonds.map((bond) => ({ ...bond, serviceRangeC: bond.sheet.serviceRangeC })),
    vehicleLimitC: request.vehicleLimitC ?? null,
  })
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
    limits: verdict.limits,
    refusals: [...panels.flatMap((panel) => programRefusals(request, panel)), ...verdict.refusals],
    cautions: checked.flatMap(({ panel, peak }) => cureCautions(request, panel, peak)),
  }
}

/** Offset of the air: on its warm side +1, on its cold side -1. */
function lines(value: (offset: -1 | 0 | 1) => number): ThreeLines<number> {
  return { earliest: value(1), expected: value(0), conservative: value(-1) }
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

function programRefusals(request: BakeRequest, panel: OvenPanel): ProgramRefusal[] {
  const { program } = request
  const refusals: ProgramRefusal[] = []
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
