import { saidOf, saidOfEach, Words } from '../foundation/words.ts'
import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { ProductSupply } from './supply.ts'
import { Id, Instant } from '../foundation/values.ts'

/** How a product stands in a shop, and what to order. */
export const ReplenishmentLine = z
  .object({
    productId: Id,
    productName: z.string(),
    cartridgeMl: z.number(),
    sealed: z.number().int().describe('In date, not on hold, and a dispenser of the shop takes it'),
    opened: z.number().int(),
    onHandMl: z.number(),
    onOrder: z.number().int().describe('Cartridges on the way: of placed orders, and sent by other shops'),
    bookedMl: z.number().describe('What planned joints will take, within 28 days'),
    usedMl: z.number().describe('In the last 365 days, or since the product came'),
    historyDays: z.number().int(),
    consumptionPerDayMl: z
      .number()
      .nullable()
      .describe('With what expires opened; null: nothing was ever used'),
    reorderPointMl: z.number().nullable(),
    orderUpToMl: z.number().nullable(),
    isCutByShelfLife: z.boolean(),
    lastsDays: z.number().nullable().describe('On hand, at that consumption'),
    expectedWasteMl: z.number().describe('Of what is on hand, by expiry'),
    suggestedCartridges: z.number().int(),
    reason: Words.describe('Why so many, or why none'),
    said: saidOf('reason'),
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
    expectedMl: z.number().describe('Lost by expiry on average, first expired first out'),
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
        codes: z.array(z.string()).describe('Which: those that expire first'),
      }),
    ),
    wasteWithoutCents: z.number().int().describe('By the expected use, if nothing is sent'),
    wasteWithCents: z.number().int(),
    transferCostCents: z.number().int(),
    savedCents: z.number().int().describe('Waste avoided less what trips and packing cost'),
    isOptimal: z
      .boolean()
      .describe('Proved: nothing exists under the expected use that costs less by more than `gap`'),
    gap: z.number().describe('As a share of the cost'),
    notes: z.array(Words),
    said: saidOfEach('notes'),
  })
  .meta({ id: 'TransferPlan' })
export type TransferPlan = z.output<typeof TransferPlan>

export const replenishmentRoutes = {
  listReplenishment: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/replenishment',
    operationId: 'listReplenishment',
    tag: 'replenishment',
    summary: 'How each product stands in a shop, and what to order',
    description:
      'Levels of least expected cost (orders, jobs that wait, holding, what expires on the shelf) that keep the service level, ' +
      'from the use of each day and the bookings. Figures are estimates from past use: a person decides.',
    access: 'readShop',
    params: z.object({ shopId: Id }),
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
}
