import type { BakeProgram, OvenWindow, ProblemReason } from '@clampclock/contracts'
import {
  arcC,
  bakeWindow,
  minutesToTemperature,
  panelArcs,
  type AirPoint,
  type BakeCaution,
  type BakeRefusal,
  type BakeRequest,
  type OvenPanel,
  type TemperatureArc,
} from '@clampclock/cure'
import { shopTime } from '../bonds/notes.ts'

/** Where the request has what a refusal is about. */
export interface BakeFields {
  readonly program: string
  readonly moveAt: string
}

/**
 * The oven window as it is told over HTTP: times, refusals in sentences, lines to draw.
 *
 * @throws {RangeError} as `bakeWindow` of packages/cure.
 */
export function ovenWindow(request: BakeRequest, fields: BakeFields, timeZone: string): OvenWindow {
  const window = bakeWindow(request)
  return {
    mayBake: window.refusals.length === 0,
    heatUpMinutes: finite(window.heatUpMinutes),
    windowMinutes: finite(window.windowMinutes),
    peakMetalC: window.peakMetalC,
    panels: window.panels.map(({ name, heatUpMinutes, peakMetalC }, i) => ({
      name,
      tauMinutes: request.panels[i]!.tauMinutes,
      heatUpMinutes: orNull(heatUpMinutes),
      peakMetalC,
    })),
    bonds: window.bonds.map((bond, i) => ({ ...bond, panel: request.bonds[i]!.panel })),
    refusals: window.refusals.map((refusal) => refusalReason(refusal, fields, timeZone)),
    cautions: window.cautions.map((caution) => cautionReason(caution, fields)),
    points: linesOf(request, window.heatUpMinutes.expected),
  }
}

/** The program as the computation takes it: what was left out is not there at all. */
export function programOf({ rampCPerMinute, ...program }: BakeProgram): BakeRequest['program'] {
  return { ...program, ...(rampCPerMinute === undefined ? {} : { rampCPerMinute }) }
}

const orNull = (minutes: number) => (Number.isFinite(minutes) ? minutes : null)

function finite(lines: { earliest: number; expected: number; conservative: number }) {
  return {
    earliest: orNull(lines.earliest),
    expected: orNull(lines.expected),
    conservative: orNull(lines.conservative),
  }
}

function refusalReason(refusal: BakeRefusal, fields: BakeFields, timeZone: string): ProblemReason {
  const c = (value: number) => `${value.toFixed(1)} °C`
  switch (refusal.kind) {
    case 'targetNotReached':
      return {
        code: 'target-not-reached',
        field: `${fields.program}.setPointC`,
        message: `${refusal.panel} never reaches ${c(refusal.metalTargetC)}: the air may be as cold as ${c(refusal.coldestAirC)}`,
        fix: 'Set the oven warmer than the metal target by more than its tolerance',
      }
    case 'neverCool':
      return {
        code: 'never-cool',
        field: `${fields.program}.touchC`,
        message: `${refusal.panel} never cools to ${c(refusal.touchC)} in air of ${c(refusal.coolAirC)}`,
        fix: 'Let it cool in colder air, or wait less long for it',
      }
    case 'aboveServiceRange':
      return {
        code: 'service-range',
        field: `${fields.program}.setPointC`,
        message: `The metal would reach ${c(refusal.peakMetalC)}; ${refusal.product} on ${refusal.joint} is rated to ${c(refusal.highestC)}`,
        fix: 'Bake cooler',
      }
    case 'aboveVehicleLimit':
      return {
        code: 'vehicle-limit',
        field: `${fields.program}.setPointC`,
        message: `${refusal.panel} would reach ${c(refusal.peakMetalC)}; the vehicle's own limit is ${c(refusal.vehicleLimitC)}`,
        fix: 'Bake cooler and longer, as the paint allows',
      }
    case 'notPastHandling': {
      const ready = refusal.handlingReadyAt
      const when = ready.kind === 'at' ? `only ${shopTime(ready.atMs, timeZone)}` : 'not within the forecast'
      return {
        code: 'handling-strength',
        field: fields.moveAt,
        message: `${refusal.joint} reaches handling strength ${when} on the careful estimate; it would be moved ${shopTime(refusal.moveAtMs, timeZone)}`,
        fix: 'Bake later',
      }
    }
  }
}

