import * as z from 'zod'
import { defineRoute } from './route.ts'
import { Id, Instant, Label, Note, pageOf, PageQuery, Reason, Version } from './values.ts'

/** Money: whole cents (the hundredth) of the chain's currency. */
const Cents = z
  .number()
  .int()
  .min(0, 'must not be negative')
  .max(100_000_000, 'must be at most 100000000 cents')
const LeadDays = z.number().min(0, 'must not be negative').max(365, 'must be at most 365 days')

export const Supplier = z
  .object({
    id: Id,
    name: z.string(),
    email: z.string(),
    leadDays: z.number(),
    leadDeviationDays: z.number().describe('Standard deviation of the lead time'),
    orderCostCents: z.number().int().describe('Of one order, whatever it carries'),
    active: z.boolean(),
    version: Version,
  })
  .meta({ id: 'Supplier' })
export type Supplier = z.output<typeof Supplier>

const SupplierBody = z.strictObject({
  name: Label,
  email: z.union([z.email('must be an e-mail address'), z.literal('')]).default(''),
  leadDays: LeadDays,
  leadDeviationDays: z.number().min(0, 'must not be negative').max(90, 'must be at most 90 days'),
  orderCostCents: Cents,
})

export const ProductSupply = z
  .object({
    productId: Id,
    productName: z.string(),
    supplierId: Id,
    supplierName: z.string(),
    unitPriceCents: z.number().int().describe('Of one cartridge'),
    boxOf: z.number().int().describe('Ordered in boxes of so many cartridges'),
    freshDays: z.number().int().describe('Shelf life that a delivery usually has left'),
    version: Version,
  })
  .meta({ id: 'ProductSupply' })
export type ProductSupply = z.output<typeof ProductSupply>

const ProductSupplyBody = z.strictObject({
  supplierId: Id,
  unitPriceCents: Cents,
  boxOf: z.number().int().min(1, 'must be at least 1').max(200, 'must be at most 200'),
  freshDays: z.number().int().min(1, 'must be at least 1 day').max(3650, 'must be at most 3650 days'),
})

export const ReplenishmentPolicy = z
  .object({
    currency: z.string(),
    serviceLevel: z.number().describe('Least probability of not running out in a cycle'),
    reviewDays: z.number().int().describe('Days from one look at the shelf to the next'),
    waitingJobCents: z.number().int().describe('What a job that waits for adhesive costs'),
    keepingDayCents: z.number().int().describe('Of keeping a cartridge for a day'),
    packingCents: z.number().int().describe('Of each cartridge sent to another shop'),
    version: Version,
  })
  .meta({ id: 'ReplenishmentPolicy' })
export type ReplenishmentPolicy = z.output<typeof ReplenishmentPolicy>

export const TransferLane = z
  .object({
    fromShopId: Id,
    toShopId: Id,
    days: z.number().int().describe('Until what is sent can be used there'),
    tripCents: z.number().int().describe('Of one trip, whatever it carries'),
  })
  .meta({ id: 'TransferLane' })
export type TransferLane = z.output<typeof TransferLane>

/** How a product stands in a shop, and what to order. */
export const ReplenishmentLine = z
  .object({
    productId: Id,
    productName: z.string(),
    cartridgeMl: z.number(),
    sealed: z.number().int().describe('In date, not on hold, and a dispenser of the shop takes it'),
    opened: z.number().int(),
    onHandMl: z.number(),
    onOrder: z.number().int().describe('Cartridges of placed orders that have not come'),
    bookedMl: z.number().describe('What planned joints will take, within 28 days'),
    usedMl: z.number().describe('In the last 365 days, or since the product came'),
    historyDays: z.number().int(),
    consumptionPerDayMl: z.number().nullable().describe('With what dies opened; null: nothing was ever used'),
    reorderPointMl: z.number().nullable(),
    orderUpToMl: z.number().nullable(),
    isCutByShelfLife: z.boolean(),
    lastsDays: z.number().nullable().describe('On hand, at that consumption'),
    expectedWasteMl: z.number().describe('Of what is on hand, by expiry'),
    suggestedCartridges: z.number().int(),
    reason: z.string().describe('Why so many, or why none'),
    supply: ProductSupply.nullable().describe('Null: nobody has said where it comes from'),
  })
  .meta({ id: 'ReplenishmentLine' })
