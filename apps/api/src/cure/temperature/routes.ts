import { readingDecisionRoutes as decisions, temperatureRoutes as contracts } from '@clampclock/contracts'
import { requireIn } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { resourceById } from '../../foundation/shops/resources.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { bayTemperature } from './bay-temperature.ts'
import { addReadings, addReadingsTable } from './add-readings.ts'
import {
  correctReadings,
  doubtSensor,
  listDecisions,
  listReadings,
  retireSensor,
  trustSensor,
} from './sensor-decisions.ts'
import { addSensor, listSensors } from './sensors.ts'

export async function temperatureRoutes(app: App): Promise<void> {
  bind(app, contracts.listSensors, async ({ tx, actor, params }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listSensors(tx, params.shopId) }
  })
  bind(app, contracts.addSensor, async ({ tx, actor, params, body }) => {
    requireIn(actor, 'manageChain', params.shopId)
    return addSensor(tx, actor, params.shopId, body)
  })
  bind(app, contracts.addTemperatureReadings, ({ tx, actor, params, body, now }) =>
    addReadings(tx, actor, params.sensorId, body, now),
  )
  bind(app, contracts.addReadingsTable, ({ tx, actor, params, body, now }) =>
    addReadingsTable(tx, actor, params.sensorId, body.csv, now),
  )
  bind(app, decisions.retireSensor, ({ tx, actor, params, body, now }) =>
    retireSensor(tx, actor, params.sensorId, body, now),
  )
  bind(app, decisions.doubtSensor, ({ tx, actor, params, body, now }) =>
    doubtSensor(tx, actor, params.sensorId, body, now),
  )
  bind(app, decisions.trustSensor, ({ tx, actor, params, body, now }) =>
    trustSensor(tx, actor, params.sensorId, body, now),
  )
  bind(app, decisions.correctSensorReadings, ({ tx, actor, params, body, now }) =>
    correctReadings(tx, actor, params.sensorId, body, now),
  )
  bind(app, decisions.listSensorDecisions, async ({ tx, actor, params }) => ({
    items: await listDecisions(tx, actor, params.sensorId),
  }))
  bind(app, decisions.listSensorReadings, ({ tx, actor, params, query, now }) =>
    listReadings(tx, actor, params.sensorId, query, now),
  )
  bind(app, contracts.getBayTemperature, async ({ tx, actor, params, query, now }) => {
    const resource = await resourceById(tx, params.resourceId)
    requireIn(actor, 'readShop', resource.shopId)
    const { timeZone } = await shopById(tx, resource.shopId)
    const from = new Date(now.getTime() - query.hoursBack * 3_600_000)
    const { sensor, readings, forecast, humidity } = await bayTemperature(
      tx,
      resource.id,
      timeZone,
      from,
      now,
    )
    const until = now.getTime() + query.hoursAhead * 3_600_000
    return {
      sensor,
      readings: readings.map(({ atMs, temperatureC, suspect }) => ({
        at: new Date(atMs),
        temperatureC,
        relativeHumidityPercent: humidity.get(atMs) ?? null,
        ...(suspect ? { suspect } : {}),
      })),
      forecast: forecast
        .filter(({ atMs }) => atMs <= until)
        .map(({ atMs, ...band }) => ({ at: new Date(atMs), ...band })),
    }
  })
}
