import { BakeProgram, type OvenWindow } from '@clampclock/contracts'
import { bakeCurve, bakeWindow, type BakeRequest } from '@clampclock/cure'
import { cautionReason, refusalReason, type BakeReader } from './bake-sentences.ts'

/** Of the fields of a program as the package names them: in our requests it lies under `bakeProgram`. */
export const PROGRAM_FIELDS = Object.fromEntries(
  [
    'airStartC',
    'setPointC',
    'rampCPerMinute',
    'airToleranceC',
    'metalTargetC',
    'dwellMinutes',
    'coolAirC',
    'touchC',
  ].map((name) => [`program.${name}`, `bakeProgram.${name}`]),
)

/**
 * The oven window as it is told over HTTP: times, refusals in sentences, lines to draw.
 *
 * @throws {RangeError} as `bakeWindow` of packages/cure.
 */
export function ovenWindow(request: BakeRequest, reader: BakeReader): OvenWindow {
  const window = bakeWindow(request)
  return {
    mayBake: window.refusals.length === 0,
    heatUpMinutes: finite(window.heatUpMinutes),
    windowMinutes: finite(window.windowMinutes),
    metalStartC: request.metalStartC,
    peakMetalC: window.peakMetalC,
    limits: { vehicleC: window.limits.vehicleC, rated: [...window.limits.rated] },
    panels: window.panels.map(({ name, heatUpMinutes, peakMetalC }, i) => ({
      name,
      tauMinutes: request.panels[i]!.tauMinutes,
      heatUpMinutes: orNull(heatUpMinutes),
      peakMetalC,
    })),
    bonds: window.bonds.map((bond, i) => ({ ...bond, panel: request.bonds[i]!.panel })),
    refusals: window.refusals.map((refusal) => refusalReason(refusal, reader)),
    cautions: window.cautions.map((caution) => cautionReason(caution, reader)),
    points: bakeCurve(request).map(({ metalC, ...point }) => ({ ...point, metalC: [...metalC] })),
  }
}

/** The program as the computation takes it: what was left out is not there at all. */
export function programOf({ rampCPerMinute, ...program }: BakeProgram): BakeRequest['program'] {
  return { ...program, ...(rampCPerMinute === undefined ? {} : { rampCPerMinute }) }
}

/** The program of a bake as the database keeps it. */
export function storedProgram(stored: unknown): BakeProgram | null {
  return stored === null ? null : BakeProgram.parse(stored)
}

const orNull = (minutes: number) => (Number.isFinite(minutes) ? minutes : null)

function finite(lines: { earliest: number; expected: number; conservative: number }) {
  return {
    earliest: orNull(lines.earliest),
    expected: orNull(lines.expected),
    conservative: orNull(lines.conservative),
  }
}
