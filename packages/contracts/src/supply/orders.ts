import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, Note, pageOf, PageQuery, Reason, Version } from '../foundation/values.ts'

export const OrderState = z.enum(['draft', 'placed', 'received', 'cancelled']).meta({ id: 'OrderState' })

export const PurchaseOrder = z
  .object({
    id: Id,
    shopId: Id,
    number: z.number().int(),
    supplierId: Id,
    supplierName: z.string(),
    state: OrderState,
    note: z.string(),
    createdAt: Instant,
    createdBy: z.string(),
    placed: z.object({ at: Instant, by: z.string() }).nullable(),
    closed: z.object({ at: Instant, by: z.string() }).nullable(),
    expectedAt: Instant.nullable().describe('Placed plus the lead time'),
    currency: z.string(),
    totalCents: z.number().int(),
    lines: z.array(
      z.object({
        productId: Id,
        productName: z.string(),
        cartridges: z.number().int(),
        receivedCartridges: z.number().int(),
        unitPriceCents: z.number().int(),
      }),
    ),
    version: Version,
  })
  .meta({ id: 'PurchaseOrder' })
export type PurchaseOrder = z.output<typeof PurchaseOrder>

const orderParams = z.object({ orderId: Id })

export const orderRoutes = {
  listOrders: defineRoute({
    method: 'GET',
    path: '/v1/orders',
    operationId: 'listOrders',
    tag: 'replenishment',
    summary: 'Orders, newest first',
    access: 'readShop',
    query: PageQuery.extend({ shopId: Id.optional(), state: OrderState.optional() }),
    status: 200,
    response: pageOf(PurchaseOrder),
  }),
  getOrder: defineRoute({
    method: 'GET',
    path: '/v1/orders/:orderId',
    operationId: 'getOrder',
    tag: 'replenishment',
    summary: 'One order',
    access: 'readShop',
    params: orderParams,
    status: 200,
    response: PurchaseOrder,
  }),
  getOrderPdf: defineRoute({
    method: 'GET',
    path: '/v1/orders/:orderId/pdf',
    operationId: 'getOrderPdf',
    tag: 'replenishment',
    summary: 'The order list as a PDF',
    access: 'readShop',
    params: orderParams,
    status: 200,
    mediaType: 'application/pdf',
    response: z.string().describe('The document'),
  }),
  getOrderCsv: defineRoute({
    method: 'GET',
    path: '/v1/orders/:orderId/csv',
    operationId: 'getOrderCsv',
    tag: 'replenishment',
    summary: 'The order list as CSV',
    access: 'readShop',
    params: orderParams,
    status: 200,
    mediaType: 'text/csv',
    response: z.string().describe('The table, with a heading, in UTF-8'),
  }),
  addOrder: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/orders',
    operationId: 'addOrder',
    tag: 'replenishment',
    summary: 'Draft an order',
    access: 'handleStock',
    params: z.object({ shopId: Id }),
    body: z.strictObject({
      supplierId: Id,
      note: Note.default(''),
      lines: z
        .array(
          z.strictObject({
            productId: Id,
            cartridges: z.number().int().min(1, 'must be at least 1').max(5000, 'must be at most 5000'),
          }),
        )
        .min(1, 'must have a line at least')
        .max(200, 'must have at most 200 lines')
        .refine((lines) => new Set(lines.map(({ productId }) => productId)).size === lines.length, {
          error: 'must name each product once',
        }),
    }),
    status: 201,
    response: PurchaseOrder,
  }),
  placeOrder: defineRoute({
    method: 'POST',
    path: '/v1/orders/:orderId/placing',
    operationId: 'placeOrder',
    tag: 'replenishment',
    summary: 'Record that an order went out: its cartridges count as on order',
    access: 'handleStock',
    params: orderParams,
    body: z.strictObject({}).default({}),
    status: 201,
    response: PurchaseOrder,
  }),
  cancelOrder: defineRoute({
    method: 'POST',
    path: '/v1/orders/:orderId/cancellation',
    operationId: 'cancelOrder',
    tag: 'replenishment',
    summary: 'Cancel an order, or what of it has not come',
    access: 'handleStock',
    params: orderParams,
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: PurchaseOrder,
  }),
}
