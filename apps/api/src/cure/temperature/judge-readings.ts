import type { Sensor } from '@clampclock/contracts'
import { judgeAir, type Claim, type Jumped, type Known, type ReadingFinding } from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import { dateOf } from '../../foundation/http/dates.ts'
import { isCalibratedAt } from '../../foundation/shops/instruments.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { findingsOf, storedFindings } from './findings.ts'
import { HABIT_HOURS, habitsOfSensor } from './sensor-habits.ts'

interface Sent {
  readonly at: Date
  readonly temperatureC: number
  readonly relativeHumidityPercent: number | null
}

export interface Judged<Reading> {
  readonly reading: Reading
  readonly findings: readonly ReadingFinding[]
}

const HOUR_MS = 3_600_000
/** Of the thermometer itself, for how long it has stood still. */
const OWN_HOURS = 24
/** Of the others, for whether they moved. */
const OTHERS_HOURS = 7
const MOST_OTHERS = 20_000

/**
 * What makes each of these readings doubtful, which are new and sorted by time. `others` has the second value that came
 * for an instant. The reading before them is judged once more, since a spike shows only in what follows it.
 */
export async function judgeReadings<Reading extends Sent>(
  tx: Tx,
  sensor: Sensor,
  readings: readonly Reading[],
  others: ReadonlyMap<number, number>,
  now: Date,
): Promise<Judged<Reading>[]> {
  const [first, last] = [readings[0], readings.at(-1)]
  if (!first || !last) return []
  const { timeZone } = await shopById(tx, sensor.shopId)
  const calibratedUntil = sensor.calibratedUntil === null ? null : dateOf(sensor.calibratedUntil)
  const claimOf = ({ at, temperatureC }: Pick<Sent, 'at' | 'temperatureC'>, enteredAt: Date): Claim => ({
    atMs: at.getTime(),
    enteredAtMs: enteredAt.getTime(),
    temperatureC,
    accuracyC: sensor.accuracyC,
    source: 'bayAir',
    // One that was never calibrated has no date to pass.
    ...(calibratedUntil === null ? {} : { inCalibration: isCalibratedAt(calibratedUntil, at, timeZone) }),
  })
  const { jumped, lastBelieved } = await upThere(tx, sensor, first.at)
  const day = await believed(tx, { sensorId: sensor.id }, OWN_HOURS, first.at, first.at)
  const own = day.length === 0 && lastBelieved ? [lastBelieved] : day
  const before = day.at(-1)
  const claims = readings.map((reading) => claimOf(reading, now))
  const context = {
    own,
    onFile: await believed(tx, { sensorId: sensor.id }, 0, first.at, new Date(last.at.getTime() + HOUR_MS)),
    others: await believed(
      tx,
      {
        sensor: {
          shopId: sensor.shopId,
          id: { not: sensor.id },
          doubtedSince: null,
          OR: [{ resourceId: null }, { resource: { kind: 'bay' } }],
        },
      },
      OTHERS_HOURS,
      first.at,
      new Date(last.at.getTime() + 1),
    ),
    habits: await habitsOfSensor(sensor.id, first.at, () =>
      believed(tx, { sensorId: sensor.id }, HABIT_HOURS, first.at, first.at),
    ),
    jumped,
    isOven: await isOven(tx, sensor),
  }
  if (before && !context.isOven)
    await judgeOnceMore(tx, sensor, before, claims, { ...context, onFile: [], own: own.slice(0, -1) })
  const findings = judgeAir(claims, context)
  await doubtTheRun(tx, sensor, first.at, findings.flat())
  return readings.map((reading, i) => {
    const otherC = others.get(reading.at.getTime())
    return {
      reading,
      findings: [...findings[i]!, ...(otherC === undefined ? [] : [{ kind: 'twoValues', otherC } as const])],
    }
  })
}

/**
 * Whether the reading before was doubted as a jump: what stays up there is held against the last that was believed, however
 * long ago, until somebody who doubted the thermometer trusts it again.
 */
