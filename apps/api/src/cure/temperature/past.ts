import type { Sensor } from '@clampclock/contracts'
import { combineAir, type Thermometer } from '@clampclock/cure'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { findingsOf } from './findings.ts'
import { selectSensors } from './sensors.ts'

/** The forecast learns from this much of the past: three weeks hold every weekday three times. */
const HISTORY_DAYS = 21
const HOUR_MS = 3_600_000

/** What the thermometers of a bay have read. */
export interface Past {
  readonly sensors: readonly Sensor[]
  readonly rows: readonly ReadingRow[]
  /** What the forecast learns from: what came late tells of the nights as well as what came in time. */
  readonly learned: readonly { readonly atMs: number; readonly temperatureC: number }[]
  /** Another one as soon as a reading is added, corrected, doubted or withdrawn, or a thermometer is. */
  readonly mark: string
}

export interface ReadingRow {
  readonly sensorId: string
  readonly at: Date
  readonly temperatureC: number
  readonly relativeHumidityPercent: number | null
  readonly quality: string
  readonly findings: Prisma.JsonValue
  readonly enteredAt: Date | null
}

/** Several bonds of one bay ask within one transaction; the readings are looked for by the first of them. */
const inTransaction = new WeakMap<Tx, Map<string, Promise<Past>>>()

/** After readings have changed within a transaction: whoever asks next reads them again. */
export function forgetPast(tx: Tx): void {
  inTransaction.delete(tx)
}

/** The readings of a bay since `from`, of three weeks at least, up to `now`. */
export function pastOf(tx: Tx, resourceId: string, from: Date, now: Date): Promise<Past> {
  const since = sinceOf(from, now)
  const asked = askedIn(tx)
  const key = keyOf(resourceId, since, now)
  const past = asked.get(key) ?? readPast(tx, resourceId, since, now)
  asked.set(key, past)
  return past
}

/** Before many bonds are asked about: the thermometers of all their bays, and whether they have read since, at one go. */
export async function lookForPasts(tx: Tx, resourceIds: readonly string[], now: Date): Promise<void> {
  const since = sinceOf(now, now)
  const asked = askedIn(tx)
  const missing = [...new Set(resourceIds)].filter((id) => !asked.has(keyOf(id, since, now)))
  if (missing.length < 2) return
  const sensors = await selectSensors(tx, Prisma.sql`s.resource_id = any (${missing}::uuid[])`)
  const marks = await marksOf(tx, sensors, since, now)
  for (const id of missing) {
    const own = sensors.filter(({ resourceId }) => resourceId === id)
    const past = wholePast(tx, id, own, marks.get(id) ?? '', since, now)
    asked.set(keyOf(id, since, now), past)
    // One after the other: the transaction has one connection.
    await past
  }
}

function askedIn(tx: Tx): Map<string, Promise<Past>> {
  const asked = inTransaction.get(tx) ?? new Map<string, Promise<Past>>()
  inTransaction.set(tx, asked)
  return asked
}

/** To the hour, so that what was read a moment ago still serves. */
function sinceOf(from: Date, now: Date): Date {
  const learnFromMs = Math.min(from.getTime(), now.getTime() - HISTORY_DAYS * 24 * HOUR_MS)
  return new Date(Math.floor(learnFromMs / HOUR_MS) * HOUR_MS)
}

function keyOf(resourceId: string, since: Date, now: Date): string {
  return `${resourceId} ${since.getTime()} ${now.getTime()}`
}

/** As many bays as are kept: some 300 kB each. */
const MOST_KEPT = 200

/** What was read of each bay, by any request: it serves for as long as its mark is that of the database. */
const kept = new Map<string, Past>()

async function readPast(tx: Tx, resourceId: string, since: Date, now: Date): Promise<Past> {
  const sensors = await selectSensors(tx, Prisma.sql`s.resource_id = ${resourceId}::uuid`)
  const marks = await marksOf(tx, sensors, since, now)
  return wholePast(tx, resourceId, sensors, marks.get(resourceId) ?? '', since, now)
}

/**
 * By bay. Every row that is written has the number of the transaction that wrote it: their sum and the count tell of any
 * change. The highest would not: a transaction with a lower number may come to its end after one with a higher one, and what
 * it has changed then stays below it.
 */
async function marksOf(
  tx: Tx,
  sensors: readonly Sensor[],
  since: Date,
  now: Date,
): Promise<Map<string, string>> {
  if (sensors.length === 0) return new Map()
  const ids = sensors.map(({ id }) => id)
  const rows = await tx.$queryRaw<{ sensor_id: string; count: bigint; written_by: string }[]>`
    select sensor_id, count(*) as count, sum(xmin::text::bigint)::text as written_by from temperature_reading
     where sensor_id = any (${ids}::uuid[]) and at >= ${since}::timestamptz and at <= ${now}::timestamptz
       and quality in ('good', 'suspect')
     group by sensor_id`
  const read = new Map(rows.map(({ sensor_id, count, written_by }) => [sensor_id, `${count} ${written_by}`]))
  const marks = new Map<string, string>()
  for (const { id, resourceId, accuracyC, doubtedSince, retiredAt } of sensors) {
    const hangs = [id, accuracyC, doubtedSince?.getTime(), retiredAt?.getTime(), read.get(id)].join(' ')
    const before = marks.get(resourceId!) ?? String(since.getTime())
    marks.set(resourceId!, `${before}; ${hangs}`)
  }
  return marks
}

/** What was read by an earlier request, where its mark still holds. */
async function wholePast(
  tx: Tx,
  resourceId: string,
  sensors: readonly Sensor[],
  mark: string,
  since: Date,
  now: Date,
): Promise<Past> {
  if (sensors.length === 0) return { sensors, rows: [], learned: [], mark }
  // By where it begins too: a long bond and the forecast ask for different pasts.
  const name = `${resourceId} ${since.getTime()}`
  const known = kept.get(name)
  kept.delete(name)
  const past = known?.mark === mark ? { ...known, sensors } : await read(tx, sensors, mark, since, now)
  kept.set(name, past)
  if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!)
  return past
}

async function read(tx: Tx, sensors: readonly Sensor[], mark: string, since: Date, now: Date): Promise<Past> {
  const rows = await tx.temperatureReading.findMany({
    where: {
      sensorId: { in: sensors.map(({ id }) => id) },
      at: { gte: since, lte: now },
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
  const learned = combineAir(thermometers(sensors, rows, isDoubtedForMore)).filter(({ suspect }) => !suspect)
  return { sensors, rows, learned, mark }
}

/** For another reason than that it came late. */
export function isDoubtedForMore({ quality, findings }: ReadingRow): boolean {
  if (quality !== 'suspect') return false
  const found = findingsOf(findings)
  // Without a finding somebody doubted the thermometer itself.
  return found.length === 0 || found.some(({ kind }) => kind !== 'late')
}

export function thermometers(
  sensors: readonly Sensor[],
  rows: readonly ReadingRow[],
  isSuspect: (row: ReadingRow) => boolean,
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
