import { MS_PER_MINUTE, requirePositive } from '@clampclock/quantities'
import type { Milestone } from './data-sheet.ts'
import type { BondCurvePoint } from './estimate-figures.ts'
import { upToNow, type BondHistory } from './estimate.ts'
import { curveWithDoubt } from './doubt.ts'
import { integrateArc } from './integrate.ts'
import { stretchesTo, type LastKnown } from './progress.ts'
import { rateCurve, type RateCurve } from './rate-curve.ts'
import { requireForecast, requireReading } from './reading.ts'
import { arcC } from './temperature-arc.ts'
import { alongForecast, readingBand, type Stretch } from './temperature-line.ts'

export interface BondCurveOptions {
  /** Whose progress is drawn; handling strength when not given. */
  readonly milestone?: Milestone
  /**
   * Distance of the points, minutes, above zero; 5 when not given. Readings and forecast points are drawn as
   * well.
   */
  readonly stepMinutes?: number
  /** First instant; the application when not given. */
  readonly fromMs?: number
  /** Last instant; the end of the forecast when not given. */
  readonly toMs?: number
}

/**
 * Points to draw a bond's temperature and progress from, by the same computation as `estimateBond`. Where a
 * gap ends, two points share an instant: the line jumps to what was measured. Empty when nothing is known of
 * the temperature.
 *
 * @throws RangeError as `estimateBond`, and for a step that is not above zero.
 */
export function bondCurve(history: BondHistory, options: BondCurveOptions = {}): BondCurvePoint[] {
  const trusted = history.readings.filter(({ suspect }) => !suspect)
  const points = believedCurve({ ...history, readings: trusted }, options)
  const doubted = trusted.length === history.readings.length ? [] : believedCurve(history, options)
  return doubted.length === 0 ? points : curveWithDoubt(points, doubted)
}

/** As if every reading were true. */
function believedCurve(history: BondHistory, options: BondCurveOptions): BondCurvePoint[] {
  const {
    milestone = 'handlingStrength',
    stepMinutes = 5,
    fromMs = history.appliedAtMs,
    toMs = Infinity,
  } = options
  requirePositive('stepMinutes', stepMinutes, 'minutes', 'give the distance of the points')
  const curve = rateCurve(history.sheet, milestone)
  const points: BondCurvePoint[] = []
  const gained: [number, number, number] = [0, 0, 0]
  for (const stretch of stretchesOf(history)) {
    if (stretch.fromMs > toMs) break
    let t = Math.max(0, (history.appliedAtMs - stretch.fromMs) / MS_PER_MINUTE)
    for (const at of marks(stretch, stepMinutes)) {
      const atMs = stretch.fromMs + at * MS_PER_MINUTE
      if (atMs > toMs) break
      addTo(gained, curve, stretch, t, at)
      t = Math.max(t, at)
      if (atMs >= fromMs) points.push(pointAt(stretch, at, atMs, gained))
    }
  }
  return points.filter((point, i) => !isSame(point, points[i - 1]))
}

function addTo(
  gained: [number, number, number],
  curve: RateCurve,
  stretch: Stretch,
  from: number,
  to: number,
): void {
  gained[0] += integrateArc(curve, stretch.arcs[0], from, to)
  gained[1] += integrateArc(curve, stretch.arcs[1], from, to)
  gained[2] += integrateArc(curve, stretch.arcs[2], from, to)
}

function pointAt(
  stretch: Stretch,
  t: number,
  atMs: number,
  gained: readonly [number, number, number],
): BondCurvePoint {
  const [cold, expected, warm] = stretch.arcs
  return {
    atMs,
    temperatureC: { low: arcC(cold, t), expected: arcC(expected, t), high: arcC(warm, t) },
    progress: { earliest: gained[2], expected: gained[1], conservative: gained[0] },
  }
}

function isSame(a: BondCurvePoint, b: BondCurvePoint | undefined): boolean {
  if (b?.atMs !== a.atMs) return false
  return (['low', 'expected', 'high'] as const).every(
    (line) => Math.abs(a.temperatureC[line] - b.temperatureC[line]) < 1e-9,
  )
}

/** Both ends of a stretch and whole steps between them, minutes into it. */
function* marks(stretch: Stretch, stepMinutes: number): Generator<number, void, void> {
  const minutes = (stretch.toMs - stretch.fromMs) / MS_PER_MINUTE
  for (let i = 0; i * stepMinutes < minutes; i++) yield i * stepMinutes
  yield minutes
}

/** Past, the time since the last reading, and forecast, in order of time. */
function* stretchesOf(history: BondHistory): Generator<Stretch, void, void> {
  const { appliedAtMs, readings, forecast, nowMs, panelTauMinutes } = history
  requireForecast(forecast)
  let state: LastKnown = {
    appliedAtMs,
    lastReading: null,
    panelC: [0, 0, 0],
    panelTauMinutes: panelTauMinutes ?? null,
  }
  for (const [i, reading] of readings.entries()) {
    if (reading.atMs > nowMs) break
    requireReading(reading, `readings[${i}]`, readings[i - 1])
    let panelC = readingBand(reading)
    for (const step of stretchesTo(state, reading)) {
      yield step.stretch
      panelC = step.panelC
    }
    state = { ...state, lastReading: reading, panelC }
  }
  const trail = upToNow(state, nowMs, forecast)
  if (trail === undefined) return
  yield* trail.stretches
  yield* alongForecast(forecast, nowMs, trail.panelC, panelTauMinutes)
}
