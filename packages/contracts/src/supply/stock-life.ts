import { saidOf, Words, WordsOrText } from '../foundation/words.ts'
import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant } from '../foundation/values.ts'

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
          by: WordsOrText,
          reason: WordsOrText,
          said: saidOf('by', 'reason'),
        }),
      )
      .describe('Every hold and its disposal, the newest first'),
    warmestLoss: z
      .object({ cartridgeId: Id, code: z.string(), days: z.number(), reason: Words, said: saidOf('reason') })
      .nullable()
      .describe('The cartridge that warm storage took the most off'),
  })
  .meta({ id: 'LotStorage' })
export type LotStorage = z.output<typeof LotStorage>

export const CartridgeStorage = z
  .object({
    measuredShare: z
      .number()
      .nullable()
      .describe('Share of its life here with storage readings, 0 to 1; null: nothing of it was measured'),
    stays: z
      .array(
        z.object({
          shopId: Id,
          locationId: Id,
          locationName: z.string(),
          from: Instant,
          until: Instant.nullable().describe('Null while it lies there'),
          measuredShare: z.number().nullable().describe('Null: not measured'),
        }),
      )
      .describe('Every shelf it lay on, the latest first'),
    quarantines: z
      .array(
        z.object({
          since: Instant,
          reason: WordsOrText,
          said: saidOf('reason'),
          decision: z
            .object({
              kind: z.enum(['use', 'discard']),
              at: Instant,
              by: z.string(),
              reason: WordsOrText,
              said: saidOf('reason'),
            })
            .nullable(),
        }),
      )
      .describe('The newest first'),
  })
  .meta({ id: 'CartridgeStorage' })
export type CartridgeStorage = z.output<typeof CartridgeStorage>

export const stockLifeRoutes = {
  getCartridgeStorage: defineRoute({
    method: 'GET',
    path: '/v1/cartridges/:cartridgeId/storage',
    operationId: 'getCartridgeStorage',
    tag: 'stock',
    summary: 'Where a cartridge lay, how much of that was measured, and what was decided about it',
    access: 'readShop',
    params: z.object({ cartridgeId: Id }),
    status: 200,
    response: CartridgeStorage,
  }),
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
    summary: 'When what is on hand expires, month by month',
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
