import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id } from '../foundation/values.ts'

export const LabelSheet = z
  .object({
    id: z.string(),
    widthMm: z.number(),
    heightMm: z.number(),
    columns: z.number().int(),
    rows: z.number().int(),
    labelWidthMm: z.number(),
    labelHeightMm: z.number(),
  })
  .meta({ id: 'LabelSheet' })
export type LabelSheet = z.output<typeof LabelSheet>

export const labelRoutes = {
  listLabelSheets: defineRoute({
    method: 'GET',
    path: '/v1/labelSheets',
    operationId: 'listLabelSheets',
    tag: 'stock',
    summary: 'The label sheets that can be printed, by their geometry',
    access: 'readShop',
    status: 200,
    response: z.object({ items: z.array(LabelSheet) }),
  }),
  getLabels: defineRoute({
    method: 'GET',
    path: '/v1/labels.pdf',
    operationId: 'getLabels',
    tag: 'stock',
    summary: 'Labels of cartridges on hand, to print at full size',
    description:
      'Each has a QR code, the code in letters, product, lot and the printed expiry. Name a cartridge, a delivery, a lot or a storage location. ' +
      'Print without scaling.',
    access: 'useStock',
    query: z.strictObject({
      sheet: z.string().max(40).default('a4-3x8').describe('An id of `/v1/labelSheets`'),
      start: z.coerce
        .number()
        .int()
        .min(1)
        .max(100)
        .default(1)
        .describe('The first free place of a sheet that was begun, from 1, row by row'),
      cartridgeId: Id.optional(),
      receiptId: Id.optional(),
      lotId: Id.optional(),
      locationId: Id.optional(),
    }),
    status: 200,
    mediaType: 'application/pdf',
    response: z.string().describe('A PDF document'),
  }),
}