async function upThere(
  tx: Tx,
  { id: sensorId }: Sensor,
  before: Date,
): Promise<{ jumped?: Jumped; lastBelieved?: Known }> {
  const last = await tx.temperatureReading.findFirst({
    where: { sensorId, at: { lt: before }, quality: { in: ['good', 'suspect'] } },
    orderBy: { at: 'desc' },
  })
  const jump = last && findingsOf(last.findings).find((finding) => finding.kind === 'jumped')
  if (!jump) return {}
  const trusted = await tx.sensorDecision.count({
    where: { sensorId, kind: 'trusted', at: { gte: last.at } },
  })
  if (trusted > 0) return {}
  return {
    jumped: { atMs: last.at.getTime(), temperatureC: last.temperatureC, riseC: jump.riseC },
    // Of long ago its accuracy bears on nothing.
    lastBelieved: { atMs: last.at.getTime(), temperatureC: jump.previousC, accuracyC: 0 },
  }
}

/** What has shown the same digits for too long has done so since the second of them: those are on file, and were believed. */
async function doubtTheRun(
  tx: Tx,
  { id: sensorId }: Sensor,
  before: Date,
  findings: readonly ReadingFinding[],
): Promise<void> {
  const stuck = findings.find((finding) => finding.kind === 'stuck')
  if (stuck?.sinceMs === undefined) return
  await tx.temperatureReading.updateMany({
    where: { sensorId, at: { gt: new Date(stuck.sinceMs), lt: before }, quality: 'good' },
    data: { quality: 'suspect', findings: storedFindings([stuck])! },
  })
}

async function isOven(tx: Tx, { resourceId }: Sensor): Promise<boolean> {
  if (resourceId === null) return false
  return (await tx.resource.count({ where: { id: resourceId, kind: 'oven' } })) > 0
}

type Where = Parameters<Tx['temperatureReading']['findMany']>[0] extends infer A
  ? NonNullable<A> extends { where?: infer W }
    ? NonNullable<W>
    : never
  : never

/** Readings whose value nobody doubts, by time, from `hours` before `from` up to `until`, which is left out. */
async function believed(tx: Tx, where: Where, hours: number, from: Date, until: Date): Promise<Known[]> {
  const rows = await tx.temperatureReading.findMany({
    where: {
      ...where,
      at: { gte: new Date(from.getTime() - hours * HOUR_MS), lt: until },
      quality: { in: ['good', 'suspect'] },
    },
    orderBy: { at: 'desc' },
    take: MOST_OTHERS,
    select: { at: true, temperatureC: true, findings: true, sensor: { select: { accuracyC: true } } },
  })
  return rows
    .filter(({ findings }) =>
      findingsOf(findings).every(({ kind }) => kind === 'late' || kind === 'outOfCalibration'),
    )
    .map(({ at, temperatureC, sensor }) => ({
      atMs: at.getTime(),
      temperatureC,
      accuracyC: sensor.accuracyC,
    }))
    .toReversed()
}

async function judgeOnceMore(
  tx: Tx,
  { id: sensorId }: Sensor,
  before: Known,
  claims: readonly Claim[],
  context: Parameters<typeof judgeAir>[1],
): Promise<void> {
  const claim: Claim = { ...before, source: 'bayAir', enteredAtMs: before.atMs }
  const [found = []] = judgeAir([claim, claims[0]!], context)
  const spike = found.filter(({ kind }) => kind === 'spike')
  if (spike.length === 0) return
  const at = new Date(before.atMs)
  const row = await tx.temperatureReading.findUniqueOrThrow({ where: { sensorId_at: { sensorId, at } } })
  await tx.temperatureReading.update({
    where: { sensorId_at: { sensorId, at } },
    data: { quality: 'suspect', findings: storedFindings([...findingsOf(row.findings), ...spike])! },
  })
}
