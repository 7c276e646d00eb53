import * as z from 'zod'
import { ReadingQuality } from './reading-quality.ts'
import { defineRoute } from '../foundation/route.ts'
import {
  AccuracyC,
  CalendarDate,
  HumidityPercent,
  Id,
  Instant,
  Label,
  TemperatureC,
} from '../foundation/values.ts'

export const SensorPlace = z.enum(['bay', 'storage']).meta({ id: 'SensorPlace' })

export const Sensor = z
  .object({
    id: Id,
    shopId: Id,
    name: z.string(),
    place: SensorPlace,
    resourceId: Id.nullable().describe('The bay or oven it hangs in'),
    locationId: Id.nullable().describe('The storage location it lies in'),
    accuracyC: z.number(),
    calibratedUntil: CalendarDate.nullable(),
    retiredAt: Instant.nullable().describe('Out of use since then'),
    doubtedSince: Instant.nullable().describe('Somebody said since then that it reads wrong'),
    latest: z
      .object({
        at: Instant,
        temperatureC: z.number(),
        relativeHumidityPercent: z.number().nullable(),
        quality: ReadingQuality,
      })
      .nullable(),
  })
  .meta({ id: 'Sensor' })
export type Sensor = z.output<typeof Sensor>

export const TemperatureReading = z
  .object({
    at: Instant,
    temperatureC: z.number(),
    relativeHumidityPercent: z.number().nullable(),
    suspect: z.literal(true).optional().describe('In doubt: it may only delay'),
  })
  .meta({ id: 'TemperatureReading' })

export const ForecastPoint = z
  .object({ at: Instant, expectedC: z.number(), lowC: z.number(), highC: z.number() })
  .meta({ id: 'ForecastPoint' })

/** What became of readings that were sent. */
const ReadingsStored = z.object({
  stored: z.number().int(),
  alreadyThere: z
    .number()
    .int()
    .describe('With an instant that is on file, or that was sent before in this batch'),
  differing: z.number().int().describe('Of those: with another value than the one that is kept'),
  suspect: z.number().int().describe('Of those stored: in doubt, so that they may only delay'),
})

export const temperatureRoutes = {
  listSensors: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/sensors',
    operationId: 'listSensors',
    tag: 'temperature',
    summary: 'Thermometers of a shop with their latest reading',
    access: 'readShop',
    params: z.object({ shopId: Id }),
    status: 200,
    response: z.object({ items: z.array(Sensor) }),
  }),
  addSensor: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/sensors',
    operationId: 'addSensor',
    tag: 'temperature',
    summary: 'Add a thermometer to a bay or a storage location',
    access: 'manageChain',
    params: z.object({ shopId: Id }),
    body: z
      .strictObject({
        name: Label,
        place: SensorPlace,
        resourceId: Id.nullable().default(null),
        locationId: Id.nullable().default(null),
        accuracyC: AccuracyC,
        calibratedUntil: CalendarDate.nullable().default(null),
      })
      .refine(
        (s) =>
          s.place === 'bay'
            ? s.resourceId !== null && s.locationId === null
            : s.locationId !== null && s.resourceId === null,
        {
          path: ['place'],
          error: 'a bay sensor names its resourceId, a storage sensor its locationId, and not the other',
        },
      ),
    status: 201,
    response: Sensor,
  }),
  addTemperatureReadings: defineRoute({
    method: 'POST',
    path: '/v1/sensors/:sensorId/readings',
    operationId: 'addTemperatureReadings',
    tag: 'temperature',
    summary: 'Send readings of a thermometer, in any order, and again without harm',
    description:
      'A reading with the instant of one on file is not stored a second time; if it differs, the first one stays and the answer counts it as `differing`. ' +
      'Of two values for one instant in one batch the colder is kept, as suspect. What reads wrong, and what comes late, is stored as suspect: it may only delay.',
    access: 'recordTemperature',
    params: z.object({ sensorId: Id }),
    body: z.strictObject({
      readings: z
        .array(
          z.strictObject({
            at: Instant,
            temperatureC: TemperatureC,
            relativeHumidityPercent: HumidityPercent.nullable().default(null),
          }),
        )
        .min(1)
        .max(1000, 'send at most 1000 readings at once'),
    }),
    answer: 'How many readings were new, and what of them is doubted or refused',
    status: 201,
    response: ReadingsStored,
  }),
  addReadingsTable: defineRoute({
    method: 'POST',
    path: '/v1/sensors/:sensorId/readingsTable',
    operationId: 'addReadingsTable',
    tag: 'temperature',
    summary: 'Send what a logger has written down, as CSV',
    description:
      'A heading with `at` (ISO 8601 with an offset), `temperatureC` or `temperatureF`, and `relativeHumidityPercent` where there is any. ' +
      'In any order, and again without harm. All of it or nothing: each fault is told with its line.',
    access: 'recordTemperature',
    params: z.object({ sensorId: Id }),
    body: z.strictObject({
      csv: z
        .string()
        .min(1, 'must not be empty')
        .max(1_000_000, 'must be at most 1000000 characters: send it in parts'),
    }),
    answer: 'How many readings were new, and what of them is doubted or refused',
    status: 201,
    response: ReadingsStored,
  }),
  getBayTemperature: defineRoute({
    method: 'GET',
    path: '/v1/resources/:resourceId/temperature',
    operationId: 'getBayTemperature',
    tag: 'temperature',
    summary: "A bay's readings and the forecast from them",
    access: 'readShop',
    params: z.object({ resourceId: Id }),
    query: z.strictObject({
      hoursBack: z.coerce
        .number()
        .int()
        .min(1)
        .max(24 * 28)
        .default(24),
      hoursAhead: z.coerce.number().int().min(1).max(96).default(24),
    }),
    status: 200,
    response: z.object({
      sensor: Sensor.nullable(),
      readings: z.array(TemperatureReading),
      forecast: z.array(ForecastPoint).describe('Empty when there are too few readings to forecast from'),
    }),
  }),
}
