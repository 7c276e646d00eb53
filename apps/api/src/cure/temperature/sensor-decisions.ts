import { degrees } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type {
  BodyOf,
  QueryOf,
  ResultOf,
  Sensor,
  SensorDecision,
  readingDecisionRoutes,
} from '@clampclock/contracts'
import { celsiusToFahrenheit, fahrenheitToCelsius, isWithin } from '@clampclock/quantities'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { SensorDecision as DecisionRow } from '../../generated/prisma/client.ts'
import { invalidField, wrongState } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { followed } from './add-readings.ts'
import { storedFindings, toldFindings } from './findings.ts'
import { judgeReadings } from './judge-readings.ts'
import { airRange } from './room-air.ts'
import { sensorById } from './sensors.ts'

/** Two who decide about one thermometer do so one after the other. */
async function lockedSensor(tx: Tx, actor: Actor, id: string): Promise<Sensor> {
  await tx.$queryRaw`select 1 from sensor where id = ${id}::uuid for no key update`
  const sensor = await sensorById(tx, id)
  requireIn(actor, 'takeResponsibility', sensor.shopId)
  return sensor
}

interface Decision {
  readonly kind: SensorDecision['kind']
  readonly reason: string
  readonly fromAt?: Date
  readonly untilAt?: Date
  readonly readings?: number
  readonly replacedById?: string | null
}

function keep(tx: Tx, actor: Actor, sensorId: string, decision: Decision, now: Date): Promise<DecisionRow> {
  return tx.sensorDecision.create({
    data: { ...decision, sensorId, organizationId: actor.organization.id, at: now, decidedBy: actor.name },
  })
}

/** What it read until now still counts; from now on nothing of it does, and nothing is taken from it. */
export async function retireSensor(
  tx: Tx,
  actor: Actor,
  id: string,
  { reason, replacedById }: BodyOf<typeof readingDecisionRoutes.retireSensor>,
  now: Date,
): Promise<Sensor> {
  const sensor = await lockedSensor(tx, actor, id)
  if (sensor.retiredAt !== null)
    throw wrongState(message('cure-problem.outOfUseAlready', { name: sensor.name }))
  if (replacedById !== null) {
    const { shopId, resourceId, locationId } = sensor
    const next = await tx.sensor.findFirst({
      where: { id: replacedById, shopId, resourceId, locationId, retiredAt: null },
    })
    if (!next || next.id === id)
      throw invalidField(
        'body.replacedById',
        message('cure-problem.noOtherThermometer'),
        message('cure-problem.addNewFirstFix'),
      )
  }
  await tx.sensor.update({ where: { id }, data: { retiredAt: now } })
  await keep(tx, actor, id, { kind: 'retired', reason, replacedById }, now)
  await followed(tx, actor, sensor, now, now)
  return sensorById(tx, id)
}

export async function doubtSensor(
  tx: Tx,
  actor: Actor,
  id: string,
  { reason }: BodyOf<typeof readingDecisionRoutes.doubtSensor>,
  now: Date,
): Promise<Sensor> {
  const sensor = await lockedSensor(tx, actor, id)
  if (sensor.retiredAt !== null) throw wrongState(message('problem.outOfUse', { name: sensor.name }))
  if (sensor.doubtedSince !== null)
    throw wrongState(message('cure-problem.doubtedAlready', { name: sensor.name }))
  await tx.sensor.update({ where: { id }, data: { doubtedSince: now } })
  await keep(tx, actor, id, { kind: 'doubted', reason }, now)
  await followed(tx, actor, sensor, now, now)
  return sensorById(tx, id)
}

/** Counts again from now on: what it read while it was doubted stays in doubt. */
export async function trustSensor(
  tx: Tx,
  actor: Actor,
  id: string,
  { reason }: BodyOf<typeof readingDecisionRoutes.trustSensor>,
  now: Date,
): Promise<Sensor> {
  const sensor = await lockedSensor(tx, actor, id)
  const { doubtedSince } = sensor
  if (doubtedSince === null) throw wrongState(message('cure-problem.notDoubted', { name: sensor.name }))
  const { id: decisionId } = await keep(tx, actor, id, { kind: 'trusted', reason }, now)
  await tx.temperatureReading.updateMany({
    where: { sensorId: id, at: { gte: doubtedSince, lte: now }, quality: 'good' },
    data: { quality: 'suspect', decisionId },
  })
  await tx.sensor.update({ where: { id }, data: { doubtedSince: null } })
  await followed(tx, actor, sensor, doubtedSince, now)
  return sensorById(tx, id)
}

/** More at once would hold the thermometer's place for long: a longer span is corrected in parts. */
const MOST_READINGS = 10_000

