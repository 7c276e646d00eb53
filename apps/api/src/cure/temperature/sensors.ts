import { message } from '@clampclock/messages'
import type { BodyOf, Sensor, temperatureRoutes } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { dateOf, isoDate } from '../../foundation/http/dates.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'

interface SensorRow {
  id: string
  shop_id: string
  name: string
  place: 'bay' | 'storage'
  resource_id: string | null
  location_id: string | null
  accuracy_c: number
  calibrated_until: Date | null
  retired_at: Date | null
  doubted_since: Date | null
  quality: 'good' | 'suspect'
  at: Date | null
  temperature_c: number | null
  relative_humidity_percent: number | null
}

/** Sensors with their latest reading. */
export async function selectSensors(tx: Tx, where: Prisma.Sql): Promise<Sensor[]> {
  const rows = await tx.$queryRaw<SensorRow[]>`
    select s.id, s.shop_id, s.name, s.place, s.resource_id, s.location_id, s.accuracy_c, s.calibrated_until,
           s.retired_at, s.doubted_since, r.quality, r.at, r.temperature_c, r.relative_humidity_percent
      from sensor s
      left join lateral (select * from temperature_reading r where r.sensor_id = s.id and r.quality <> 'withdrawn'
                          order by r.at desc limit 1) r on true
     where ${where} order by s.name`
  return rows.map((row) => ({
    id: row.id,
    shopId: row.shop_id,
    name: row.name,
    place: row.place,
    resourceId: row.resource_id,
    locationId: row.location_id,
    accuracyC: row.accuracy_c,
    calibratedUntil: row.calibrated_until ? isoDate(row.calibrated_until) : null,
    retiredAt: row.retired_at,
    doubtedSince: row.doubted_since,
    latest:
      row.at !== null && row.temperature_c !== null
        ? {
            at: row.at,
            temperatureC: row.temperature_c,
            relativeHumidityPercent: row.relative_humidity_percent,
            quality: row.quality,
          }
        : null,
  }))
}

export function listSensors(tx: Tx, shopId: string): Promise<Sensor[]> {
  return selectSensors(tx, Prisma.sql`s.shop_id = ${shopId}::uuid`)
}

export async function addSensor(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: BodyOf<typeof temperatureRoutes.addSensor>,
): Promise<Sensor> {
  if (
    body.resourceId &&
    !(await tx.resource.findFirst({ where: { id: body.resourceId, shopId, kind: { in: ['bay', 'oven'] } } }))
  ) {
    throw invalidField('body.resourceId', message('cure-problem.noBayOrOven'))
  }
  if (body.locationId && !(await tx.storageLocation.findFirst({ where: { id: body.locationId, shopId } }))) {
    throw invalidField('body.locationId', message('problem.noLocation'))
  }
  const organizationId = actor.organization.id
  const { id } = await tx.sensor.create({
    data: {
      ...body,
      calibratedUntil: body.calibratedUntil ? dateOf(body.calibratedUntil) : null,
      organizationId,
      shopId,
    },
  })
  await announce(tx, { organizationId, shopId, topic: 'temperature', subjectId: id })
  return sensorById(tx, id)
}

export async function sensorById(tx: Tx, id: string): Promise<Sensor> {
  const [sensor] = await selectSensors(tx, Prisma.sql`s.id = ${id}::uuid`)
  if (!sensor) throw notFound('sensor', id)
  return sensor
}
