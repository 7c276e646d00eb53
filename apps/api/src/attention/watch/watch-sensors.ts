import { message, type Message, type Param } from '@clampclock/messages'
import {
  apartAtJoint,
  apartOnAverage,
  disagree,
  HAND_AIR_ACCURACY_C,
  type Known,
  type Reading,
} from '@clampclock/cure'
import { airReadAt, asks, findingSentence, findingsOf } from '../../cure/index.ts'
import { apart, degrees } from '../../foundation/words/params.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'

type Found = Omit<AttentionNeeded, 'organizationId' | 'openedAt'>

const HOUR_MS = 3_600_000
/** A single doubtful value is told of for so long, so that somebody sees it. Common practice, no source. */
const TOLD_HOURS = 12
/** Two thermometers of one bay are held against one another when both have read within this. */
const TOGETHER_MS = HOUR_MS

interface Row {
  id: string
  name: string
  shop_id: string
  unit: 'C' | 'F'
  temperature_c: number
  findings: Prisma.JsonValue
}

/**
 * Thermometers that sent something doubtful of late: one alert each, however many readings. What merely came late is told
 * on the readings themselves, since a logger that is read out each week has nothing wrong with it.
 */
export async function doubtfulSensors(tx: Tx, now: Date): Promise<Found[]> {
  const since = new Date(now.getTime() - TOLD_HOURS * HOUR_MS)
  const rows = await tx.$queryRaw<Row[]>`
    select s.id, s.name, s.shop_id, shop.temperature_unit as unit, r.temperature_c, r.findings
      from sensor s
      join shop on shop.id = s.shop_id
      join lateral (
        select r.temperature_c, r.findings
          from temperature_reading r
         where r.sensor_id = s.id and r.entered_at >= ${since}::timestamptz and r.quality = 'suspect' and r.findings is not null
           and exists (select from jsonb_array_elements(r.findings) f where f->>'kind' <> 'late')
         order by r.at limit 1) r on true
     where s.retired_at is null and s.doubted_since is null
     order by s.name`
  return rows.map((row) => {
    const finding = findingsOf(row.findings).find(({ kind }) => kind !== 'late')!
    return {
      shopId: row.shop_id,
      kind: 'sensorDoubted',
      message: message(asks(finding) ? 'alert.sensorDoubtedAsked' : 'alert.sensorDoubted', {
        sensor: row.name,
        finding: { message: findingSentence(finding, row.temperature_c, row.unit) },
      }),
      subjectKind: 'sensor',
      subjectId: row.id,
    }
  })
}

/** What two thermometers of one bay read in so long evens out. Common practice, no source. */
const ON_AVERAGE_MS = 6 * HOUR_MS

/** Two thermometers of one bay that cannot both be right, now or over hours: the colder counts until somebody says which is. */
export async function disagreeingSensors(tx: Tx, now: Date): Promise<Found[]> {
  const since = new Date(now.getTime() - ON_AVERAGE_MS)
  const sensors = await tx.sensor.findMany({
    where: { retiredAt: null, doubtedSince: null, resource: { kind: 'bay' } },
    include: {
      resource: true,
      shop: true,
      temperatureReadings: {
        where: { at: { gte: since, lte: now }, quality: { in: ['good', 'suspect'] } },
        orderBy: { at: 'asc' },
        select: { at: true, temperatureC: true, quality: true, findings: true },
      },
    },
    orderBy: { name: 'asc' },
  })
  const hung = sensors.map((sensor) => ({
    ...sensor,
    // What merely came late tells as well which of the two is warmer.
    read: sensor.temperatureReadings.filter(isOfItsValue).map(({ at, temperatureC }): Known => {
      return { atMs: at.getTime(), temperatureC, accuracyC: sensor.accuracyC }
    }),
  }))
  return hung.flatMap((a, i) => {
    const beside = hung.slice(i + 1).filter((b) => b.resourceId === a.resourceId)
    const found = beside.map((b) => apartSentence(a, b, now)).find((sentence) => sentence !== null)
    if (!found) return []
    return [
      {
        shopId: a.shopId,
        kind: 'sensorsDisagree' as const,
        message: found,
        subjectKind: 'sensor' as const,
        subjectId: a.id,
      },
    ]
  })
}

interface Hung {
  readonly name: string
  readonly resource: { readonly name: string } | null
  readonly shop: { readonly temperatureUnit: string }
  readonly read: readonly Known[]
}

