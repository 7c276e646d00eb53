import { written } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { BodyOf, ResultOf, Sensor, temperatureRoutes } from '@clampclock/contracts'
import type { ReadingFinding } from '@clampclock/cure'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import { invalidField, invalidFields, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { holdAfterExcursion, refreshStorageLife } from '../../supply/index.ts'
import { airLearned } from './events.ts'
import { forgetPast } from './past.ts'
import { storedFindings } from './findings.ts'
import { judgeReadings } from './judge-readings.ts'
import { MOST_FAULTS, readReadings } from './readings-table.ts'
import { airFault, airRange } from './room-air.ts'
import { forgetHabits } from './sensor-habits.ts'
import { sensorById } from './sensors.ts'

type Sent = BodyOf<typeof temperatureRoutes.addTemperatureReadings>['readings']
type Stored = ResultOf<typeof temperatureRoutes.addTemperatureReadings>

/** A clock that runs a little ahead is no fault; one that is an hour ahead would poison the forecast. */
const AHEAD_MS = 5 * 60_000

/** Stores readings in any order; one that is there already is left as it is, so sending twice does no harm. */
export async function addReadings(
  tx: Tx,
  actor: Actor,
  sensorId: string,
  { readings }: BodyOf<typeof temperatureRoutes.addTemperatureReadings>,
  now: Date,
): Promise<Stored> {
  const sensor = await sensorById(tx, sensorId)
  requireIn(actor, 'recordTemperature', sensor.shopId)
  readings.forEach((reading, i) => {
    if (reading.at.getTime() > now.getTime() + AHEAD_MS) {
      throw invalidField(
        `body.readings.${i}.at`,
        message('problem.inFuture'),
        message('cure-problem.clockFix'),
      )
    }
  })
  const range = await airRange(tx, sensor)
  const faults = readings.flatMap(
    ({ temperatureC }, i) => airFault(temperatureC, range, `body.readings.${i}.temperatureC`) ?? [],
  )
  if (faults.length > 0) throw invalidFields(faults.slice(0, MOST_FAULTS))
  const stored = await store(tx, actor, sensor, readings, now)
  if (stored.fromAt) await followed(tx, actor, sensor, stored.fromAt, now)
  return stored.counts
}

/** What is older may tell another story of what the thermometer does of itself, ms. */
const HABITS_MS = 3_600_000

/** As many as one statement takes well. */
const CHUNK = 1000

/** A whole table, in order of time, so that each part goes on where the one before ended. */
export async function addReadingsTable(
  tx: Tx,
  actor: Actor,
  sensorId: string,
  csv: string,
  now: Date,
): Promise<ResultOf<typeof temperatureRoutes.addReadingsTable>> {
  const sensor = await sensorById(tx, sensorId)
  requireIn(actor, 'recordTemperature', sensor.shopId)
  const range = await airRange(tx, sensor)
  const readings = readReadings(csv, range).toSorted((a, b) => a.at.getTime() - b.at.getTime())
  const last = readings.at(-1)
  if (last && last.at.getTime() > now.getTime() + AHEAD_MS)
    throw invalidField(
      'body.csv',
      message('cure-problem.readingInFuture', {
        at: written(last.at, (await shopById(tx, sensor.shopId)).timeZone),
      }),
      message('cure-problem.loggerClockFix'),
    )
  const total = { stored: 0, alreadyThere: 0, differing: 0, suspect: 0 }
  let fromAt: Date | null = null
  for (let i = 0; i < readings.length;) {
    // One instant is never split over two parts: what came for it twice is told as two.
    let end = Math.min(i + CHUNK, readings.length)
    while (end < readings.length && readings[end]!.at.getTime() === readings[end - 1]!.at.getTime()) end++
    const part = await store(tx, actor, sensor, readings.slice(i, end), now)
    fromAt ??= part.fromAt
    for (const key of ['stored', 'alreadyThere', 'differing', 'suspect'] as const)
      total[key] += part.counts[key]
    i = end
  }
  if (fromAt) await followed(tx, actor, sensor, fromAt, now)
  return total
}

interface Part {
  readonly counts: Stored
  /** The first instant that is new; null when nothing was. */
  readonly fromAt: Date | null
}

async function store(tx: Tx, actor: Actor, sensor: Sensor, readings: Sent, now: Date): Promise<Part> {
  const organizationId = actor.organization.id
  const { id: sensorId, retiredAt } = sensor
  const { distinct, others } = onePerInstant(readings)
  if (retiredAt !== null && distinct.some(({ at }) => at >= retiredAt))
    throw wrongState(
      message('problem.outOfUse', { name: sensor.name }),
      message('cure-problem.otherThermometerFix'),
    )
  const there = await tx.temperatureReading.findMany({
    where: { sensorId, at: { in: distinct.map(({ at }) => at) } },
  })
  const known = new Map(there.map((old) => [old.at.getTime(), old]))
  const fresh = distinct.filter(({ at }) => !known.has(at.getTime()))
  const judged = await judgeReadings(tx, sensor, fresh, others, now)
  const { count } = await tx.temperatureReading.createMany({
    data: judged.map(({ reading, findings }) => ({
      ...reading,
      organizationId,
      sensorId,
      enteredAt: now,
      ...(findings.length === 0 ? {} : { quality: 'suspect', findings: storedFindings(findings)! }),
    })),
    skipDuplicates: true,
  })
  const differing = readings.filter((sent) => {
    const old = known.get(sent.at.getTime())
    const kept = old ? { ...old, temperatureC: old.sentC ?? old.temperatureC } : keptOf(distinct, sent)
    return (
      sent.temperatureC !== kept.temperatureC || sent.relativeHumidityPercent !== kept.relativeHumidityPercent
    )
  }).length
  if (sensor.locationId && fresh.length > 0)
    await holdAfterExcursion(tx, organizationId, sensor.locationId, fresh, now)
  return {
    counts: {
      stored: count,
      alreadyThere: readings.length - count,
      differing,
      suspect: judged.filter(({ findings }) => findings.length > 0).length,
    },
    fromAt: fresh[0] ? changedFrom(fresh[0], judged) : null,
  }
}

function keptOf(distinct: Sent, sent: Sent[number]): Sent[number] {
  return distinct.find(({ at }) => at.getTime() === sent.at.getTime()) ?? sent
}

/** By time. Of two values for one instant the colder is kept, and the other told: nobody knows which is right. */
function onePerInstant(readings: Sent): { distinct: Sent; others: ReadonlyMap<number, number> } {
  const kept = new Map<number, Sent[number]>()
  const others = new Map<number, number>()
  for (const reading of readings) {
    const ms = reading.at.getTime()
    const before = kept.get(ms)
    if (before && before.temperatureC !== reading.temperatureC)
      others.set(ms, Math.max(before.temperatureC, reading.temperatureC))
    if (!before || reading.temperatureC < before.temperatureC) kept.set(ms, reading)
  }
  const distinct = [...kept.values()].toSorted((a, b) => a.at.getTime() - b.at.getTime())
  return { distinct, others }
}

/** The first instant from which anything counts otherwise: what stood still was believed until it had for too long. */
function changedFrom(
  { at }: { readonly at: Date },
  judged: readonly { readonly findings: readonly ReadingFinding[] }[],
): Date {
  const since = judged.flatMap(({ findings }) =>
    findings.flatMap((finding) => (finding.kind === 'stuck' ? (finding.sinceMs ?? []) : [])),
  )
  return new Date(Math.min(at.getTime(), ...since))
}

/** What follows from readings that are new, or that count otherwise from `fromAt` on. */
export async function followed(tx: Tx, actor: Actor, sensor: Sensor, fromAt: Date, now: Date): Promise<void> {
  const scope = { organizationId: actor.organization.id, shopId: sensor.shopId }
  forgetPast(tx)
  if (now.getTime() - fromAt.getTime() > HABITS_MS) forgetHabits(sensor.id)
  if (sensor.locationId) {
    await refreshStorageLife(tx, sensor.locationId, fromAt)
    await announce(tx, { ...scope, topic: 'stock' })
  }
  if (sensor.resourceId) await tell(tx, airLearned, { bayId: sensor.resourceId, fromAt, now })
  await announce(tx, { ...scope, topic: 'temperature', subjectId: sensor.resourceId ?? sensor.locationId })
}
