import { MS_PER_MINUTE } from '@clampclock/quantities'
import { arcC, crossingOf, turningPoint, type TemperatureArc } from './temperature-arc.ts'

/** False when a straight line stays on the good side of a limit from end to end. */
export function mayPass(arc: TemperatureArc, from: number, limitC: number, side: 1 | -1): boolean {
  if (arc.transientC !== 0) return true
  return side * (arcC(arc, from) - limitC) > 0 || side * (arcC(arc, arc.minutes) - limitC) > 0
}

/** The parts of an arc that lie below (`side` -1) or above (1) a limit, as instants. */
export function partsBeyond(
  arc: TemperatureArc,
  fromMs: number,
  from: number,
  limitC: number,
  side: 1 | -1,
): readonly (readonly [number, number])[] {
  const turn = turningPoint(arc, from, arc.minutes)
  const cuts = turn === undefined ? [from, arc.minutes] : [from, turn, arc.minutes]
  const at = (t: number): number => Math.round(fromMs + t * MS_PER_MINUTE)
  const parts: (readonly [number, number])[] = []
  for (let i = 1; i < cuts.length; i++) {
    const [start, end] = [cuts[i - 1]!, cuts[i]!]
    const [a, b] = [side * (arcC(arc, start) - limitC), side * (arcC(arc, end) - limitC)]
    if (a <= 0 && b <= 0) continue
    if (a > 0 && b > 0) parts.push([at(start), at(end)])
    else if (a > 0) parts.push([at(start), at(crossingOf(arc, start, end, limitC))])
    else parts.push([at(crossingOf(arc, start, end, limitC)), at(end)])
  }
  return parts
}
