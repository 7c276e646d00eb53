import { dateOf, isoDate } from '../foundation/http/dates.ts'
import { hoursFrom, type World } from './world.ts'
import { bayAir, storageAir, type DemoReading } from './temperatures.ts'

/** Three weeks of temperatures: a thermometer in every bay, one in every storage place. */
export async function addThermometers(world: World): Promise<void> {
  const { tx, now, random } = world
  for (const [i, shop] of world.shops.entries()) {
    for (const [j, bay] of shop.bays.entries()) {
      // One thermometer's battery died this morning.
      const until = i === 2 && j === 2 ? hoursFrom(now, -9) : now
      await addSensor(
        world,
        shop.id,
        { name: `Air of ${bay.name}`, place: 'bay', resourceId: bay.id, locationId: null },
        bayAir(shop.plan, (j - 1) * 0.6, random, until),
      )
    }
    for (const [j, locationId] of shop.placeIds.entries()) {
      // The second place of a shop is the warm one; one of them was cooked the day before yesterday.
      const air = storageAir(j === 0 ? 0.5 : 5.5, i === 1 && j === 1, random, now)
      await addSensor(
        world,
        shop.id,
        { name: `Thermometer ${shop.plan.places[j]}`, place: 'storage', resourceId: null, locationId },
        air,
      )
    }
  }
  await addHeaterThermometer(world)
  await tx.$executeRaw`analyze temperature_reading`
}

/** Somebody hung a second one over the heater yesterday: it disagrees with the first, and jumped once. */
async function addHeaterThermometer(world: World): Promise<void> {
  const { now, random, tx } = world
  const shop = world.shops.at(-1)!
  const bay = shop.bays.at(-1)!
  const air = bayAir(shop.plan, 0.6, random, now).filter(({ at }) => at >= hoursFrom(now, -24))
  const warm = air.map((reading) => ({ ...reading, temperatureC: reading.temperatureC + 7 }))
  const sensor = { name: `Over the heater, ${bay.name}`, place: 'bay', resourceId: bay.id, locationId: null }
  const sensorId = await addSensor(world, shop.id, sensor, warm)
  const { at, temperatureC } = warm.at(-5)!
  await tx.temperatureReading.update({
    where: { sensorId_at: { sensorId, at } },
    data: { quality: 'suspect', findings: [{ kind: 'spike', betweenC: temperatureC - 14 }], enteredAt: at },
  })
}

export async function addSensor(
  { tx, organizationId, now }: World,
  shopId: string,
  sensor: { name: string; place: string; resourceId: string | null; locationId: string | null },
  readings: readonly DemoReading[],
): Promise<string> {
  const calibratedUntil = dateOf(isoDate(hoursFrom(now, 24 * 200)))
  const { id } = await tx.sensor.create({
    data: { ...sensor, organizationId, shopId, accuracyC: 0.5, calibratedUntil },
  })
  await tx.$executeRaw`
    insert into temperature_reading (organization_id, sensor_id, at, temperature_c, relative_humidity_percent)
    select ${organizationId}::uuid, ${id}::uuid, r.at, r.temperature, r.humidity
      from unnest(${readings.map(({ at }) => at)}::timestamptz[], ${readings.map((r) => r.temperatureC)}::float8[],
                  ${readings.map((r) => r.relativeHumidityPercent)}::float8[]) as r (at, temperature, humidity)`
  return id
}
