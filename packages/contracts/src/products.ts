import * as z from 'zod'
import { defineRoute } from './route.ts'
import { CalendarDate, Id, Instant, Label, Millilitres, Minutes, RangeC, TemperatureC } from './values.ts'

export const Chemistry = z.enum(['acrylic', 'epoxy', 'polyurethane']).meta({ id: 'Chemistry' })
export type Chemistry = z.output<typeof Chemistry>

export const SheetPoint = z
  .strictObject({
    temperatureC: TemperatureC,
    workTimeMinutes: Minutes,
    handlingTimeMinutes: Minutes,
    fullCureMinutes: Minutes,
  })
  .meta({ id: 'SheetPoint' })

/** The figures of one revision of a product's data sheet. */
export const SheetFigures = z.strictObject({
  revision: Label,
  issuedOn: CalendarDate,
  points: z.array(SheetPoint).min(1, 'give at least one published point').max(20),
  applicationRangeC: RangeC,
  lowestCureC: TemperatureC,
  highestCureC: TemperatureC,
  serviceRangeC: RangeC,
})

/** What is asked about a sheet before it is kept (packages/cure/src/sheet-questions.ts says of each when). */
export const SheetQuestionKind = z
  .enum([
    'fahrenheit',
    'celsius',
    'muchFaster',
    'handlingInMinutes',
    'applicationOutsideShop',
    'noCureInRoom',
    'cureEndsHot',
    'serviceBelowSun',
  ])
  .meta({ id: 'SheetQuestionKind' })
export type SheetQuestionKind = z.output<typeof SheetQuestionKind>

/** A revision as it is recorded: its figures, and what of them somebody stands by. */
export const NewSheet = SheetFigures.extend({
  confirmed: z
    .array(SheetQuestionKind)
    .max(20)
    .default([])
    .describe('The questions of a `sheet-questioned` answer that the printed sheet bears out'),
})

export const ProductSheet = z
  .object({ id: Id, ...SheetFigures.shape, recordedAt: Instant })
  .meta({ id: 'ProductSheet' })
export type ProductSheet = z.output<typeof ProductSheet>

const productFigures = {
  name: Label,
  chemistry: Chemistry,
  mixRatio: z.string().regex(/^\d{1,2}:\d{1,2}$/, 'must look like 2:1'),
  cartridgeForm: Label.max(40).describe(
    "What a dispenser must take: the shop's word for the cartridge's shape and size",
  ),
  cartridgeMl: Millilitres.positive('must be above 0'),
  openLifeDays: z.number().int().min(0).max(3650).describe('How long an opened cartridge counts'),
  storageRangeC: RangeC,
  labelStorageC: TemperatureC.describe('The storage temperature that the printed expiry assumes'),
  storageQ10: z
    .number()
    .min(1, 'must be at least 1')
    .max(5, 'must be at most 5')
    .default(2)
    .describe('How many times as fast shelf life is used up for each 10 degC above labelStorageC'),
  nozzleHoldUpMl: Millilitres.max(100),
  glassBeadMm: z.number().positive().max(5).describe('Size of the glass beads that set the bond line'),
  toleratesPrimer: z.boolean().describe('May go on e-coat; most acrylics want bright bare metal'),
}

export const Product = z
  .object({ id: Id, ...productFigures, sheet: ProductSheet.nullable(), retiredAt: Instant.nullable() })
  .meta({ id: 'Product' })
export type Product = z.output<typeof Product>

const productParams = z.object({ productId: Id })

export const productRoutes = {
  listProducts: defineRoute({
    method: 'GET',
    path: '/v1/products',
    operationId: 'listProducts',
    tag: 'products',
    summary: 'Products with their newest data sheet',
    access: 'readShop',
    status: 200,
    response: z.object({ items: z.array(Product) }),
  }),
  getProduct: defineRoute({
    method: 'GET',
    path: '/v1/products/:productId',
    operationId: 'getProduct',
    tag: 'products',
    summary: 'One product with every revision of its data sheet',
    access: 'readShop',
    params: productParams,
    status: 200,
    response: Product.extend({ sheets: z.array(ProductSheet) }),
  }),
  addProduct: defineRoute({
    method: 'POST',
    path: '/v1/products',
    operationId: 'addProduct',
    tag: 'products',
    summary: 'Add a product, with its data sheet if it is at hand',
    access: 'manageCatalogue',
    reach: 'chain',
    body: z
      .strictObject({ ...productFigures, sheet: NewSheet.nullable().default(null) })
      .refine(({ nozzleHoldUpMl, cartridgeMl }) => nozzleHoldUpMl < cartridgeMl, {
        path: ['nozzleHoldUpMl'],
        error: 'must be less than a cartridge holds: else nothing comes out',
      }),
    status: 201,
    response: Product,
  }),
  addProductSheet: defineRoute({
    method: 'POST',
    path: '/v1/products/:productId/sheets',
    operationId: 'addProductSheet',
    tag: 'products',
    summary: 'Record a new revision of a data sheet',
    description:
      'Bonds made before keep the revision that they were made by. A sheet that looks mistyped is answered with `sheet-questioned` and each question; send their codes as `confirmed` where the printed sheet says so.',
    access: 'manageCatalogue',
    reach: 'chain',
    params: productParams,
    body: NewSheet,
    status: 201,
    response: Product,
  }),
}
