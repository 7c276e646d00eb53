import type { BakeRequest, OvenPanel } from './bake-request.ts'
import { minutesToTemperature, panelArcs, type AirPoint } from '../temperature/panel-heat.ts'
import type { TemperatureArc } from '../temperature/temperature-arc.ts'

/** A bake that cannot end is judged over this long. */
export const LONGEST_BAKE_MINUTES = 24 * 60

/** The oven's air, `offsetC` off what it is told, until this many minutes after the move. */
export function airPoints(
  { program }: BakeRequest,
  offsetC: number,
  untilMinutes: number,
): readonly AirPoint[] {
  const { airStartC, setPointC, rampCPerMinute } = program
  const rampMinutes = rampCPerMinute === undefined ? 0 : Math.max(0, (setPointC - airStartC) / rampCPerMinute)
  const startC = airStartC + offsetC
  const endC = setPointC + offsetC
  if (untilMinutes < rampMinutes) {
    const share = untilMinutes / rampMinutes
    return [
      { atMinutes: 0, airC: startC },
      { atMinutes: untilMinutes, airC: startC + share * (endC - startC) },
    ]
  }
  const ramp = rampMinutes > 0 ? [{ atMinutes: 0, airC: startC }] : []
  return [...ramp, { atMinutes: rampMinutes, airC: endC }, { atMinutes: untilMinutes, airC: endC }]
}

/** A panel in that air; no arc at all for a bake of no length. */
export function heatArcs(
  request: BakeRequest,
  panel: OvenPanel,
  offsetC: number,
  untilMinutes: number,
): readonly TemperatureArc[] {
  return panelArcs(panel.tauMinutes, request.metalStartC, airPoints(request, offsetC, untilMinutes))
}

/** Until the panel is at the metal target; Infinity when it never is. */
export function heatUpMinutes(request: BakeRequest, panel: OvenPanel, offsetC: number): number {
  if (request.metalStartC >= request.program.metalTargetC) return 0
  return minutesToTemperature(
    heatArcs(request, panel, offsetC, LONGEST_BAKE_MINUTES),
    request.program.metalTargetC,
  )
}

/** Cool-down from where the panel stands when the bake ends. */
export function coolDownArcs(
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

/** Until the panel may be touched; Infinity when it never may. */
export function coolDownMinutes(
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
