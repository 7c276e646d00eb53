import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Label, Version } from '../foundation/values.ts'

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

/** Who delivers what, what the chain wants kept, and the ways between its shops. */
export const supplyRoutes = {
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
    reach: 'chain',
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
    reach: 'chain',
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
    reach: 'chain',
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
    reach: 'chain',
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
    summary: 'Stock policy of the chain, and what waiting and keeping cost it',
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
    reach: 'chain',
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
    reach: 'chain',
    params: z.object({ fromShopId: Id, toShopId: Id }),
    body: z.strictObject({
      days: z.number().int().min(0, 'must not be negative').max(60, 'must be at most 60 days'),
      tripCents: Cents,
    }),
    status: 200,
    response: TransferLane,
  }),
}
