import type { Sensor } from '@clampclock/contracts'
import {
  combineAir,
  forecastBayTemperature,
  limitsOfPlace,
  type ForecastPoint,
  type PlaceLimits,
  type Reading,
  type Thermometer,
} from '@clampclock/cure'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { findingsOf } from './findings.ts'
import { selectSensors } from './sensors.ts'

/** The forecast learns from this much of the past: three weeks hold every weekday three times. */
const HISTORY_DAYS = 21
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
  const isSuspect = (row: Row) =>
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

/** Of two thermometers the other one speaks for so long after it has read. */
const SPEAKS_MS = 3_600_000

function wasKnown({ enteredAt }: Row, by: Date | undefined): boolean {
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

interface Past {
  readonly sensors: readonly Sensor[]
  readonly rows: readonly Row[]
  /** What the forecast learns from: what came late tells of the nights as well as what came in time. */
  readonly learned: readonly { readonly atMs: number; readonly temperatureC: number }[]
}

/** Several bonds of one bay ask within one transaction; the readings are read for the first of them. */
const pasts = new WeakMap<Tx, Map<string, Past>>()

/** After readings have changed within a transaction: whoever asks next reads them again. */
export function forgetPast(tx: Tx): void {
  pasts.delete(tx)
}

async function pastOf(tx: Tx, resourceId: string, from: Date, now: Date): Promise<Past> {
  const learnFrom = new Date(Math.min(from.getTime(), now.getTime() - HISTORY_DAYS * 86_400_000))
  const key = `${resourceId} ${learnFrom.getTime()} ${now.getTime()}`
  const kept = pasts.get(tx)?.get(key)
  if (kept) return kept
  const sensors = await selectSensors(tx, Prisma.sql`s.resource_id = ${resourceId}::uuid`)
  const rows =
    sensors.length === 0
      ? []
      : await tx.temperatureReading.findMany({
          where: {
            sensorId: { in: sensors.map(({ id }) => id) },
            at: { gte: learnFrom, lte: now },
            quality: { in: ['good', 'suspect'] },
          },
          orderBy: { at: 'asc' },
          select: {
            sensorId: true,
            at: true,
            temperatureC: true,
            relativeHumidityPercent: true,
            quality: true,
            findings: true,
            enteredAt: true,
          },
        })
  const past: Past = {
    sensors,
    rows,
    learned: combineAir(thermometers(sensors, rows, isDoubtedForMore)).filter(({ suspect }) => !suspect),
  }
  pasts.set(tx, (pasts.get(tx) ?? new Map<string, Past>()).set(key, past))
  return past
}

interface Row {
  readonly sensorId: string
  readonly at: Date
  readonly temperatureC: number
  readonly relativeHumidityPercent: number | null
  readonly quality: string
  readonly findings: Prisma.JsonValue
  readonly enteredAt: Date | null
}

function isDoubtedForMore({ quality, findings }: Row): boolean {
  if (quality !== 'suspect') return false
  const found = findingsOf(findings)
  // Without a finding somebody doubted the thermometer itself.
  return found.length === 0 || found.some(({ kind }) => kind !== 'late')
}

function thermometers(
  sensors: readonly Sensor[],
  rows: readonly Row[],
  isSuspect: (row: Row) => boolean,
): Thermometer[] {
  return sensors.map(({ id, accuracyC, doubtedSince, retiredAt }) => ({
    samples: rows
      .filter(({ sensorId }) => sensorId === id)
      .map((row) => ({
        atMs: row.at.getTime(),
        temperatureC: row.temperatureC,
        accuracyC,
        suspect: isSuspect(row),
      })),
    doubtedSinceMs: doubtedSince?.getTime() ?? null,
    retiredAtMs: retiredAt?.getTime() ?? null,
  }))
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