/** @throws {ProblemError} `invalid-request` for a span without readings, or a unit that they cannot have been in. */
export async function correctReadings(
  tx: Tx,
  actor: Actor,
  id: string,
  { kind, from, until, reason }: BodyOf<typeof readingDecisionRoutes.correctSensorReadings>,
  now: Date,
): Promise<SensorDecision> {
  const sensor = await lockedSensor(tx, actor, id)
  const rows = await tx.temperatureReading.findMany({
    where: { sensorId: id, at: { gte: from, lte: until }, quality: { in: ['good', 'suspect'] } },
    orderBy: { at: 'asc' },
    take: MOST_READINGS + 1,
  })
  if (rows.length === 0)
    throw invalidField('body.from', message('cure-problem.noReadingInSpan', { name: sensor.name }))
  if (rows.length > MOST_READINGS)
    throw invalidField(
      'body.until',
      message('cure-problem.manyReadingsBefore', { most: MOST_READINGS }),
      message('cure-problem.correctInPartsFix'),
    )
  const decision = await keep(
    tx,
    actor,
    id,
    { kind, reason, fromAt: from, untilAt: until, readings: rows.length },
    now,
  )
  if (kind === 'withdrawn')
    await tx.temperatureReading.updateMany({
      where: { sensorId: id, at: { gte: from, lte: until }, quality: { in: ['good', 'suspect'] } },
      data: { quality: 'withdrawn', decisionId: decision.id },
    })
  else await replaceValues(tx, sensor, rows, kind, decision.id, now)
  await followed(tx, actor, sensor, rows[0]!.at, now)
  return toDecision(decision)
}

/** Each is a claim of now about then, judged as if it had just come. */
async function replaceValues(
  tx: Tx,
  sensor: Sensor,
  rows: Awaited<ReturnType<Tx['temperatureReading']['findMany']>>,
  kind: 'wasFahrenheit' | 'wasCelsius',
  decisionId: string,
  now: Date,
): Promise<void> {
  const meant = kind === 'wasFahrenheit' ? fahrenheitToCelsius : celsiusToFahrenheit
  const range = await airRange(tx, sensor)
  const corrected = rows.map((row) => ({
    ...row,
    temperatureC: Math.round(meant(row.temperatureC) * 100) / 100,
  }))
  if (corrected.some(({ temperatureC }) => !isWithin(range, temperatureC)))
    throw invalidField(
      'body.kind',
      message('cure-problem.readingsOutside', {
        low: degrees(range.min, 'C', 0),
        high: degrees(range.max, 'C', 0),
      }),
      message('cure-problem.withdrawInsteadFix'),
    )
  const judged = await judgeReadings(tx, sensor, corrected, new Map(), now)
  for (const [i, { reading, findings }] of judged.entries()) {
    const { at, temperatureC } = reading
    await tx.temperatureReading.update({
      where: { sensorId_at: { sensorId: sensor.id, at } },
      data: {
        temperatureC,
        sentC: rows[i]!.sentC ?? rows[i]!.temperatureC,
        decisionId,
        enteredAt: now,
        quality: findings.length === 0 ? 'good' : 'suspect',
        findings: storedFindings(findings) ?? [],
      },
    })
  }
}

export async function listDecisions(tx: Tx, actor: Actor, id: string): Promise<SensorDecision[]> {
  const sensor = await sensorById(tx, id)
  requireIn(actor, 'readShop', sensor.shopId)
  const rows = await tx.sensorDecision.findMany({
    where: { sensorId: id },
    orderBy: [{ at: 'desc' }, { id: 'asc' }],
    take: 200,
  })
  return rows.map(toDecision)
}

function toDecision(row: DecisionRow): SensorDecision {
  const { id, fromAt, untilAt, readings, replacedById, reason, at } = row
  return {
    id,
    kind: row.kind as SensorDecision['kind'],
    span: fromAt && untilAt ? { from: fromAt, until: untilAt, readings } : null,
    replacedById,
    reason,
    at,
    by: row.decidedBy,
  }
}

export async function listReadings(
  tx: Tx,
  actor: Actor,
  id: string,
  { until, limit, doubtful }: QueryOf<typeof readingDecisionRoutes.listSensorReadings>,
  now: Date,
): Promise<ResultOf<typeof readingDecisionRoutes.listSensorReadings>> {
  const sensor = await sensorById(tx, id)
  requireIn(actor, 'readShop', sensor.shopId)
  const { temperatureUnit } = await shopById(tx, sensor.shopId)
  const rows = await tx.temperatureReading.findMany({
    where: {
      sensorId: id,
      at: { lte: until ?? now },
      ...(doubtful === 'true' ? { quality: { not: 'good' } } : {}),
    },
    orderBy: { at: 'desc' },
    take: limit,
  })
  return {
    items: rows.map(({ at, enteredAt, temperatureC, sentC, relativeHumidityPercent, quality, findings }) => ({
      at,
      enteredAt,
      temperatureC,
      sentC,
      relativeHumidityPercent,
      quality: quality as 'good',
      findings: toldFindings(findings, temperatureC, temperatureUnit),
    })),
  }
}
