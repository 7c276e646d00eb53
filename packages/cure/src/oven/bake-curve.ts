import { requireBakeRequest, type BakeRequest } from './bake-request.ts'
import { airPoints, coolDownArcs, coolDownMinutes, heatArcs, heatUpMinutes } from './bake-run.ts'
import type { AirPoint } from '../temperature/panel-heat.ts'
import { arcC, type TemperatureArc } from '../temperature/temperature-arc.ts'

/** One instant of a bake as expected. */
export interface BakeCurvePoint {
  /** From the move to the oven. */
  readonly atMinutes: number
  readonly airC: number
  /** Of each panel, in the order of the request. */
  readonly metalC: readonly number[]
}

/** Steps of heating and of cooling: enough to look smooth on a screen. */
const STEPS = 60
/** Where a bake or its cool-down never ends, this much of it is drawn. */
const ENDLESS_MINUTES = 240

/**
 * Points to draw a bake from, by the same arcs as `bakeWindow`: air and metal as expected, until the slowest
 * panel may be touched. Two points at one instant are a step of the air.
 *
 * @throws RangeError as `bakeWindow`.
 */
export function bakeCurve(request: BakeRequest): readonly BakeCurvePoint[] {
  requireBakeRequest(request)
  const { program, panels, metalStartC } = request
  const heatUp = Math.max(...panels.map((panel) => heatUpMinutes(request, panel, 0)))
  const ends = Number.isFinite(heatUp)
  const bakeMinutes = ends ? heatUp + program.dwellMinutes : ENDLESS_MINUTES
  const air = airPoints(request, 0, bakeMinutes)
  const heating = panels.map((panel) => heatArcs(request, panel, 0, bakeMinutes))
  const heated = marks(bakeMinutes, air).map((atMinutes) => ({
    atMinutes,
    airC: airAt(air, atMinutes),
    metalC: heating.map((arcs) => along(arcs, atMinutes) ?? metalStartC),
  }))
  if (!ends) return heated

  const cooling = panels.map((panel) => coolDownArcs(request, panel, 0, bakeMinutes))
  const longest = Math.max(...panels.map((panel) => coolDownMinutes(request, panel, 0, bakeMinutes)))
  const cooled = marks(Number.isFinite(longest) ? longest : ENDLESS_MINUTES, []).map((minutes) => ({
    atMinutes: bakeMinutes + minutes,
    airC: program.coolAirC,
    metalC: cooling.map((arcs) => arcC(arcs[0]!, minutes)),
  }))
  return [...heated, ...cooled]
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

/** Undefined where there is no arc. */
function along(arcs: readonly TemperatureArc[], atMinutes: number): number | undefined {
  let start = 0
  for (const arc of arcs) {
    if (atMinutes <= start + arc.minutes) return arcC(arc, atMinutes - start)
    start += arc.minutes
  }
  const last = arcs.at(-1)
  return last && arcC(last, last.minutes)
}
