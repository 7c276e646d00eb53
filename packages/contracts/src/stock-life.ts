import * as z from 'zod'
import { defineRoute } from './route.ts'
import { Id, Instant } from './values.ts'

export const LotStorage = z
  .object({
    meanKineticC: z
      .number()
      .nullable()
      .describe(
        'Mean kinetic temperature (USP <1079.2>) over all shelves, each weighted by cartridges and measured time; null where nothing was measured',
      ),
    places: z
      .array(
        z.object({
          shopId: Id,
          locationId: Id,
          locationName: z.string(),
          cartridges: z.number().int(),
          from: Instant,
          until: Instant.nullable().describe('Null while some of it still lies there'),
          meanKineticC: z.number().nullable(),
          coldestC: z.number().nullable(),
          warmestC: z.number().nullable(),
          measuredHours: z.number(),
          days: z.array(
            z.object({ day: Instant, coldestC: z.number(), warmestC: z.number(), meanC: z.number() }),
          ),
        }),
      )
      .describe('Every shelf it lay on, the latest first'),
    storageRangeC: z.object({ min: z.number(), max: z.number() }),
    labelStorageC: z.number(),
    holds: z
      .array(
        z.object({
          kind: z.enum(['held', 'ended', 'scrapped']),
          at: Instant,
          by: z.string(),
          reason: z.string(),
        }),
      )
      .describe('Every hold and its disposal, the newest first'),
    warmestLoss: z
      .object({ cartridgeId: Id, code: z.string(), days: z.number(), reason: z.string() })
      .nullable()
      .describe('The cartridge that warm storage took the most off'),
  })
  .meta({ id: 'LotStorage' })
export type LotStorage = z.output<typeof LotStorage>

export const stockLifeRoutes = {
  getLotStorage: defineRoute({
    method: 'GET',
    path: '/v1/lots/:lotId/storage',
    operationId: 'getLotStorage',
    tag: 'stock',
    summary: 'How a lot was stored: shelves, temperatures, mean kinetic temperature, holds',
    access: 'readShop',
    params: z.object({ lotId: Id }),
    status: 200,
    response: LotStorage,
  }),
  listExpiries: defineRoute({
    method: 'GET',
    path: '/v1/expiries',
    operationId: 'listExpiries',
    tag: 'stock',
    summary: 'When what is on hand dies, month by month',
    access: 'readShop',
    query: z.strictObject({ shopId: Id.optional(), productId: Id.optional() }),
    status: 200,
    response: z.object({
      items: z.array(
        z.object({
          month: z.string().describe("2031-05, by each shop's own calendar"),
          cartridges: z.number().int(),
          volumeMl: z.number(),
          expired: z.number().int().describe('Of these, dead already'),
          soon: z.number().int().describe('Of these, to die within `soonDays`'),
        }),
      ),
      soonDays: z.number().int(),
      thisMonth: z
        .string()
        .describe(
          '2031-05: the month that it is now, of several shops where the calendar is furthest behind',
        ),
    }),
  }),
}
