import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, pageOf, PageQuery, Reason } from '../foundation/values.ts'

const Counted = z.object({
  cartridgeId: Id,
  code: z.string(),
  productName: z.string(),
  lotNumber: z.string(),
})

export const CountDifferenceKind = z
  .enum(['notFound', 'otherShelf', 'otherShop', 'inTransit', 'missing', 'gone'])
  .describe(
    'notFound: on file here, and not seen. The others were seen here, while the file says: on another shelf, in another shop, on its way, missing, or empty or discarded',
  )
  .meta({ id: 'CountDifferenceKind' })

export const StockCount = z
  .object({
    id: Id,
    shopId: Id,
    locationId: Id.nullable(),
    locationName: z.string().nullable(),
    startedAt: Instant,
    startedBy: z.string(),
    finishedAt: Instant.nullable(),
    finishedBy: z.string().nullable(),
    entries: z.array(Counted.extend({ countedAt: Instant, countedBy: z.string() })),
    differences: z
      .array(
        Counted.extend({
          kind: CountDifferenceKind,
          settled: z
            .object({
              at: Instant,
              by: z.string(),
              how: z
                .enum(['booked', 'changedSince', 'nothingToBook'])
                .describe('changedSince: somebody has dealt with the cartridge in the meantime'),
            })
            .nullable(),
        }),
      )
      .nullable()
      .describe('Null until the count is finished: it is blind'),
  })
  .meta({ id: 'StockCount' })
export type StockCount = z.output<typeof StockCount>

const countParams = z.object({ countId: Id })

export const countRoutes = {
  listStockCounts: defineRoute({
    method: 'GET',
    path: '/v1/stockCounts',
    operationId: 'listStockCounts',
    tag: 'stock',
    summary: 'Counts, the newest first',
    access: 'readShop',
    query: PageQuery.extend({ shopId: Id.optional() }),
    status: 200,
    response: pageOf(
      StockCount.omit({ entries: true, differences: true }).extend({
        counted: z.number().int(),
        differing: z.number().int().nullable(),
        unsettled: z.number().int(),
      }),
    ),
  }),
  getStockCount: defineRoute({
    method: 'GET',
    path: '/v1/stockCounts/:countId',
    operationId: 'getStockCount',
    tag: 'stock',
    summary: 'One count: what was seen, and once it is finished the differences',
    access: 'readShop',
    params: countParams,
    status: 200,
    response: StockCount,
  }),
  startStockCount: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/stockCounts',
    operationId: 'startStockCount',
    tag: 'stock',
    summary: 'Start to count a shelf, or join whoever counts it',
    access: 'useStock',
    params: z.object({ shopId: Id }),
    body: z.strictObject({ locationId: Id.nullable().describe('Null: what lies at no place that is known') }),
    status: 201,
    response: StockCount,
  }),
  addCountEntry: defineRoute({
    method: 'POST',
    path: '/v1/stockCounts/:countId/entries',
    operationId: 'addCountEntry',
    tag: 'stock',
    summary: 'I see this cartridge here',
    description: 'Seen twice, by one or by two, it counts once.',
    access: 'useStock',
    params: countParams,
    body: z.strictObject({ cartridgeId: Id }),
    status: 201,
    response: StockCount,
  }),
  removeCountEntry: defineRoute({
    method: 'DELETE',
    path: '/v1/stockCounts/:countId/entries/:cartridgeId',
    operationId: 'removeCountEntry',
    tag: 'stock',
    summary: 'That was a mistake: it is not here',
    access: 'useStock',
    params: z.object({ countId: Id, cartridgeId: Id }),
    status: 200,
    response: StockCount,
  }),
  cancelStockCount: defineRoute({
    method: 'DELETE',
    path: '/v1/stockCounts/:countId',
    operationId: 'cancelStockCount',
    tag: 'stock',
    summary: 'Cancel a count that was begun by mistake',
    description: 'As long as nothing was scanned: what was seen is finished, and never thrown away.',
    access: 'useStock',
    params: countParams,
    status: 204,
    response: z.null(),
  }),
  finishStockCount: defineRoute({
    method: 'POST',
    path: '/v1/stockCounts/:countId/finish',
    operationId: 'finishStockCount',
    tag: 'stock',
    summary: 'Everything on the shelf has been seen: show the differences',
    access: 'useStock',
    params: countParams,
    status: 201,
    response: StockCount,
  }),
  settleStockCount: defineRoute({
    method: 'POST',
    path: '/v1/stockCounts/:countId/settlement',
    operationId: 'settleStockCount',
    tag: 'stock',
    summary: 'Book the differences as corrections',
    description:
      'What is not found becomes missing; what was seen is put on this shelf, wherever it was on file. Somebody who books what another shop had needs the right there too.',
    access: 'handleStock',
    params: countParams,
    body: z.strictObject({
      cartridgeIds: z.array(Id).min(1).max(500).optional().describe('All that are open when left out'),
      reason: Reason,
    }),
    status: 201,
    response: StockCount,
  }),
}
