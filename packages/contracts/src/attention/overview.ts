import * as z from 'zod'
import { Alert } from './alerts.ts'
import { defineRoute } from '../foundation/route.ts'
import { Shop } from '../foundation/shops.ts'
import { Instant } from '../foundation/values.ts'

export const ShopOverview = z
  .object({
    shop: Shop,
    stock: z.object({
      sealed: z.number().int(),
      opened: z.number().int(),
      expired: z.number().int().describe('Still on the shelf past its effective expiry'),
      openedPastOpenLife: z.number().int(),
      expiresSoon: z.number().int(),
      onHold: z.number().int(),
      noDispenserFits: z.number().int(),
    }),
    bays: z.object({ total: z.number().int(), occupied: z.number().int() }),
    bonds: z.object({
      curing: z.number().int(),
      mayBeMoved: z.number().int(),
      openIncidents: z.number().int(),
      movedEarly: z.number().int().describe('Released before handling strength and not disposed of'),
      plannedTooEarly: z.number().int().describe('Booked to leave before the conservative ready time'),
    }),
    alerts: z.array(Alert).describe('The most urgent open ones'),
    openAlerts: z.number().int(),
  })
  .meta({ id: 'ShopOverview' })
export type ShopOverview = z.output<typeof ShopOverview>

export const overviewRoutes = {
  getOverview: defineRoute({
    method: 'GET',
    path: '/v1/overview',
    operationId: 'getOverview',
    tag: 'overview',
    summary: 'Every shop you may see, with what needs attention',
    access: 'signedIn',
    status: 200,
    response: z.object({
      asOf: Instant,
      watched: z
        .object({ at: Instant.nullable(), nextAt: Instant.nullable(), failing: z.boolean() })
        .describe(
          'When alerts were last looked after to the end, when they are again at the latest, and whether looking fails since',
        ),
      shops: z.array(ShopOverview),
    }),
  }),
}
