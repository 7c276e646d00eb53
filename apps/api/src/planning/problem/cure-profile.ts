import {
  coldestMetalAhead,
  rateAt,
  rateCurve,
  type ColdestMetal,
  type DataSheet,
  type ForecastPoint,
  type RateCurve,
} from '@clampclock/cure'

/** Units of work in one cure to handling strength: rates are whole numbers, and this keeps a minute in a week exact. */
export const CURE_WORK = 1_000_000
const MINUTE_MS = 60_000

export interface RatePoint {
  readonly atMinute: number
  readonly ratePerMinute: number
}

/**
 * How fast a joint cures in a bay, from each minute on, as the gate beside the bay will count it: by the careful curve of
 * its sheet, at the coldest that its metal may be within each hour of the cold side of the bay's forecast, whatever of the
 * plausible time constants it has. So the time it gives is never shorter than the gate's own for a bond that starts
 * then. Beyond the forecast the coldest hour of its last day goes on.
 */
export function cureRates(
  sheet: DataSheet,
  forecast: readonly ForecastPoint[],
  originMs: number,
  panelTauMinutes: number | null,
): RatePoint[] {
  const curve = rateCurve(sheet, 'handlingStrength', 'careful')
  return ratesOf(coldestMetalAhead(forecast, panelTauMinutes), curve, originMs)
}

/** The same as it is expected: no colder than the bay's expected air has been within three of its time constants. */
export function expectedCureRates(
  sheet: DataSheet,
  forecast: readonly ForecastPoint[],
  originMs: number,
  panelTauMinutes: number | null,
): RatePoint[] {
  // Three time constants: 95 % of what the panel still has to warm.
  const lagMs = 3 * (panelTauMinutes ?? 0) * MINUTE_MS
  const air = forecast.map(({ atMs, expectedC }) => ({ atMs, c: expectedC }))
  const coldestBetween = (fromMs: number, untilMs: number) =>
    Math.min(
      at(air, fromMs),
      at(air, untilMs),
      ...air.flatMap(({ atMs, c }) => (fromMs < atMs && atMs < untilMs ? c : [])),
    )
  const steps = air.slice(0, -1).map(({ atMs: fromMs }, i) => {
    const toMs = air[i + 1]!.atMs
    return { fromMs, toMs, coldestC: coldestBetween(fromMs - lagMs, toMs) }
  })
  return ratesOf(steps, rateCurve(sheet, 'handlingStrength'), originMs)
}

function ratesOf(steps: readonly ColdestMetal[], curve: RateCurve, originMs: number): RatePoint[] {
  const last = steps.at(-1)
  if (last === undefined) return [{ atMinute: 0, ratePerMinute: 0 }]
  const rate = (c: number) => Math.floor(rateAt(curve, c) * CURE_WORK)
  const points: RatePoint[] = []
  const add = (ms: number, ratePerMinute: number) => {
    const before = points.at(-1)
    // The part of a minute on either side of the change is counted as the slower of the two.
    const round = before === undefined || ratePerMinute < before.ratePerMinute ? Math.floor : Math.ceil
    const atMinute = Math.max(0, round((ms - originMs) / MINUTE_MS))
    while (points.at(-1) !== undefined && points.at(-1)!.atMinute >= atMinute) points.pop()
    points.push({ atMinute, ratePerMinute })
  }
  for (const { fromMs, toMs, coldestC } of steps) if (toMs > originMs) add(fromMs, rate(coldestC))
  const lastDay = steps.filter(({ toMs }) => toMs > last.toMs - 24 * 60 * MINUTE_MS)
  add(last.toMs, rate(Math.min(...lastDay.map(({ coldestC }) => coldestC))))
  if (points[0]!.atMinute > 0) points.unshift({ atMinute: 0, ratePerMinute: points[0]!.ratePerMinute })
  return points
}

/** Air at an instant, along the straight lines of the forecast. */
function at(air: readonly { readonly atMs: number; readonly c: number }[], ms: number): number {
  const i = air.findIndex(({ atMs }) => atMs >= ms)
  if (i < 0) return air.at(-1)!.c
  const next = air[i]!
  const before = air[i - 1]
  if (!before || next.atMs === ms) return next.c
  return before.c + ((next.c - before.c) * (ms - before.atMs)) / (next.atMs - before.atMs)
}

/** The minute at which a cure is through that starts at `start`; null when it never is. */
export function cureEnd(rates: readonly RatePoint[], start: number): number | null {
  let left = CURE_WORK
  let minute = start
  for (const [i, { ratePerMinute }] of rates.entries()) {
    const until = rates[i + 1]?.atMinute ?? Infinity
    if (until <= minute) continue
    const needed = ratePerMinute > 0 ? Math.ceil(left / ratePerMinute) : Infinity
    if (needed < Infinity && minute + needed <= until) return minute + needed
    left -= ratePerMinute * (until - minute)
    minute = until
  }
  return null
}
