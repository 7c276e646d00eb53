import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { saidOf, Words } from '../foundation/words.ts'
import { Cartridge } from './stock.ts'
import { CalendarDate, Id, Instant } from '../foundation/values.ts'

export const Gtin = z
  .string()
  .regex(/^\d{14}$/, 'must be a GTIN of 14 digits: put zeros in front of a shorter one')

export const ProductGtin = z
  .object({
    gtin: Gtin,
    productId: Id,
    cartridges: z
      .number()
      .int()
      .describe('How many cartridges come with one scan: a carton has its own GTIN'),
    recordedAt: Instant,
    recordedBy: z.string(),
  })
  .meta({ id: 'ProductGtin' })
export type ProductGtin = z.output<typeof ProductGtin>

/** Something about a delivery that a person must look at before it is taken in. */
export const DeliveryQuestion = z
  .object({
    code: z.enum([
      'expired',
      'shortDated',
      'otherExpiry',
      'onHold',
      'noDispenserFits',
      'sameSerial',
      'sameDelivery',
      'receivedLately',
    ]),
    message: Words,
    said: saidOf('message'),
  })
  .meta({ id: 'DeliveryQuestion' })
export type DeliveryQuestion = z.output<typeof DeliveryQuestion>

const ScannedCartridge = z.object({
  kind: z.literal('cartridge'),
  cartridge: Cartridge,
})

const ScannedProduct = z.object({
  kind: z.literal('product'),
  gtin: Gtin,
  product: z
    .object({ id: Id, name: z.string(), cartridgeForm: z.string() })
    .nullable()
    .describe('Null: no product has this GTIN yet. Receive with it once, and it is remembered'),
  cartridges: z.number().int().describe('How many come with this scan'),
  lotNumber: z.string().nullable(),
  lot: z
    .object({ id: Id, printedExpiry: CalendarDate })
    .nullable()
    .describe('The lot of that number, where it is on file'),
  expiry: z
    .object({ date: CalendarDate, precision: z.enum(['day', 'month']) })
    .nullable()
    .describe('Printed without a day: the last day of the month'),
  serial: z.string().nullable(),
  questions: z.array(DeliveryQuestion),
})

export const ScanAnswer = z
  .discriminatedUnion('kind', [ScannedCartridge, ScannedProduct])
  .meta({ id: 'ScanAnswer' })
export type ScanAnswer = z.output<typeof ScanAnswer>

/** A symbol holds a few hundred characters at most; the separator between its fields is a control character. */
const ScannedText = z
  .string()
  .min(1, 'scan or type something')
  .max(500, 'must be at most 500 characters')
  .refine((text) => !text.includes('\u0000'), 'must not contain the NUL character')

const productParams = z.object({ productId: Id })

export const receivingRoutes = {
  readScan: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/scans',
    operationId: 'readScan',
    tag: 'stock',
    summary: 'What is this? The text of any scanned label',
    description:
      "Takes a GS1 element string (GS1-128, DataMatrix, QR; with its separators), a GS1 Digital Link, a bare GTIN, or a cartridge's own label. " +
      'Nothing is stored. A wrong check digit is named, never guessed at.',
    access: 'readShop',
    params: z.object({ shopId: Id }),
    body: z.strictObject({ text: ScannedText }),
    status: 200,
    response: ScanAnswer,
  }),
  listProductGtins: defineRoute({
    method: 'GET',
    path: '/v1/products/:productId/gtins',
    operationId: 'listProductGtins',
    tag: 'products',
    summary: 'The GTINs that stand for a product',
    access: 'readShop',
    params: productParams,
    status: 200,
    response: z.object({ items: z.array(ProductGtin) }),
  }),
  addProductGtin: defineRoute({
    method: 'POST',
    path: '/v1/products/:productId/gtins',
    operationId: 'addProductGtin',
    tag: 'products',
    summary: 'Say which product a GTIN stands for',
    access: 'manageCatalogue',
    reach: 'chain',
    params: productParams,
    body: z.strictObject({
      gtin: z.string().regex(/^(\d{8}|\d{12,14})$/, 'must be 8, 12, 13 or 14 digits'),
      cartridges: z.number().int().min(1).max(500).default(1),
    }),
    status: 201,
    response: ProductGtin,
  }),
  removeProductGtin: defineRoute({
    method: 'DELETE',
    path: '/v1/products/:productId/gtins/:gtin',
    operationId: 'removeProductGtin',
    tag: 'products',
    summary: 'A GTIN no longer stands for this product',
    access: 'manageCatalogue',
    reach: 'chain',
    params: z.object({ productId: Id, gtin: Gtin }),
    status: 204,
    response: z.null(),
  }),
}
