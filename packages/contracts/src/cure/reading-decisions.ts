import * as z from 'zod'
import { Bond } from './bond.ts'
import { ConfirmedFindings, ReadingFinding, ReadingQuality } from './reading-quality.ts'
import { defineRoute } from '../foundation/route.ts'
import { Sensor } from './temperature.ts'
import { Id, Instant, Reason, TemperatureC } from '../foundation/values.ts'

export const SensorDecision = z
  .object({
    id: Id,
    kind: z.enum(['retired', 'doubted', 'trusted', 'withdrawn', 'wasFahrenheit', 'wasCelsius']),
    span: z
      .object({ from: Instant, until: Instant, readings: z.number().int() })
      .nullable()
      .describe('The readings it speaks of; null for the thermometer itself'),
    replacedById: Id.nullable(),
    reason: z.string(),
    at: Instant,
    by: z.string(),
  })
  .meta({ id: 'SensorDecision' })
export type SensorDecision = z.output<typeof SensorDecision>

export const JudgedReading = z
  .object({
    at: Instant,
    enteredAt: Instant.nullable().describe('null: before this was kept'),
    temperatureC: z.number(),
    sentC: z.number().nullable().describe('What came, where another value was put in its place'),
    relativeHumidityPercent: z.number().nullable(),
    quality: ReadingQuality,
    findings: z.array(ReadingFinding),
  })
  .meta({ id: 'JudgedReading' })
export type JudgedReading = z.output<typeof JudgedReading>

const readingParams = z.object({ readingId: Id })
const sensorParams = z.object({ sensorId: Id })
const Why = z.strictObject({ reason: Reason })

/** What people decide about readings: the past stays visible, estimates follow, and releases are looked at again. */
export const readingDecisionRoutes = {
  withdrawPanelReading: defineRoute({
    method: 'POST',
    path: '/v1/panelReadings/:readingId/withdrawal',
    operationId: 'withdrawPanelReading',
    tag: 'bonds',
    summary: 'Take a panel reading back: it counts no more, and stays on record',
    access: 'takeResponsibility',
    params: readingParams,
    body: Why,
    status: 201,
    response: Bond,
  }),
  correctPanelReading: defineRoute({
    method: 'POST',
    path: '/v1/panelReadings/:readingId/correction',
    operationId: 'correctPanelReading',
    tag: 'bonds',
    summary: 'Put another value in the place of a panel reading',
    description:
      'The new one is a claim of now about then: it is judged as any other, and late if the reading is old.',
    access: 'takeResponsibility',
    params: readingParams,
    body: z.strictObject({ temperatureC: TemperatureC, reason: Reason, confirmed: ConfirmedFindings }),
    status: 201,
    response: Bond,
  }),
  retireSensor: defineRoute({
    method: 'POST',
    path: '/v1/sensors/:sensorId/retirement',
    operationId: 'retireSensor',
    tag: 'temperature',
    summary: 'Take a thermometer out of use: what it read until now still counts',
    access: 'takeResponsibility',
    params: sensorParams,
    body: z.strictObject({
      reason: Reason,
      replacedById: Id.nullable().default(null).describe('The thermometer that hangs there instead'),
    }),
    status: 201,
    response: Sensor,
  }),
  doubtSensor: defineRoute({
    method: 'POST',
    path: '/v1/sensors/:sensorId/doubt',
    operationId: 'doubtSensor',
    tag: 'temperature',
    summary:
      'Doubt a thermometer: beside one that is not doubted it counts for nothing, alone it may only delay',
    access: 'takeResponsibility',
    params: sensorParams,
    body: Why,
    status: 201,
    response: Sensor,
  }),
  trustSensor: defineRoute({
    method: 'POST',
    path: '/v1/sensors/:sensorId/trust',
    operationId: 'trustSensor',
    tag: 'temperature',
    summary: 'A doubted thermometer counts again, from now on',
    access: 'takeResponsibility',
    params: sensorParams,
    body: Why,
    status: 201,
    response: Sensor,
  }),
  correctSensorReadings: defineRoute({
    method: 'POST',
    path: '/v1/sensors/:sensorId/corrections',
    operationId: 'correctSensorReadings',
    tag: 'temperature',
    summary: 'Withdraw a span of readings, or say in which unit they were sent',
    description:
      'What was sent stays on record beside it. A value put in its place is a claim of now about then: old ones may only delay.',
    access: 'takeResponsibility',
    params: sensorParams,
    body: z
      .strictObject({
        kind: z
          .enum(['withdrawn', 'wasFahrenheit', 'wasCelsius'])
          .describe('wasFahrenheit: 68 was sent as degC and meant 68 degF; wasCelsius: the other way round'),
        from: Instant,
        until: Instant.describe('This instant too'),
        reason: Reason,
      })
      .refine(({ from, until }) => from <= until, { path: ['until'], error: 'must not be before from' }),
    status: 201,
    response: SensorDecision,
  }),
  listSensorDecisions: defineRoute({
    method: 'GET',
    path: '/v1/sensors/:sensorId/decisions',
    operationId: 'listSensorDecisions',
    tag: 'temperature',
    summary: 'What people decided about a thermometer and its readings, the newest first',
    access: 'readShop',
    params: sensorParams,
    status: 200,
    response: z.object({ items: z.array(SensorDecision) }),
  }),
  listSensorReadings: defineRoute({
    method: 'GET',
    path: '/v1/sensors/:sensorId/readings',
    operationId: 'listSensorReadings',
    tag: 'temperature',
    summary: 'What a thermometer read, with what makes it doubtful; the newest first',
    access: 'readShop',
    params: sensorParams,
    query: z.strictObject({
      until: Instant.optional().describe('From here back; now when left out'),
      limit: z.coerce.number().int().min(1).max(1000).default(100),
      doubtful: z.enum(['true', 'false']).default('false').describe('true: only those that are not good'),
    }),
    status: 200,
    response: z.object({ items: z.array(JudgedReading) }),
  }),
}
