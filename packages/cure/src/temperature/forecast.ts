import { isWithin, requireInRange } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C } from '../sheet/data-sheet.ts'
import {
  hourlyGrid,
  localClock,
  MS_PER_HOUR,
  weekdayAndHour,
  type HourlyGrid,
  type PastTemperature,
} from './forecast-grid.ts'
import { quantile, solveNormal } from '../numerics/least-squares.ts'
import { requireInstant, type ForecastPoint } from '../readings/reading.ts'

/**
 * Hours in which a shop is heated: `fromHour` up to `toHour` by its own clock, on weekdays 1 (Monday) to 7.
 */
export interface HeatedHours {
  readonly weekday: number
  readonly fromHour: number
  readonly toHour: number
}

export interface ForecastOptions {
  /** How much of the past is used, days, 2 to 400; 42 when not given. */
  readonly historyDays?: number
  /** When the shop is heated, if that is known; the effect on temperature is learnt from the readings. */
  readonly heating?: readonly HeatedHours[]
}

/** Weight of the newest day in the daily pattern; the rest is the pattern as it was the day before. */
const PATTERN_SHARE = 0.25
/** Ridge on the coefficients, in observations of one degree. */
const RIDGE = 20
/** Fewer hindcasts than this tell nothing of the error. */
const ENOUGH_HINDCASTS = 60
/** What heating is first taken to do, degC; only scales the ridge on it. */
const HEATED_C = 5
/**
 * What the band leaves out at either end. The cold end decides when a job may be moved, so less is left out
 * there: with 5 % at both ends, heated shops missed one promised ready time in twenty in the year that the
 * constants were chosen on; with 3 %, one in forty.
 */
const COLD_TAIL_SHARE = 0.03
const WARM_TAIL_SHARE = 0.06
const DEFAULT_HISTORY_DAYS = 42

/**
 * Forecast of a bay's air from its own readings: the daily pattern by hour (a mean over days that forgets),
 * corrected by how far the latest reading, the same hour of the day before and of the week before are off
 * that pattern. How much of each deviation carries over is learnt for each lead by least squares on the past
 * (so it fades as the lead grows), and what was left over then gives the band: from 3 % to 94 % of the errors
 * the same forecast would have made.
 *
 * One point at `nowMs` and one an hour up to the horizon. Empty when there is no reading at all. With less
 * than about four days of readings the latest one is held and the band is `fallbackBandC`.
 *
 * @param past sorted by time; readings after `nowMs` are left out.
 * @param horizonHours 0 to 336.
 * @throws RangeError naming the field at fault.
 */
export function forecastBayTemperature(
  past: readonly PastTemperature[],
  nowMs: number,
  horizonHours: number,
  timeZone: string,
  options: ForecastOptions = {},
): ForecastPoint[] {
  requireInstant('nowMs', nowMs)
  requireInRange(
    'horizonHours',
    horizonHours,
    { min: 0, max: 336 },
    'h',
    'two weeks are the most that can be asked for',
  )
  const known = requirePast(past).filter((reading) => reading.atMs <= nowMs)
  const last = known.at(-1)
  if (last === undefined) return []
  const { historyDays = DEFAULT_HISTORY_DAYS, heating = [] } = options
  requireInRange(
    'options.historyDays',
    historyDays,
    { min: 2, max: 400 },
    'days',
    `leave it out for ${DEFAULT_HISTORY_DAYS}`,
  )
  const clock = localClock(timeZone)
  const model = new LeadModel(hourlyGrid(known, clock, Math.round(historyDays * 24)), heating)
  const originLocalMs = clock(last.atMs)
  const points: ForecastPoint[] = []
  for (let hour = 0; hour <= Math.ceil(horizonHours); hour++) {
    const atMs = nowMs + hour * MS_PER_HOUR
    const lead = (clock(atMs) - originLocalMs) / MS_PER_HOUR
    points.push({ atMs, ...model.at(Math.max(0, lead)) })
  }
  return points
}

type Band = Omit<ForecastPoint, 'atMs'>

/** Half-width of the band where the past is too short to tell, degC. Common practice, no source. */
export function fallbackBandC(leadHours: number): number {
  return Math.min(1 + 1.5 * Math.sqrt(leadHours), 10)
}

