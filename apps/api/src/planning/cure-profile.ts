import { rateAt, rateCurve, type DataSheet, type ForecastPoint } from '@clampclock/cure'

/** Units of work in one cure to handling strength: rates are whole numbers, and this keeps a minute in a week exact. */
export const CURE_WORK = 1_000_000
const MINUTE_MS = 60_000

export interface RatePoint {
  readonly atMinute: number
  readonly ratePerMinute: number
}

/**
 * How fast a joint cures in a bay, from each minute on: the rate of its sheet at the cold side of the bay's forecast,
 * and within each hour at its coldest, the lag of the panel behind the air included. So the time it gives is never
 * shorter than the one expected on the clock beside the bay. Beyond the forecast the coldest hour of its last day goes on.
 */
export function cureRates(
  sheet: DataSheet,
  forecast: readonly ForecastPoint[],
  originMs: number,
  panelTauMinutes: number | null,
  line: 'lowC' | 'expectedC' = 'lowC',
): RatePoint[] {
  const curve = rateCurve(sheet, 'handlingStrength')
  const rate = (c: number) => Math.floor(rateAt(curve, c) * CURE_WORK)
  const air = forecast.map((point) => ({ atMs: point.atMs, c: point[line] }))
  const first = air[0]
  const last = air.at(-1)
  if (!first || !last) return [{ atMinute: 0, ratePerMinute: 0 }]
  // Three time constants: 95 % of what the panel still has to warm.
  const lagMs = 3 * (panelTauMinutes ?? 0) * MINUTE_MS
  const coldestBetween = (fromMs: number, untilMs: number) =>
    Math.min(
      at(air, fromMs),
      at(air, untilMs),
      ...air.flatMap(({ atMs, c }) => (fromMs < atMs && atMs < untilMs ? c : [])),
    )

  const points: RatePoint[] = []
  air.slice(0, -1).forEach(({ atMs }, i) => {
    const atMinute = Math.max(0, Math.ceil((atMs - originMs) / MINUTE_MS))
    const untilMs = air[i + 1]!.atMs
    if (untilMs <= originMs) return
    // The part of a minute before a warmer hour is counted cold.
    const ratePerMinute = rate(coldestBetween(atMs - lagMs - MINUTE_MS, untilMs))
    if (points.at(-1)?.atMinute === atMinute) points.pop()
    points.push({ atMinute, ratePerMinute })
  })
  const lastDay = air.filter(({ atMs }) => atMs > last.atMs - 24 * 60 * MINUTE_MS)
  points.push({
    atMinute: Math.max(0, Math.ceil((last.atMs - originMs) / MINUTE_MS)),
    ratePerMinute: rate(Math.min(...lastDay.map(({ c }) => c))),
  })
  if (points[0]!.atMinute > 0) points.unshift({ atMinute: 0, ratePerMinute: points[0]!.ratePerMinute })
  return points.filter((point, i) => i === 0 || point.atMinute > points[i - 1]!.atMinute)
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