export type ReplenishmentLine = z.output<typeof ReplenishmentLine>

export const WasteLine = z
  .object({
    shopId: Id,
    lotId: Id,
    lotNumber: z.string(),
    productId: Id,
    productName: z.string(),
    cartridges: z.number().int(),
    volumeMl: z.number(),
    soonestExpiryAt: Instant,
    isExpired: z.boolean(),
    expectedMl: z.number().describe('Lost by expiry on average, the soonest to die used first'),
    probability: z.number().describe('That any of it is lost'),
    expectedCents: z.number().int().nullable().describe('At the price of a new one; null without a price'),
  })
  .meta({ id: 'WasteLine' })
export type WasteLine = z.output<typeof WasteLine>

export const TransferPlan = z
  .object({
    currency: z.string(),
    transfers: z.array(
      z.object({
        fromShopId: Id,
        toShopId: Id,
        lotId: Id,
        lotNumber: z.string(),
        productName: z.string(),
        cartridges: z.number().int(),
        codes: z.array(z.string()).describe('Which: the soonest to die'),
      }),
    ),
    wasteWithoutCents: z.number().int().describe('By the expected use, if nothing is sent'),
    wasteWithCents: z.number().int(),
    transferCostCents: z.number().int(),
    savedCents: z.number().int().describe('Waste avoided less what trips and packing cost'),
    isOptimal: z.boolean().describe('Nothing exists under the expected use that costs 0.2 % less'),
    notes: z.array(z.string()),
  })
  .meta({ id: 'TransferPlan' })
export type TransferPlan = z.output<typeof TransferPlan>

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

const shopParams = z.object({ shopId: Id })
const orderParams = z.object({ orderId: Id })