function requirePast(past: readonly PastTemperature[]): readonly PastTemperature[] {
  past.forEach(({ atMs, temperatureC }, i) => {
    // Names are only put together for a reading that is at fault: six weeks have thousands of good ones.
    const isLater = Number.isFinite(atMs) && (i === 0 || atMs >= past[i - 1]!.atMs)
    if (isLater && isWithin(PLAUSIBLE_TEMPERATURE_C, temperatureC)) return
    requireInstant(`pastReadings[${i}].atMs`, atMs)
    requireInRange(
      `pastReadings[${i}].temperatureC`,
      temperatureC,
      PLAUSIBLE_TEMPERATURE_C,
      'degC',
      'check the logger',
    )
    if (i > 0 && atMs < past[i - 1]!.atMs) {
      throw new RangeError(
        `pastReadings[${i}].atMs is ${atMs}, before the one ahead of it: sort readings by time`,
      )
    }
  })
  return past
}

/** One regression for each whole lead that is asked for; leads in between are joined by a straight line. */
class LeadModel {
  readonly #x: Float64Array
  readonly #pattern: Float64Array
  readonly #heated: Float64Array | undefined
  readonly #heatedPattern: Float64Array | undefined
  readonly #origin: number
  readonly #bands = new Map<number, Band>()

  constructor(grid: HourlyGrid, heating: readonly HeatedHours[]) {
    this.#x = grid.temperaturesC
    this.#origin = this.#x.length - 1
    this.#pattern = patternOf(this.#x)
    if (heating.length > 0) {
      this.#heated = heatedGrid(grid, heating, this.#x.length + 400)
      this.#heatedPattern = patternOf(this.#heated)
    }
  }

  at(lead: number): Band {
    const low = Math.floor(lead)
    const share = lead - low
    if (share < 1e-9) return this.#whole(low)
    const [a, b] = [this.#whole(low), this.#whole(low + 1)]
    const mix = (name: keyof Band): number => a[name] + share * (b[name] - a[name])
    return { expectedC: mix('expectedC'), lowC: mix('lowC'), highC: mix('highC') }
  }

  #whole(lead: number): Band {
    let band = this.#bands.get(lead)
    if (band === undefined) this.#bands.set(lead, (band = plausible(this.#fit(lead))))
    return band
  }

