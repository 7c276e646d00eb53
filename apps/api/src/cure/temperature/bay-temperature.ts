import type { Sensor } from '@clampclock/contracts'
import {
  combineAir,
  forecastBayTemperature,
  limitsOfPlace,
  type ForecastPoint,
  type PlaceLimits,
  type Reading,
} from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import { isDoubtedForMore, pastOf, thermometers, type Past, type ReadingRow } from './past.ts'

/** Long enough for a cold weekend. */
const HORIZON_HOURS = 96

export interface BayTemperature {
  /** The one that hangs there and is not doubted, else one that is; null where none hangs. */
  readonly sensor: Sensor | null
  /** Bay air since the instant asked for, from all thermometers of the bay: combineAir of packages/cure says how. */
  readonly readings: readonly Reading[]
  readonly forecast: readonly ForecastPoint[]
  /** Percent, at the instants that it was read. */
  readonly humidity: ReadonlyMap<number, number>
  /** How far its air may fall while nobody measures, by all it has read. */
  readonly place: PlaceLimits
}

/**
 * What the bay's thermometers read since `from`, and the forecast from all they have read.
 *
 * @param knownBy What came late, but before this instant, is believed: it was on file when the adhesive went on, and can
 *   be no claim about how warm the joint has been since.
 */
export async function bayTemperature(
  tx: Tx,
  resourceId: string,
  timeZone: string,
  from: Date,
  now: Date,
  knownBy?: Date,
): Promise<BayTemperature> {
  const { sensors, rows, learned } = await pastOf(tx, resourceId, from, now)
  const fromMs = from.getTime()
  const around = rows.filter(({ at }) => at.getTime() >= fromMs - SPEAKS_MS)
  const isSuspect = (row: ReadingRow) =>
    row.quality === 'suspect' && (isDoubtedForMore(row) || !wasKnown(row, knownBy))
  const hanging = sensors.filter(({ retiredAt }) => retiredAt === null)
  return {
    sensor: hanging.find(({ doubtedSince }) => doubtedSince === null) ?? hanging[0] ?? null,
    readings: combineAir(thermometers(sensors, around, isSuspect)).filter(({ atMs }) => atMs >= fromMs),
    forecast: forecastOf(resourceId, learned, now, timeZone),
    humidity: new Map(
      around.flatMap(({ at, relativeHumidityPercent }) =>
        relativeHumidityPercent === null ? [] : [[at.getTime(), relativeHumidityPercent] as const],
      ),
    ),
    place: placeOf(resourceId, learned),
  }
}

/** Another one as soon as anything that was read of the bay has changed; of one without a bay it is always the same. */
export async function bayMark(tx: Tx, resourceId: string | null, from: Date, now: Date): Promise<string> {
  return resourceId === null ? '' : (await pastOf(tx, resourceId, from, now)).mark
}

/** Of two thermometers the other one speaks for so long after it has read. */
const SPEAKS_MS = 3_600_000

function wasKnown({ enteredAt }: ReadingRow, by: Date | undefined): boolean {
  return by !== undefined && enteredAt !== null && enteredAt <= by
}

/** The air of a bay to come, where no past is asked for. Empty without a thermometer that reads. */
export async function bayForecast(
  tx: Tx,
  resourceId: string,
  timeZone: string,
  now: Date,
  hours = HORIZON_HOURS,
): Promise<readonly ForecastPoint[]> {
  const { learned } = await pastOf(tx, resourceId, now, now)
  return forecastOf(resourceId, learned, now, timeZone, hours)
}

/** What each bay can do, kept until it is read again. */
const places = new Map<string, { key: string; place: PlaceLimits }>()

function placeOf(resourceId: string, past: readonly { atMs: number; temperatureC: number }[]): PlaceLimits {
  const key = [past.length, past[0]?.atMs, past.at(-1)?.atMs].join()
  const kept = places.get(resourceId)
  if (kept?.key === key) return kept.place
  const place = limitsOfPlace(past)
  places.set(resourceId, { key, place })
  return place
}

/** The last forecast of each bay: it only changes with a new reading or a new minute. */
const forecasts = new Map<string, { key: string; forecast: readonly ForecastPoint[] }>()

function forecastOf(
  resourceId: string,
  past: Past['learned'],
  now: Date,
  timeZone: string,
  hours = HORIZON_HOURS,
): readonly ForecastPoint[] {
  if (past.length === 0) return []
  // To the minute, so that many requests share one; a forecast of up to a minute ago begins before now and still holds.
  const minuteMs = Math.floor(now.getTime() / 60_000) * 60_000
  const last = past.at(-1)
  // The sum tells of a value that was corrected in the middle.
  const sum = past.reduce((total, { temperatureC }) => total + temperatureC, 0)
  const key = [timeZone, minuteMs, past.length, last?.atMs, sum].join()
  const name = `${resourceId} ${hours}`
  const kept = forecasts.get(name)
  if (kept?.key === key) return kept.forecast
  const known = past.filter(({ atMs }) => atMs <= minuteMs)
  const forecast = forecastOrNone(known, minuteMs, hours, timeZone)
  forecasts.set(name, { key, forecast })
  return forecast
}

/** A past that cannot be computed with foretells nothing: whoever asks has to do without, as where nothing was measured. */
function forecastOrNone(...question: Parameters<typeof forecastBayTemperature>): readonly ForecastPoint[] {
  try {
    return forecastBayTemperature(...question)
  } catch (error) {
    if (error instanceof RangeError) return []
    throw error
  }
}
