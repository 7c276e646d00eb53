import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Cartridge } from './stock.ts'
import { saidOfEach, Words } from '../foundation/words.ts'
import { Id, Instant, Note, pageOf, PageQuery, Reason } from '../foundation/values.ts'

const CartridgeIds = z
  .array(Id)
  .min(1, 'name at least one cartridge')
  .max(500, 'name at most 500 cartridges at once')
  .refine((ids) => new Set(ids).size === ids.length, 'names a cartridge twice')

export const ShipmentLine = z.object({
  cartridgeId: Id,
  code: z.string(),
  productName: z.string(),
  lotId: Id,
  lotNumber: z.string(),
  outcome: z.enum(['arrived', 'lost']).nullable().describe('Null while it is on its way'),
  settledAt: Instant.nullable(),
  settledBy: z.string().nullable(),
})

export const Shipment = z
  .object({
    id: Id,
    fromShopId: Id,
    toShopId: Id,
    reason: z.string(),
    sentAt: Instant,
    sentBy: z.string(),
    expectedAt: Instant.nullable(),
    onTheWay: z.number().int().describe('How many of its cartridges have neither arrived nor been given up'),
    lines: z.array(ShipmentLine),
    warnings: z
      .array(Words)
      .describe('Of cartridges still on their way: no gun takes it there, expires soon'),
    said: saidOfEach('warnings'),
  })
  .meta({ id: 'Shipment' })
export type Shipment = z.output<typeof Shipment>

const shipmentParams = z.object({ shipmentId: Id })

export const moveRoutes = {
  moveCartridges: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/moves',
    operationId: 'moveCartridges',
    tag: 'stock',
    summary: 'Put cartridges on another shelf of the shop',
    description: 'What lies there already is left as it is, so that sending it twice does no harm.',
    access: 'useStock',
    params: z.object({ shopId: Id }),
    body: z.strictObject({
      cartridgeIds: CartridgeIds,
      locationId: Id.nullable().describe('Null: at no place that is known'),
      reason: Note.default('').describe('Told as “Moved to another shelf” without one'),
    }),
    answer: 'The cartridges where they lie now',
    status: 201,
    response: z.object({ cartridges: z.array(Cartridge) }),
  }),
  listShipments: defineRoute({
    method: 'GET',
    path: '/v1/shipments',
    operationId: 'listShipments',
    tag: 'stock',
    summary: 'What went from shop to shop, the newest first',
    access: 'readShop',
    query: PageQuery.extend({
      shopId: Id.optional().describe('To it or from it'),
      onTheWay: z
        .enum(['true', 'false'])
        .optional()
        .describe('Only those of which something is still on its way'),
    }),
    status: 200,
    response: pageOf(Shipment),
  }),
  getShipment: defineRoute({
    method: 'GET',
    path: '/v1/shipments/:shipmentId',
    operationId: 'getShipment',
    tag: 'stock',
    summary: 'One shipment',
    access: 'readShop',
    params: shipmentParams,
    status: 200,
    response: Shipment,
  }),
  sendShipment: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/shipments',
    operationId: 'sendShipment',
    tag: 'stock',
    summary: 'Send cartridges to another shop',
    description: 'From this instant they count in neither shop, until they arrive or are given up as lost.',
    access: 'handleStock',
    params: z.object({ shopId: Id }),
    body: z.strictObject({
      toShopId: Id,
      cartridgeIds: CartridgeIds,
      expectedAt: Instant.nullable().default(null),
      heldToo: z
        .boolean()
        .default(false)
        .describe('Cartridges on hold or in quarantine go too: they stay so where they arrive'),
      reason: Reason,
    }),
    status: 201,
    response: Shipment,
  }),
  arriveShipment: defineRoute({
    method: 'POST',
    path: '/v1/shipments/:shipmentId/arrival',
    operationId: 'arriveShipment',
    tag: 'stock',
    summary: 'Cartridges of a shipment have arrived',
    description: 'What was given up as lost may still arrive. What has arrived already is left as it is.',
    access: 'handleStock',
    params: shipmentParams,
    body: z.strictObject({
      cartridgeIds: CartridgeIds.optional().describe('All that is on its way when left out'),
      locationId: Id.nullable().default(null),
      reason: Note.default('').describe('Told as “Arrived” without one'),
    }),
    status: 201,
    response: Shipment,
  }),
  loseShipment: defineRoute({
    method: 'POST',
    path: '/v1/shipments/:shipmentId/loss',
    operationId: 'loseShipment',
    tag: 'stock',
    summary: 'Cartridges of a shipment were lost on the way',
    access: 'handleStock',
    params: shipmentParams,
    body: z.strictObject({ cartridgeIds: CartridgeIds, reason: Reason }),
    status: 201,
    response: Shipment,
  }),
}