function cautionReason(caution: BakeCaution, fields: BakeFields): ProblemReason {
  return {
    code: 'above-highest-cure',
    field: `${fields.program}.setPointC`,
    message: `${caution.joint} would get to ${caution.peakMetalC.toFixed(1)} °C before it is fully cured; its sheet credits no heat above ${caution.highestCureC.toFixed(1)} °C`,
  }
}

/** Points of each line, as expected: enough to look smooth on a screen. */
const STEPS = 60
/** Where the bake never ends, this much of it is drawn. */
const DRAWN_MINUTES = 240

function linesOf(request: BakeRequest, heatUpMinutes: number): OvenWindow['points'] {
  const { program, panels, metalStartC } = request
  const ends = Number.isFinite(heatUpMinutes)
  const bakeMinutes = ends ? heatUpMinutes + program.dwellMinutes : DRAWN_MINUTES
  const air = bakeAir(request, bakeMinutes)
  const heating = panels.map((panel) => panelArcs(panel.tauMinutes, metalStartC, air))
  const points = marks(bakeMinutes, air).map((atMinutes) => ({
    atMinutes,
    airC: airAt(air, atMinutes),
    metalC: heating.map((arcs) => along(arcs, atMinutes, metalStartC)),
  }))
  if (!ends) return points

  const hot = heating.map((arcs) => along(arcs, bakeMinutes, metalStartC))
  const cooling = panels.map((panel, i) => coolingArcs(request, panel, hot[i]!))
  const cool = cooling.map((arcs, i) =>
    hot[i]! <= program.touchC ? 0 : minutesToTemperature(arcs, program.touchC),
  )
  const longest = Math.max(...cool)
  const coolMinutes = Number.isFinite(longest) ? longest : DRAWN_MINUTES
  const cooled = marks(coolMinutes, []).map((minutes) => ({
    atMinutes: bakeMinutes + minutes,
    airC: program.coolAirC,
    metalC: cooling.map((arcs, i) => along(arcs, minutes, hot[i]!)),
  }))
  return [...points, ...cooled]
}

function bakeAir({ program }: BakeRequest, untilMinutes: number): AirPoint[] {
  const { airStartC, setPointC, rampCPerMinute } = program
  const rampMinutes = rampCPerMinute === undefined ? 0 : Math.max(0, (setPointC - airStartC) / rampCPerMinute)
  const air = [
    { atMinutes: 0, airC: rampMinutes > 0 ? airStartC : setPointC },
    { atMinutes: Math.min(rampMinutes, untilMinutes), airC: setPointC },
    { atMinutes: untilMinutes, airC: setPointC },
  ]
  if (untilMinutes >= rampMinutes) return air
  const airC = airStartC + ((setPointC - airStartC) * untilMinutes) / rampMinutes
  return [air[0]!, { atMinutes: untilMinutes, airC }]
}

function coolingArcs({ program }: BakeRequest, panel: OvenPanel, startC: number): readonly TemperatureArc[] {
  return panelArcs(panel.coolingTauMinutes ?? panel.tauMinutes, startC, [
    { atMinutes: 0, airC: program.coolAirC },
    { atMinutes: 24 * 60, airC: program.coolAirC },
  ])
}

/** Even steps to the end, and each corner of the air. */
function marks(untilMinutes: number, air: readonly AirPoint[]): number[] {
  if (untilMinutes <= 0) return [0]
  const even = Array.from({ length: STEPS + 1 }, (_, i) => (untilMinutes * i) / STEPS)
  return [...new Set([...even, ...air.map(({ atMinutes }) => atMinutes)])].toSorted((a, b) => a - b)
}

function airAt(air: readonly AirPoint[], atMinutes: number): number {
  const i = air.findIndex((point) => point.atMinutes >= atMinutes)
  const to = air[i] ?? air.at(-1)!
  const from = air[i - 1]
  if (!from || to.atMinutes === from.atMinutes) return to.airC
  return from.airC + ((to.airC - from.airC) * (atMinutes - from.atMinutes)) / (to.atMinutes - from.atMinutes)
}

function along(arcs: readonly TemperatureArc[], atMinutes: number, startC: number): number {
  let start = 0
  for (const arc of arcs) {
    if (atMinutes <= start + arc.minutes) return arcC(arc, atMinutes - start)
    start += arc.minutes
  }
  const last = arcs.at(-1)
  return last ? arcC(last, last.minutes) : startC
}
