import type { Sensor } from '@clampclock/contracts'
import { forecastBayTemperature, type ForecastPoint, type Reading } from '@clampclock/cure'
import { Prisma } from '../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import { selectSensors } from './sensors.ts'

/** The forecast learns from this much of the past: three weeks hold every weekday three times. */
const HISTORY_DAYS = 21
/** Long enough for a cold weekend. */
const HORIZON_HOURS = 96

export interface AirReading {
  readonly at: Date
  readonly temperatureC: number
  readonly relativeHumidityPercent: number | null
}

export interface BayTemperature {
  readonly sensor: Sensor | null
  /** Bay air since the instant asked for. */
  readonly readings: readonly AirReading[]
  readonly forecast: readonly ForecastPoint[]
}

/** What the bay's thermometer read since `from`, and the forecast from all it has read. */
export async function bayTemperature(
  tx: Tx,
  resourceId: string,
  timeZone: string,
  from: Date,
  now: Date,
): Promise<BayTemperature> {
  const { sensor, rows } = await pastOf(tx, resourceId, from, now)
  if (!sensor) return { sensor: null, readings: [], forecast: [] }
  const past = rows.map(({ at, temperatureC }) => ({ atMs: at.getTime(), temperatureC }))
  return {
    sensor,
    readings: rows.filter(({ at }) => at >= from),
    forecast: forecastOf(sensor, past, now, timeZone),
  }
}

/** The air of a bay to come, where no past is asked for. Empty without a thermometer that reads. */
export async function bayForecast(
  tx: Tx,
  resourceId: string,
  timeZone: string,
  now: Date,
  hours = HORIZON_HOURS,
): Promise<readonly ForecastPoint[]> {
  const { sensor, rows } = await pastOf(tx, resourceId, now, now)
  if (!sensor) return []
  const past = rows.map(({ at, temperatureC }) => ({ atMs: at.getTime(), temperatureC }))
  return forecastOf(sensor, past, now, timeZone, hours)
}

interface Past {
  readonly sensor: Sensor | null
  readonly rows: readonly AirReading[]
}

/** Several bonds of one bay ask within one transaction; the readings are read for the first of them. */
const pasts = new WeakMap<Tx, Map<string, Past>>()

async function pastOf(tx: Tx, resourceId: string, from: Date, now: Date): Promise<Past> {
  const learnFrom = new Date(Math.min(from.getTime(), now.getTime() - HISTORY_DAYS * 86_400_000))
  const key = `${resourceId} ${learnFrom.getTime()} ${now.getTime()}`
  const kept = pasts.get(tx)?.get(key)
  if (kept) return kept
  const [sensor = null] = await selectSensors(tx, Prisma.sql`s.resource_id = ${resourceId}::uuid`)
  const rows = sensor
    ? await tx.temperatureReading.findMany({
        where: { sensorId: sensor.id, at: { gte: learnFrom, lte: now } },
        orderBy: { at: 'asc' },
        select: { at: true, temperatureC: true, relativeHumidityPercent: true },
      })
    : []
  const past = { sensor, rows }
  pasts.set(tx, (pasts.get(tx) ?? new Map<string, Past>()).set(key, past))
  return past
}

/** Bay air as the cure computation takes it. */
export function airReadings({ sensor, readings }: BayTemperature): Reading[] {
  if (!sensor) return []
  return readings.map(({ at, temperatureC }) => ({
    atMs: at.getTime(),
    temperatureC,
    accuracyC: sensor.accuracyC,
    source: 'bayAir',
  }))
}

/** The last forecast of each sensor: it only changes with a new reading or a new minute. */
const forecasts = new Map<string, { key: string; forecast: readonly ForecastPoint[] }>()

function forecastOf(
  sensor: Sensor,
  past: readonly { atMs: number; temperatureC: number }[],
  now: Date,
  timeZone: string,
  hours = HORIZON_HOURS,
): readonly ForecastPoint[] {
  // To the minute, so that many requests share one; a forecast of up to a minute ago begins before now and still holds.
  const minuteMs = Math.floor(now.getTime() / 60_000) * 60_000
  const last = past.at(-1)
  const key = [timeZone, minuteMs, past.length, last?.atMs, last?.temperatureC].join()
  const name = `${sensor.id} ${hours}`
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
