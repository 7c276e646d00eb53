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

/** What the sensor may have seen: the band that came with the reading, or its accuracy taken off and added. */
export function readingBand(reading: Reading): Triple {
  const { temperatureC, accuracyC, lowC, highC } = reading
  return [lowC ?? temperatureC - accuracyC, temperatureC, highC ?? temperatureC + accuracyC]
}

const bandOf = (point: ForecastPoint): Triple => [point.lowC, point.expectedC, point.highC]

/** Whether a reading is of air that the panel follows with a delay, rather than of the panel. */
function isFollowed(reading: Reading, tauMinutes: number | undefined): boolean {
  return reading.source === 'bayAir' && tauMinutes !== undefined
}

const each = (value: (line: Line) => TemperatureArc): Stretch['arcs'] => [value(0), value(1), value(2)]
const straight = (minutes: number, from: Triple, to: Triple): Stretch['arcs'] => [
  linearArc(minutes, from[0], to[0]),
  linearArc(minutes, from[1], to[1]),
  linearArc(minutes, from[2], to[2]),
]
const endOf = (arcs: Stretch['arcs']): Triple => [end(arcs[0]), end(arcs[1]), end(arcs[2])]
const end = (arc: TemperatureArc): number => arcC(arc, arc.minutes)

/**
 * Cold line: the colder end less the margin. Warm line: the warmer end and the margin. Expected: straight on.
 */
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
 * From one reading to the next. Metal readings are joined by a straight line; where the next reading is of
 * bay air, the panel follows the air from where it stands. A gap beyond the stale limit (the shorter of the
 * two sources') is bridged.
 */
export function joinReadings(
  previous: Reading,
  panelC: Triple,
  next: Reading,
  tauMinutes: number | undefined,
): Followed {
  const minutes = (next.atMs - previous.atMs) / MS_PER_MINUTE
  const limitMinutes = Math.min(STALE_LIMIT_MINUTES[previous.source], STALE_LIMIT_MINUTES[next.source])
  const isGap = minutes > limitMinutes
  const to = readingBand(next)
  const follows = isFollowed(next, tauMinutes)
  const span = { fromMs: previous.atMs, toMs: next.atMs }
  // Nearly every step of a logged history ends here.
  if (!isGap && !follows) return { stretch: { ...span, arcs: straight(minutes, panelC, to) }, panelC: to }
  const marginC = gapMarginC(minutes, limitMinutes)
  const from = !follows ? panelC : previous.source === 'bayAir' ? readingBand(previous) : to
  const arcs = each((line) => {
    const [startC, endC] = isGap ? bridged(line, from, to, marginC) : [from[line], to[line]]
    return follows
      ? followingArc(minutes, panelC[line], startC, endC, tauMinutes!)
      : linearArc(minutes, startC, endC)
  })
  const stretch: Stretch = isGap
    ? { ...span, arcs, note: { kind: 'gapBridged', ...span, limitMinutes, marginC } }
    : { ...span, arcs }
  return { stretch, panelC: follows ? endOf(arcs) : to }
}

/** Cold side less, warm side more by `marginC`. */
const widened = (band: Triple, marginC: number): Triple => [band[0] - marginC, band[1], band[2] + marginC]

/**
 * Before the first reading: that reading, held; further away than its stale limit less a margin that grows
 * with the distance. It depends on the distance alone, so that a later start never sees a warmer past.
 */
export function leadIn(fromMs: number, first: Reading): readonly Stretch[] {
  const limitMinutes = STALE_LIMIT_MINUTES[first.source]
  const band = readingBand(first)
  const minutes = (first.atMs - fromMs) / MS_PER_MINUTE
  const span = { fromMs, toMs: first.atMs }
  const held = (from: number): Stretch => {
    const length = (first.atMs - from) / MS_PER_MINUTE
    return { fromMs: from, toMs: first.atMs, arcs: each((line) => linearArc(length, band[line], band[line])) }
  }
  if (minutes <= limitMinutes) return [held(fromMs)]
  const marginC = gapMarginC(minutes, limitMinutes)
  const limitMs = first.atMs - limitMinutes * MS_PER_MINUTE
  const [far, near] = [widened(band, marginC), widened(band, gapMarginC(limitMinutes, limitMinutes))]
  const arcs = each((line) => linearArc(minutes - limitMinutes, far[line], near[line]))
  return [
    { fromMs, toMs: limitMs, arcs, note: { kind: 'gapBridged', ...span, limitMinutes, marginC } },
    held(limitMs),
  ]
}

/** What is known when a reading has grown old: stretches up to now, and the panel at their end. */
export interface Trail {
  readonly stretches: readonly Stretch[]
  readonly panelC: Triple
}

/**
 * From the last reading to now: that reading, held; once stale, the colder of it and the forecast, less a
 * margin that grows with its age. It depends on the age alone, so that progress never falls while nothing new
 * is known.
 */
export function trailOff(
  last: Reading,
  panelC: Triple,
  nowMs: number,
  firstForecast: ForecastPoint | undefined,
  tauMinutes: number | undefined,
): Trail {
  const limitMinutes = STALE_LIMIT_MINUTES[last.source]
  const follows = isFollowed(last, tauMinutes)
  const age = (nowMs - last.atMs) / MS_PER_MINUTE
  const held = follows ? readingBand(last) : panelC
  const leg = (minutes: number, panel: Triple, from: Triple, to: Triple): Stretch['arcs'] =>
    each((line) =>
      follows
        ? followingArc(minutes, panel[line], from[line], to[line], tauMinutes!)
        : linearArc(minutes, from[line], to[line]),
    )
  const fresh = leg(Math.min(age, limitMinutes), panelC, held, held)
  if (age <= limitMinutes)
    return { stretches: [{ fromMs: last.atMs, toMs: nowMs, arcs: fresh }], panelC: endOf(fresh) }
  const limitMs = last.atMs + limitMinutes * MS_PER_MINUTE
  const ahead = firstForecast === undefined ? held : bandOf(firstForecast)
  const outer: Triple = [Math.min(held[0], ahead[0]), held[1], Math.max(held[2], ahead[2])]
  const marginC = gapMarginC(age, limitMinutes)
  const start = widened(outer, gapMarginC(limitMinutes, limitMinutes))
  const stale = leg(age - limitMinutes, endOf(fresh), start, widened(outer, marginC))
  const span = { fromMs: limitMs, toMs: nowMs }
  const note = { kind: 'staleTemperature', ...span, source: last.source, limitMinutes, marginC } as const
  const stretches = [
    { fromMs: last.atMs, toMs: limitMs, arcs: fresh },
    { ...span, arcs: stale, note },
  ]
  return { stretches, panelC: endOf(stale) }
}

/**
 * From now on: the forecast of the bay's air, followed by the panel. One stretch per step of the forecast.
 */
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
