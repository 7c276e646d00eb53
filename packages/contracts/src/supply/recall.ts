import { saidOfEach, Words } from '../foundation/words.ts'
import * as z from 'zod'
import { BondState } from '../cure/bond.ts'
import { defineRoute } from '../foundation/route.ts'
import { CartridgeState, Lot } from './stock.ts'
import { Id, Instant, Reason } from '../foundation/values.ts'

export const LotRecall = z
  .object({
    lot: Lot,
    mayBeUsed: z
      .enum(['onHold', 'usable', 'away', 'quarantined', 'expired', 'noneLeft'])
      .describe(
        'Of all shops, also those that one may not see: on hold; a cartridge on hand is let through; only one that is on its way or missing would be; all that is left in date is quarantined; all that is left has expired; nothing is left',
      ),
    cartridges: z
      .array(
        z.object({
          cartridgeId: Id,
          code: z.string(),
          shopId: Id,
          shopName: z.string(),
          state: CartridgeState,
          isExpired: z.boolean(),
          isQuarantined: z.boolean(),
          locationName: z.string().nullable(),
          remainingMl: z.number(),
        }),
      )
      .describe('Every cartridge there ever was of it; those on hand first'),
    joints: z
      .array(
        z.object({
          bondId: Id,
          shopId: Id,
          shopName: z.string(),
          repairOrderId: Id,
          repairOrderNumber: z.string(),
          vehicle: z.string(),
          jointName: z.string(),
          safetyClass: z.string(),
          bondState: BondState,
          amountMl: z.number(),
          appliedAt: Instant,
          appliedBy: z.string(),
          codes: z.array(z.string()).describe('The cartridges of this lot that went into it'),
        }),
      )
      .describe('Every attempt at a joint that it went into, the newest first'),
    people: z
      .array(
        z.object({
          name: z.string(),
          email: z.string(),
          why: z.array(Words).describe('Handles stock in a shop that has it; made a joint with it'),
          said: saidOfEach('why'),
        }),
      )
      .describe('Whom to tell'),
    hiddenShops: z.number().int().describe('Shops that have to do with it, and that you may not see'),
  })
  .meta({ id: 'LotRecall' })
export type LotRecall = z.output<typeof LotRecall>

const lotParams = z.object({ lotId: Id })

export const recallRoutes = {
  getLotRecall: defineRoute({
    method: 'GET',
    path: '/v1/lots/:lotId/recall',
    operationId: 'getLotRecall',
    tag: 'stock',
    summary: 'Everything a recall of a lot concerns: cartridges, joints, repair orders, people',
    access: 'handleStock',
    params: lotParams,
    status: 200,
    response: LotRecall,
  }),
  getLotRecallCsv: defineRoute({
    method: 'GET',
    path: '/v1/lots/:lotId/recall.csv',
    operationId: 'getLotRecallCsv',
    tag: 'stock',
    summary: 'The same as a table: a row for each cartridge and each joint',
    access: 'handleStock',
    params: lotParams,
    status: 200,
    mediaType: 'text/csv',
    response: z.string().describe('CSV in UTF-8 with a heading'),
  }),
  scrapLot: defineRoute({
    method: 'POST',
    path: '/v1/lots/:lotId/scrapping',
    operationId: 'scrapLot',
    tag: 'stock',
    summary: 'Dispose of a held lot: discard all of it, in every shop',
    description:
      'Every cartridge on hand is discarded, and the hold stays for good: what is on its way or turns up later is not used either. It needs the right in every shop that has any.',
    access: 'handleStock',
    params: lotParams,
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Lot,
  }),
}
