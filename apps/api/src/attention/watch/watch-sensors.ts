import { apartAtJoint, disagree, HAND_AIR_ACCURACY_C, type Reading } from '@clampclock/cure'
import { airAtJointOf, findingSentence, findingsOf } from '../../cure/index.ts'
import { formatTemperature } from '@clampclock/quantities'
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
      message: `${row.name}: ${findingSentence(finding, row.temperature_c, row.unit).replace(/\?$/, '')}. Until somebody looks, such readings may only delay`,
      subjectKind: 'sensor',
      subjectId: row.id,
    }
  })
}

/** Two thermometers of one bay that cannot both be right: the colder counts until somebody says which is. */
export async function disagreeingSensors(tx: Tx, now: Date): Promise<Found[]> {
  const since = new Date(now.getTime() - TOGETHER_MS)
  const sensors = await tx.sensor.findMany({
    where: { retiredAt: null, doubtedSince: null, resource: { kind: 'bay' } },
    include: {
      resource: true,
      shop: true,
      temperatureReadings: {
        where: { at: { gte: since, lte: now }, quality: 'good' },
        orderBy: { at: 'desc' },
        take: 1,
      },
    },
    orderBy: { name: 'asc' },
  })
  return sensors.flatMap((a, i) => {
    const [read] = a.temperatureReadings
    if (!read) return []
    const known = (sensor: typeof a, { at, temperatureC }: typeof read) => ({
      atMs: at.getTime(),
      temperatureC,
      accuracyC: sensor.accuracyC,
    })
    const other = sensors.slice(i + 1).find((b) => {
      const [theirs] = b.temperatureReadings
      return b.resourceId === a.resourceId && theirs && disagree(known(a, read), known(b, theirs))
    })
    if (!other) return []
    const unit = a.shop.temperatureUnit as 'C' | 'F'
    const [c, otherC] = [read.temperatureC, other.temperatureReadings[0]!.temperatureC]
    return [
      {
        shopId: a.shopId,
        kind: 'sensorsDisagree' as const,
        message:
          `${a.resource?.name ?? 'A bay'}: ${a.name} reads ${formatTemperature(c, unit, 0)}, ${other.name} ${formatTemperature(otherC, unit, 0)}. ` +
          'The colder one counts until somebody says which is right',
        subjectKind: 'sensor' as const,
        subjectId: a.id,
      },
    ]
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
    const joint = airAtJointOf(bond)
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
        message:
          `${bond.bay?.name ?? 'A bay'}: ${name} read ${formatTemperature(bayC, unit, 0)}, the air at the joint ${formatTemperature(joint.temperatureC, unit, 0)} ` +
          `(${repairOrder.number}, ${bond.joint.name}). Measure the metal with another thermometer; until somebody says which is right the colder one counts`,
        subjectKind: 'sensor',
        subjectId: id,
      })
    }
  }
  return found
}

/** Good, or merely late, and on file when the adhesive went on. */
function wasBelieved(
  { quality, findings, enteredAt }: { quality: string; findings: Prisma.JsonValue; enteredAt: Date | null },
  appliedAt: Date,
): boolean {
  if (quality === 'good') return true
  const found = findingsOf(findings)
  const isMerelyLate = found.length > 0 && found.every(({ kind }) => kind === 'late')
  return isMerelyLate && enteredAt !== null && enteredAt <= appliedAt
}
