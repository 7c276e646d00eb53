import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { saidOf, Words } from '../foundation/words.ts'
import { Id, Instant, PageQuery, Reason, pageOf } from '../foundation/values.ts'

export const AlertKind = z
  .enum([
    'expiredOnShelf',
    'openedPastOpenLife',
    'expiresSoon',
    'belowReorderPoint',
    'noDispenserFits',
    'lotOnHold',
    'storageExcursion',
    'earlyRelease',
    'clampedAfterWorkTime',
    'movedAfterWorkTime',
    'appliedAgainstRefusal',
    'leftWithAdhesive',
    'gateOverridden',
    'plannedMoveBeforeReady',
    'bayClash',
    'sensorSilent',
    'countDiffers',
    'reservedDies',
    'notComputed',
    'sensorDoubted',
    'sensorsDisagree',
    'sheetSlower',
    'workFails',
  ])
  .meta({ id: 'AlertKind' })
export type AlertKind = z.output<typeof AlertKind>

export const Alert = z
  .object({
    id: Id,
    shopId: Id,
    kind: AlertKind,
    severity: z.enum(['danger', 'warning', 'notice']),
    message: Words,
    said: saidOf('message'),
    subject: z.object({
      kind: z.enum([
        'cartridge',
        'lot',
        'product',
        'count',
        'joint',
        'bond',
        'booking',
        'operation',
        'sensor',
        'job',
      ]),
      id: Id,
    }),
    repairOrderId: Id.nullable(),
    openedAt: Instant,
    acknowledged: z.object({ at: Instant, by: z.string() }).nullable(),
    owner: z
      .object({ id: Id.nullable(), name: z.string() })
      .nullable()
      .describe('Who is handling it: whoever was first to say so, or was named'),
    snoozed: z.object({ until: Instant, by: z.string() }).nullable().describe('Out of sight until then'),
    closedAt: Instant.nullable(),
    resolution: z
      .object({ by: z.string(), reason: z.string() })
      .nullable()
      .describe('Where a person resolved it; most close by themselves'),
    needsDisposition: z.boolean().describe('Closes only when a person disposes of the incident'),
  })
  .meta({ id: 'Alert' })
export type Alert = z.output<typeof Alert>

export const alertRoutes = {
  listAlerts: defineRoute({
    method: 'GET',
    path: '/v1/alerts',
    operationId: 'listAlerts',
    tag: 'alerts',
    summary: 'Alerts, most urgent first',
    access: 'readShop',
    query: PageQuery.extend({
      shopId: Id.optional(),
      kind: AlertKind.optional(),
      open: z.enum(['true', 'false']).default('true'),
      snoozed: z.enum(['true', 'false']).default('false').describe('true: those too that are snoozed now'),
      mine: z.enum(['true', 'false']).default('false').describe('true: only those that you take care of'),
    }),
    status: 200,
    response: pageOf(Alert),
  }),
  acknowledgeAlert: defineRoute({
    method: 'POST',
    path: '/v1/alerts/:alertId/acknowledgement',
    operationId: 'acknowledgeAlert',
    tag: 'alerts',
    summary: 'I have seen it and take care of it',
    access: 'handleAlerts',
    params: z.object({ alertId: Id }),
    status: 201,
    response: Alert,
  }),
  giveAlert: defineRoute({
    method: 'POST',
    path: '/v1/alerts/:alertId/owner',
    operationId: 'giveAlert',
    tag: 'alerts',
    summary: 'Assign it to somebody, or to nobody',
    access: 'handleAlerts',
    params: z.object({ alertId: Id }),
    body: z.strictObject({ personId: Id.nullable() }),
    status: 201,
    response: Alert,
  }),
  snoozeAlert: defineRoute({
    method: 'POST',
    path: '/v1/alerts/:alertId/snooze',
    operationId: 'snoozeAlert',
    tag: 'alerts',
    summary: 'Out of sight until an instant, at most 30 days; null brings it back',
    access: 'handleAlerts',
    params: z.object({ alertId: Id }),
    body: z.strictObject({ until: Instant.nullable() }),
    status: 201,
    response: Alert,
  }),
  resolveAlert: defineRoute({
    method: 'POST',
    path: '/v1/alerts/:alertId/resolution',
    operationId: 'resolveAlert',
    tag: 'alerts',
    summary: 'It is dealt with, and how',
    description:
      'It is told again only once its cause has ended and come back. An incident is not resolved so: it is disposed of on the job.',
    access: 'handleAlerts',
    params: z.object({ alertId: Id }),
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Alert,
  }),
}