const A_BAY: Param = { message: message('alert.aBay') }

/** Null where the two may both be right. */
function apartSentence(a: Hung, b: Hung, now: Date): Message | null {
  const unit = a.shop.temperatureUnit as 'C' | 'F'
  const bay = a.resource?.name ?? A_BAY
  const [one, other] = [a, b].map(({ read }) => {
    const last = read.at(-1)
    return last && now.getTime() - last.atMs <= TOGETHER_MS ? last : undefined
  })
  if (one && other && disagree(one, other))
    return message('alert.sensorsDisagree', {
      bay,
      one: a.name,
      oneAt: degrees(one.temperatureC, unit, 0),
      other: b.name,
      otherAt: degrees(other.temperatureC, unit, 0),
    })
  const apartC = apartOnAverage(a.read, b.read)
  if (apartC === null) return null
  const [warm, cold] = apartC > 0 ? [a, b] : [b, a]
  return message('alert.sensorsApart', {
    bay,
    warm: warm.name,
    apart: apart(Math.abs(apartC), unit),
    cold: cold.name,
  })
}

/** How far from the application a bay's thermometer may have read, to be held against the air at the joint. */
const AROUND_MS = HOUR_MS

/**
 * Thermometers that cannot be right if what was read at a joint that cures in their bay is: the careful estimate of that joint
 * takes the warmer of the two to read too warm, until somebody says which is.
 */
export async function sensorsApartAtJoint(tx: Tx, now: Date): Promise<Found[]> {
  const bonds = await tx.bond.findMany({
    where: { state: { in: ['applied', 'clamped'] }, bayId: { not: null } },
    include: {
      panelReadings: true,
      bay: true,
      joint: { include: { repairOrder: { include: { shop: true } } } },
    },
    orderBy: [{ appliedAt: 'desc' }, { id: 'asc' }],
  })
  const found: Found[] = []
  for (const bond of bonds) {
    const joint = airReadAt(bond)
    const sensors = await tx.sensor.findMany({
      where: { resourceId: bond.bayId, retiredAt: null, doubtedSince: null },
      include: {
        temperatureReadings: {
          where: {
            at: {
              gte: new Date(joint.atMs - AROUND_MS),
              lte: new Date(Math.min(joint.atMs + AROUND_MS, now.getTime())),
            },
            quality: { in: ['good', 'suspect'] },
          },
          orderBy: { at: 'asc' },
        },
      },
      orderBy: { name: 'asc' },
    })
    for (const { id, name, shopId, accuracyC, temperatureReadings } of sensors) {
      const air = temperatureReadings
        .filter((row) => wasBelieved(row, bond.appliedAt))
        .map(({ at, temperatureC }): Reading => {
          return { atMs: at.getTime(), temperatureC, accuracyC, source: 'bayAir' }
        })
      const apartC = apartAtJoint(air, joint) ?? 0
      const bayC = joint.temperatureC + apartC
      const known = { atMs: joint.atMs, temperatureC: bayC, accuracyC }
      if (!disagree(known, { ...joint, accuracyC: HAND_AIR_ACCURACY_C })) continue
      const { repairOrder } = bond.joint
      const unit = repairOrder.shop.temperatureUnit as 'C' | 'F'
      found.push({
        shopId,
        kind: 'sensorsDisagree',
        message: message('alert.sensorApartAtJoint', {
          bay: bond.bay?.name ?? A_BAY,
          sensor: name,
          there: degrees(bayC, unit, 0),
          atJoint: degrees(joint.temperatureC, unit, 0),
          order: repairOrder.number,
          joint: bond.joint.name,
        }),
        subjectKind: 'sensor',
        subjectId: id,
      })
    }
  }
  return found
}

/** Good, or merely late. */
function isOfItsValue({ quality, findings }: { quality: string; findings: Prisma.JsonValue }): boolean {
  if (quality === 'good') return true
  const found = findingsOf(findings)
  return found.length > 0 && found.every(({ kind }) => kind === 'late')
}

/** The same, and on file when the adhesive went on. */
function wasBelieved(
  row: { quality: string; findings: Prisma.JsonValue; enteredAt: Date | null },
  appliedAt: Date,
): boolean {
  if (row.quality === 'good') return true
  return isOfItsValue(row) && row.enteredAt !== null && row.enteredAt <= appliedAt
}