export const replenishmentRoutes = {
  listSuppliers: defineRoute({
    method: 'GET',
    path: '/v1/suppliers',
    operationId: 'listSuppliers',
    tag: 'replenishment',
    summary: 'Suppliers of the chain',
    access: 'readShop',
    status: 200,
    response: z.object({ items: z.array(Supplier) }),
  }),
  addSupplier: defineRoute({
    method: 'POST',
    path: '/v1/suppliers',
    operationId: 'addSupplier',
    tag: 'replenishment',
    summary: 'Add a supplier',
    access: 'manageCatalogue',
    body: SupplierBody,
    status: 201,
    response: Supplier,
  }),
  editSupplier: defineRoute({
    method: 'PATCH',
    path: '/v1/suppliers/:supplierId',
    operationId: 'editSupplier',
    tag: 'replenishment',
    summary: 'Edit a supplier, or order nothing more from it',
    access: 'manageCatalogue',
    params: z.object({ supplierId: Id }),
    body: SupplierBody.partial().extend({
      email: SupplierBody.shape.email.unwrap().optional(),
      active: z.boolean().optional(),
    }),
    ifMatch: true,
    status: 200,
    response: Supplier,
  }),
  listProductSupplies: defineRoute({
    method: 'GET',
    path: '/v1/productSupplies',
    operationId: 'listProductSupplies',
    tag: 'replenishment',
    summary: 'Where each product is ordered, and for how much',
    access: 'readShop',
    status: 200,
    response: z.object({ items: z.array(ProductSupply) }),
  }),
  addProductSupply: defineRoute({
    method: 'POST',
    path: '/v1/products/:productId/supply',
    operationId: 'addProductSupply',
    tag: 'replenishment',
    summary: 'Say where a product is ordered',
    access: 'manageCatalogue',
    params: z.object({ productId: Id }),
    body: ProductSupplyBody,
    status: 201,
    response: ProductSupply,
  }),
  editProductSupply: defineRoute({
    method: 'PATCH',
    path: '/v1/products/:productId/supply',
    operationId: 'editProductSupply',
    tag: 'replenishment',
    summary: 'Change where a product is ordered, its price, its box or its freshness',
    access: 'manageCatalogue',
    params: z.object({ productId: Id }),
    body: ProductSupplyBody.partial(),
    ifMatch: true,
    status: 200,
    response: ProductSupply,
  }),
  getReplenishmentPolicy: defineRoute({
    method: 'GET',
    path: '/v1/replenishmentPolicy',
    operationId: 'getReplenishmentPolicy',
    tag: 'replenishment',
    summary: 'What the chain wants kept, and what waiting and keeping cost it',
    access: 'readShop',
    status: 200,
    response: ReplenishmentPolicy,
  }),
  editReplenishmentPolicy: defineRoute({
    method: 'PATCH',
    path: '/v1/replenishmentPolicy',
    operationId: 'editReplenishmentPolicy',
    tag: 'replenishment',
    summary: 'Change what the chain wants kept',
    access: 'manageChain',
    body: z.strictObject({
      currency: z
        .string()
        .regex(/^[A-Z]{3}$/, 'must be a currency code of ISO 4217, such as USD')
        .optional(),
      serviceLevel: z
        .number()
        .min(0.5, 'must be at least 0.5')
        .max(0.999, 'must be at most 0.999')
        .optional(),
      reviewDays: z.number().int().min(1, 'must be at least 1').max(31, 'must be at most 31').optional(),
      waitingJobCents: Cents.optional(),
      keepingDayCents: Cents.optional(),
      packingCents: Cents.optional(),
    }),
    ifMatch: true,
    status: 200,
    response: ReplenishmentPolicy,
  }),
  listTransferLanes: defineRoute({
    method: 'GET',
    path: '/v1/transferLanes',
    operationId: 'listTransferLanes',
    tag: 'replenishment',
    summary: 'The ways on which cartridges may go from shop to shop',
    access: 'readShop',
    status: 200,
    response: z.object({ items: z.array(TransferLane) }),
  }),
  setTransferLane: defineRoute({
    method: 'PUT',
    path: '/v1/shops/:fromShopId/lanes/:toShopId',
    operationId: 'setTransferLane',
    tag: 'replenishment',
    summary: 'Say how long the way from one shop to another takes, and what a trip costs',
    access: 'manageChain',
    params: z.object({ fromShopId: Id, toShopId: Id }),
    body: z.strictObject({
      days: z.number().int().min(0, 'must not be negative').max(60, 'must be at most 60 days'),
      tripCents: Cents,
    }),
    status: 200,
    response: TransferLane,
  }),
  listReplenishment: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/replenishment',
    operationId: 'listReplenishment',
    tag: 'replenishment',
    summary: 'How each product stands in a shop, and what to order',
    description:
      'Levels of least expected cost (orders, jobs that wait, keeping, what dies on the shelf) that keep the service level, ' +
      'from the use of each day and the bookings. Figures are estimates from past use: a person decides.',
    access: 'readShop',
    params: shopParams,
    status: 200,
    response: z.object({ currency: z.string(), items: z.array(ReplenishmentLine) }),
  }),
  listWaste: defineRoute({
    method: 'GET',
    path: '/v1/wasteForecast',
    operationId: 'listWaste',
    tag: 'replenishment',
    summary: 'What each lot will lose by expiry in each shop, the dearest first',
    access: 'readShop',
    query: z.strictObject({ shopId: Id.optional() }),
    status: 200,
    response: z.object({
      currency: z.string(),
      expectedCents: z.number().int().describe('Of what is in date now'),
      expiredCents: z.number().int().describe('Of what is dead and still on the shelf'),
      items: z.array(WasteLine),
    }),
  }),
  planTransfers: defineRoute({
    method: 'POST',
    path: '/v1/transferPlans',
    operationId: 'planTransfers',
    tag: 'replenishment',
    summary: 'The transfers between shops that save the most money, computed now',
    description: 'Nothing is moved: send the cartridges as a transfer. Only over the lanes on file.',
    access: 'handleStock',
    body: z.strictObject({}).default({}),
    status: 201,
    response: TransferPlan,
  }),
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
    params: shopParams,
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
