import type { BodyOf, ResultOf, Sensor, temperatureRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../access/actor.ts'
import { Prisma } from '../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import { dateOf, isoDate, writtenAt } from '../http/dates.ts'
import { shopById } from '../shops/shops.ts'
import { invalidField, invalidFields, notFound } from '../http/problem-error.ts'
import { announce } from '../live/hub.ts'
import { holdAfterExcursion } from '../stock/holds.ts'
import { MOST_FAULTS, readReadings } from './readings-table.ts'
import { airFault, airRange } from './room-air.ts'
import { refreshStorageLife } from '../stock/storage-life.ts'

interface SensorRow {
  id: string
  shop_id: string
  name: string
  place: 'bay' | 'storage'
  resource_id: string | null
  location_id: string | null
  accuracy_c: number
  calibrated_until: Date | null
  at: Date | null
  temperature_c: number | null
  relative_humidity_percent: number | null
}

/** Sensors with their latest reading. */
export async function selectSensors(tx: Tx, where: Prisma.Sql): Promise<Sensor[]> {
  const rows = await tx.$queryRaw<SensorRow[]>`
    select s.id, s.shop_id, s.name, s.place, s.resource_id, s.location_id, s.accuracy_c, s.calibrated_until,
           r.at, r.temperature_c, r.relative_humidity_percent
      from sensor s
      left join lateral (select * from temperature_reading r where r.sensor_id = s.id order by r.at desc limit 1) r on true
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
    latest:
      row.at !== null && row.temperature_c !== null
        ? {
            at: row.at,
            temperatureC: row.temperature_c,
            relativeHumidityPercent: row.relative_humidity_percent,
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
    throw invalidField('body.resourceId', 'names no bay or oven of this shop')
  }
  if (body.locationId && !(await tx.storageLocation.findFirst({ where: { id: body.locationId, shopId } }))) {
    throw invalidField('body.locationId', 'names no storage location of this shop')
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

async function sensorById(tx: Tx, id: string): Promise<Sensor> {
  const [sensor] = await selectSensors(tx, Prisma.sql`s.id = ${id}::uuid`)
  if (!sensor) throw notFound('sensor', id)
  return sensor
}

/** A clock that runs a little ahead is no fault; one that is an hour ahead would poison the forecast. */
const AHEAD_MS = 5 * 60_000

/** Stores readings in any order; one that is there already is left as it is, so sending twice does no harm. */
export async function addReadings(
  tx: Tx,
  actor: Actor,
  sensorId: string,
  { readings }: BodyOf<typeof temperatureRoutes.addTemperatureReadings>,
  now: Date,
): Promise<ResultOf<typeof temperatureRoutes.addTemperatureReadings>> {
  const sensor = await sensorById(tx, sensorId)
  requireIn(actor, 'recordTemperature', sensor.shopId)
  readings.forEach((reading, i) => {
    if (reading.at.getTime() > now.getTime() + AHEAD_MS) {
      throw invalidField(
        `body.readings.${i}.at`,
        'is in the future',
        "Set the thermometer's clock, and send instants with their offset",
      )
    }
  })
  const range = await airRange(tx, sensor)
  const faults = readings.flatMap(
    ({ temperatureC }, i) => airFault(temperatureC, range, `body.readings.${i}.temperatureC`) ?? [],
  )
  if (faults.length > 0) throw invalidFields(faults.slice(0, MOST_FAULTS))
  const organizationId = actor.organization.id
  const distinct = [
    ...new Map(readings.toReversed().map((reading) => [reading.at.getTime(), reading])).values(),
  ]
  const there = await tx.temperatureReading.findMany({
    where: { sensorId, at: { in: distinct.map(({ at }) => at) } },
  })
  const { count } = await tx.temperatureReading.createMany({
    data: distinct.map((reading) => ({ ...reading, organizationId, sensorId })),
    skipDuplicates: true,
  })
  const differing = there.filter((old) => {
    const sent = distinct.find((reading) => reading.at.getTime() === old.at.getTime())
    return (
      sent !== undefined &&
      (sent.temperatureC !== old.temperatureC || sent.relativeHumidityPercent !== old.relativeHumidityPercent)
    )
  }).length

  if (count > 0) {
    if (sensor.locationId) {
      const known = new Set(there.map(({ at }) => at.getTime()))
      const fresh = distinct.filter(({ at }) => !known.has(at.getTime()))
      await refreshStorageLife(
        tx,
        sensor.locationId,
        new Date(Math.min(...fresh.map(({ at }) => at.getTime()))),
      )
      await holdAfterExcursion(tx, organizationId, sensor.locationId, fresh, now)
      await announce(tx, { organizationId, shopId: sensor.shopId, topic: 'stock' })
    }
    await announce(tx, {
      organizationId,
      shopId: sensor.shopId,
      topic: 'temperature',
      subjectId: sensor.resourceId ?? sensor.locationId,
    })
  }
  return { stored: count, alreadyThere: readings.length - count, differing }
}

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
  const readings = readReadings(csv, await airRange(tx, sensor)).toSorted(
    (a, b) => a.at.getTime() - b.at.getTime(),
  )
  const last = readings.at(-1)
  if (last && last.at.getTime() > now.getTime() + AHEAD_MS)
    throw invalidField(
      'body.csv',
      `The reading of ${writtenAt(last.at, (await shopById(tx, sensor.shopId)).timeZone)} is in the future`,
      "Set the logger's clock, and write instants with their offset",
    )
  const total = { stored: 0, alreadyThere: 0, differing: 0 }
  for (let i = 0; i < readings.length; i += CHUNK) {
    const part = await addReadings(tx, actor, sensorId, { readings: readings.slice(i, i + CHUNK) }, now)
    total.stored += part.stored
    total.alreadyThere += part.alreadyThere
    total.differing += part.differing
  }
  return total
}
