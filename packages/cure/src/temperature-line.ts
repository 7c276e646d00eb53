import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { EstimateNote } from './notes.ts'
import { gapMarginC, STALE_LIMIT_MINUTES, type ForecastPoint, type Reading } from './reading.ts'
import { arcC, followingArc, linearArc, type TemperatureArc } from './temperature-arc.ts'

/** Values of the three lines: cold (conservative), expected, warm (earliest). */
export type Triple = readonly [cold: number, expected: number, warm: number]

export const LINES = [0, 1, 2] as const
export type Line = (typeof LINES)[number]

/** The bond's temperature over a stretch of time, on each of the three lines. */
export interface Stretch {
  readonly fromMs: number
  readonly toMs: number
  readonly arcs: readonly [TemperatureArc, TemperatureArc, TemperatureArc]
  readonly note?: EstimateNote
}

/** A stretch and the panel's temperature at its end. */
export interface Followed {
  readonly stretch: Stretch
  readonly panelC: Triple
}

/** What the sensor may have seen: the reading, its accuracy taken off and added. */
export function readingBand(reading: Reading): Triple {
  const { temperatureC, accuracyC } = reading
  return [temperatureC - accuracyC, temperatureC, temperatureC + accuracyC]
}

const bandOf = (point: ForecastPoint): Triple => [point.lowC, point.expectedC, point.highC]

/** Whether a reading is of air that the panel follows with a delay, rather than of the panel. */
function isFollowed(reading: Reading, tauMinutes: number | undefined): boolean {
  return reading.source === 'bayAir' && tauMinutes !== undefined
}

const each = (value: (line: Line) => TemperatureArc): Stretch['arcs'] => [value(0), value(1), value(2)]
const endOf = (arcs: Stretch['arcs']): Triple => [end(arcs[0]), end(arcs[1]), end(arcs[2])]
const end = (arc: TemperatureArc): number => arcC(arc, arc.minutes)

/** Cold line: the colder end less the margin. Warm line: the warmer end and the margin. Expected: straight on. */
function bridged(
  line: Line,
  from: Triple,
  to: Triple,
  marginC: number,
): readonly [startC: number, endC: number] {
  if (line === 1) return [from[1], to[1]]
  const c = line === 0 ? Math.min(from[0], to[0]) - marginC : Math.max(from[2], to[2]) + marginC
  return [c, c]
}

/**
 * From one reading to the next. Metal readings are joined by a straight line; where the next reading is of bay air, the panel
 * follows the air from where it stands. A gap beyond the stale limit (the shorter of the two sources') is bridged.
 */
export function joinReadings(
  previous: Reading,
  panelC: Triple,
  next: Reading,
  tauMinutes: number | undefined,
): Followed {
  const minutes = (next.atMs - previous.atMs) / MS_PER_MINUTE
  const limitMinutes = Math.min(STALE_LIMIT_MINUTES[previous.source], STALE_LIMIT_MINUTES[next.source])
  const marginC = gapMarginC(minutes, limitMinutes)
  const isGap = minutes > limitMinutes
  const to = readingBand(next)
  const follows = isFollowed(next, tauMinutes)
  const from = !follows ? panelC : previous.source === 'bayAir' ? readingBand(previous) : to
  const arcs = each((line) => {
    const [startC, endC] = isGap ? bridged(line, from, to, marginC) : [from[line], to[line]]
    return follows
      ? followingArc(minutes, panelC[line], startC, endC, tauMinutes!)
      : linearArc(minutes, startC, endC)
  })
  const span = { fromMs: previous.atMs, toMs: next.atMs }
  const stretch: Stretch = isGap
    ? { ...span, arcs, note: { kind: 'gapBridged', ...span, limitMinutes, marginC } }
    : { ...span, arcs }
  return { stretch, panelC: follows ? endOf(arcs) : to }
}

/** Before the first reading: that reading, held; less a margin where it is too far away. */
export function leadIn(fromMs: number, first: Reading): Stretch {
  const minutes = (first.atMs - fromMs) / MS_PER_MINUTE
  const limitMinutes = STALE_LIMIT_MINUTES[first.source]
  const band = readingBand(first)
  const span = { fromMs, toMs: first.atMs }
  if (minutes <= limitMinutes)
    return { ...span, arcs: each((line) => linearArc(minutes, band[line], band[line])) }
  const marginC = gapMarginC(minutes, limitMinutes)
  const arcs = each((line) => linearArc(minutes, ...bridged(line, band, band, marginC)))
  return { ...span, arcs, note: { kind: 'gapBridged', ...span, limitMinutes, marginC } }
}

/** From the last reading to now: that reading, held; once stale, the colder of it and the forecast, less a margin. */
export function trailOff(
  last: Reading,
  panelC: Triple,
  nowMs: number,
  firstForecast: ForecastPoint | undefined,
  tauMinutes: number | undefined,
): Followed {
  const minutes = (nowMs - last.atMs) / MS_PER_MINUTE
  const limitMinutes = STALE_LIMIT_MINUTES[last.source]
  const isStale = minutes > limitMinutes
  const marginC = isStale ? gapMarginC(minutes, limitMinutes) : 0
  const follows = isFollowed(last, tauMinutes)
  const held = follows ? readingBand(last) : panelC
  const ahead = isStale && firstForecast !== undefined ? bandOf(firstForecast) : held
  const arcs = each((line) => {
    const [c] = isStale ? bridged(line, held, ahead, marginC) : [held[line]]
    return follows ? followingArc(minutes, panelC[line], c, c, tauMinutes!) : linearArc(minutes, c, c)
  })
  const span = { fromMs: last.atMs, toMs: nowMs }
  const stretch: Stretch = isStale
    ? {
        ...span,
        arcs,
        note: { kind: 'staleTemperature', ...span, source: last.source, limitMinutes, marginC },
      }
    : { ...span, arcs }
  return { stretch, panelC: endOf(arcs) }
}

/** From now on: the forecast of the bay's air, followed by the panel. One stretch per step of the forecast. */
export function* alongForecast(
  forecast: readonly ForecastPoint[],
  fromMs: number,
  panelC: Triple,
  tauMinutes: number | undefined,
): Generator<Stretch, void, void> {
  let panel = panelC
  let at = fromMs
  for (const [i, next] of forecast.entries()) {
    if (next.atMs <= at) continue
    const before = forecast[i - 1]
    const to = bandOf(next)
    const from = before === undefined ? to : between(before, next, at)
    const minutes = (next.atMs - at) / MS_PER_MINUTE
    const arcs = each((line) =>
      tauMinutes === undefined
        ? linearArc(minutes, from[line], to[line])
        : followingArc(minutes, panel[line], from[line], to[line], tauMinutes),
    )
    yield { fromMs: at, toMs: next.atMs, arcs }
    panel = endOf(arcs)
    at = next.atMs
  }
}

function between(before: ForecastPoint, after: ForecastPoint, atMs: number): Triple {
  const share = (atMs - before.atMs) / (after.atMs - before.atMs)
  const [a, b] = [bandOf(before), bandOf(after)]
  const mix = (line: Line): number => a[line] + (b[line] - a[line]) * share
  return [mix(0), mix(1), mix(2)]
}
