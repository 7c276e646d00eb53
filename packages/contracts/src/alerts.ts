import * as z from 'zod'
import { defineRoute } from './route.ts'
import { Id, Instant, pageOf, PageQuery } from './values.ts'

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
    'gateOverridden',
    'plannedMoveBeforeReady',
    'bayClash',
    'sensorSilent',
    'countDiffers',
    'reservedDies',
  ])
  .meta({ id: 'AlertKind' })
export type AlertKind = z.output<typeof AlertKind>

export const Alert = z
  .object({
    id: Id,
    shopId: Id,
    kind: AlertKind,
    severity: z.enum(['danger', 'warning', 'notice']),
    message: z.string(),
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
      ]),
      id: Id,
    }),
    repairOrderId: Id.nullable(),
    openedAt: Instant,
    acknowledged: z.object({ at: Instant, by: z.string() }).nullable(),
    closedAt: Instant.nullable(),
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
    summary: 'Alerts, the gravest first',
    access: 'readShop',
    query: PageQuery.extend({
      shopId: Id.optional(),
      kind: AlertKind.optional(),
      open: z.enum(['true', 'false']).default('true'),
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
}