  #fit(lead: number): Band {
    const latest = this.#x[this.#origin]!
    if (lead === 0) return { expectedC: latest, lowC: latest, highC: latest }
    const width = this.#width
    const rows = new Float64Array((this.#x.length + 1) * width)
    const missed = new Float64Array(this.#x.length)
    let count = 0
    for (let t = 0; t + lead <= this.#origin; t++) {
      const actual = this.#x[t + lead]!
      if (Number.isNaN(actual) || !this.#features(t, lead, rows, count * width)) continue
      missed[count] = actual - this.#patternFor(t + lead, lead)
      count += 1
    }
    const now = count * width
    if (!this.#features(this.#origin, lead, rows, now) || count < ENOUGH_HINDCASTS)
      return fallback(latest, lead)
    const coefficients = ridgeFit(rows, missed, count, width)
    const errors = missed.subarray(0, count).map((miss, r) => miss - dot(rows, r * width, coefficients))
    const expectedC = this.#patternFor(this.#origin + lead, lead) + dot(rows, now, coefficients)
    return bandAround(expectedC, errors.sort(), lead, width)
  }

  get #width(): number {
    return this.#heated === undefined ? 4 : 5
  }

  /**
   * Writes the deviations from the pattern that are known at `t` and may carry over to `t + lead`; false
   * where one is missing.
   */
  #features(t: number, lead: number, into: Float64Array, at: number): boolean {
    const target = t + lead
    const base = this.#patternFor(target, lead)
    const latest = this.#x[t]! - this.#pattern[t]!
    const dayBefore = (this.#x[target - 24 * Math.ceil(lead / 24)] ?? NaN) - base
    if (Number.isNaN(latest) || Number.isNaN(dayBefore)) return false
    const weekBefore = (this.#x[target - 168 * Math.ceil(lead / 168)] ?? NaN) - base
    const trend = latest - ((this.#x[t - 2] ?? NaN) - (this.#pattern[t - 2] ?? NaN))
    into[at] = latest
    into[at + 1] = dayBefore
    into[at + 2] = weekBefore || 0
    into[at + 3] = trend || 0
    if (this.#heated !== undefined && this.#heatedPattern !== undefined) {
      const usual = this.#heatedPattern[target - 24 * (Math.ceil(lead / 24) - 1)] ?? 0
      into[at + 4] = HEATED_C * (this.#heated[target]! - usual)
    }
    return true
  }

  /** The pattern for the hour of `target` as it stood when nothing within `lead` hours of it was known. */
  #patternFor(target: number, lead: number): number {
    const index = target - 24 * (Math.ceil(lead / 24) - 1)
    if (index < this.#pattern.length) return this.#pattern[index]!
    return nextPattern(this.#x[index - 24]!, this.#pattern[index - 24]!)
  }
}

/** For every hour the forgetting mean of the same hour on the days before it, never of itself. */
function patternOf(x: Float64Array): Float64Array {
  const pattern = new Float64Array(x.length).fill(NaN)
  for (let i = 24; i < x.length; i++) pattern[i] = nextPattern(x[i - 24]!, pattern[i - 24]!)
  return pattern
}

function nextPattern(value: number, before: number): number {
  if (Number.isNaN(value)) return before
  return Number.isNaN(before) ? value : before + PATTERN_SHARE * (value - before)
}

function heatedGrid(grid: HourlyGrid, heating: readonly HeatedHours[], length: number): Float64Array {
  const origin = grid.temperaturesC.length - 1
  return Float64Array.from({ length }, (_, i) => {
    const [weekday, hour] = weekdayAndHour(grid.originLocalMs + (i - origin) * MS_PER_HOUR)
    return heating.some((on) => on.weekday === weekday && hour >= on.fromHour && hour < on.toHour) ? 1 : 0
  })
}

/**
 * Errors of neighbouring hours are alike: about one independent error for each lead or six hours, and the fit
 * used up some.
 */
function bandAround(expectedC: number, errors: Float64Array, lead: number, coefficients: number): Band {
  const independent = Math.max(2, errors.length / Math.max(lead, 6))
  const tail = (share: number): number => Math.max(0, share - 0.5 / independent)
  const stretch = 1 + coefficients / (2 * independent)
  const lowC = expectedC + Math.min(0, quantile(errors, tail(COLD_TAIL_SHARE)) * stretch)
  const highC = expectedC + Math.max(0, quantile(errors, 1 - tail(WARM_TAIL_SHARE)) * stretch)
  return { expectedC, lowC, highC }
}

function ridgeFit(rows: Float64Array, wanted: Float64Array, count: number, n: number): number[] {
  const gram = Array.from({ length: n * n }, () => 0)
  const moment = Array.from({ length: n }, () => 0)
  for (let r = 0; r < count; r++) {
    const row = r * n
    for (let i = 0; i < n; i++) {
      const x = rows[row + i]!
      moment[i]! += x * wanted[r]!
      for (let j = 0; j <= i; j++) gram[i * n + j]! += x * rows[row + j]!
    }
  }
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) gram[i * n + j] = gram[j * n + i]!
  return solveNormal(gram, moment, n, RIDGE)
}

function dot(rows: Float64Array, at: number, coefficients: readonly number[]): number {
  let sum = 0
  for (let i = 0; i < coefficients.length; i++) sum += rows[at + i]! * coefficients[i]!
  return sum
}

function fallback(latest: number, lead: number): Band {
  const half = fallbackBandC(lead)
  return { expectedC: latest, lowC: latest - half, highC: latest + half }
}

function plausible(band: Band): Band {
  const clamp = (c: number): number =>
    isWithin(PLAUSIBLE_TEMPERATURE_C, c)
      ? c
      : Math.min(Math.max(c, PLAUSIBLE_TEMPERATURE_C.min), PLAUSIBLE_TEMPERATURE_C.max)
  return { expectedC: clamp(band.expectedC), lowC: clamp(band.lowC), highC: clamp(band.highC) }
}
