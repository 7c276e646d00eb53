import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import {
  CalendarDate,
  Id,
  Instant,
  Label,
  Millilitres,
  Minutes,
  RangeC,
  Reason,
  TemperatureC,
} from '../foundation/values.ts'

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

/** What is asked about a sheet before it is kept (packages/cure/src/sheet/sheet-questions.ts says of each when). */
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

/** Six seconds: far below any adhesive that a person could still apply, and no slip of a unit gets under it unseen. */
const SheetMinutes = Minutes.min(0.1, 'must be at least 0.1 minutes: a data sheet gives minutes')

const NewSheetPoint = SheetPoint.extend({
  workTimeMinutes: SheetMinutes,
  handlingTimeMinutes: SheetMinutes,
  fullCureMinutes: SheetMinutes,
}).meta({ id: 'NewSheetPoint' })

/** A revision as it is recorded: its figures, and what of them somebody stands by. */
export const NewSheet = SheetFigures.extend({
  points: z.array(NewSheetPoint).min(1, 'give at least one published point').max(20),
  validFrom: CalendarDate.nullable()
    .default(null)
    .describe('The first day on which it counts, in the zone of the shop; null: as soon as it is approved'),
  confirmed: z
    .array(SheetQuestionKind)
    .max(20)
    .default([])
    .describe('The questions of a `sheet-questioned` answer that the printed sheet bears out'),
})

export const ProductSheet = z
  .object({
    id: Id,
    ...SheetFigures.shape,
    validFrom: CalendarDate.nullable().describe('null: as soon as it is approved'),
    recordedAt: Instant,
    recordedBy: z.string().nullable().describe('null: before this was kept'),
    recordedById: Id.nullable(),
    answered: z
      .array(z.string())
      .describe('What looked mistyped when it was recorded, and was said to be on the print'),
    approval: z
      .object({
        at: Instant,
        by: z.string(),
        secondLook: z.boolean().describe('By the one who recorded it, on a later day'),
      })
      .nullable()
      .describe('null: it counts for nothing yet, or was turned down'),
    documents: z
      .array(
        z.object({
          id: Id,
          name: z.string(),
          bytes: z.number().int(),
          sha256: z.string(),
          at: Instant,
          by: z.string(),
        }),
      )
      .describe("The maker's own PDF, the newest first"),
    rejection: z.object({ at: Instant, by: z.string(), reason: z.string() }).nullable(),
  })
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
  .object({
    id: Id,
    ...productFigures,
    sheet: ProductSheet.nullable().describe(
      'The revision that counts now: the newest that is approved and valid',
    ),
    waitingSheets: z.number().int().describe('How many revisions wait for somebody to approve them'),
    retiredAt: Instant.nullable(),
  })
  .meta({ id: 'Product' })
export type Product = z.output<typeof Product>

const productParams = z.object({ productId: Id })
const sheetParams = productParams.extend({ sheetId: Id })

export const productRoutes = {
  listProducts: defineRoute({
    method: 'GET',
    path: '/v1/products',
    operationId: 'listProducts',
    tag: 'products',
    summary: 'Products with the data sheet that counts',
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
    summary: 'Propose a new revision of a data sheet',
    description:
      'It counts once it is approved. Bonds made before keep the revision that they were made by. A sheet that looks mistyped is answered with `sheet-questioned` and each question; send their codes as `confirmed` where the printed sheet says so.',
    access: 'manageCatalogue',
    reach: 'chain',
    params: productParams,
    body: NewSheet,
    status: 201,
    response: Product,
  }),
  addSheetDocument: defineRoute({
    method: 'POST',
    path: '/v1/products/:productId/sheets/:sheetId/documents',
    operationId: 'addSheetDocument',
    tag: 'products',
    summary: "Keep the maker's PDF with a revision",
    description: 'Judged by its bytes. One that was wrong is followed by the right one; none is removed.',
    access: 'manageCatalogue',
    reach: 'chain',
    params: sheetParams,
    bodyLimit: 8 * 1024 * 1024,
    body: z.strictObject({
      name: Label,
      base64: z.base64('must be base64').min(1, 'is empty').describe('At most 5 MB'),
    }),
    status: 201,
    response: Product,
  }),
  getSheetDocument: defineRoute({
    method: 'GET',
    path: '/v1/products/:productId/sheets/:sheetId/documents/:documentId',
    operationId: 'getSheetDocument',
    tag: 'products',
    summary: "The maker's PDF as it was sent",
    access: 'readShop',
    params: sheetParams.extend({ documentId: Id }),
    status: 200,
    mediaType: 'application/pdf',
    response: z.string().meta({ format: 'binary' }),
  }),
  rejectProductSheet: defineRoute({
    method: 'POST',
    path: '/v1/products/:productId/sheets/:sheetId/rejection',
    operationId: 'rejectProductSheet',
    tag: 'products',
    summary: 'Turn down a proposed revision',
    description:
      'By anybody who keeps the catalogue, who recorded it too. It stays on record and never counts; the same revision may then be recorded again.',
    access: 'manageCatalogue',
    reach: 'chain',
    params: sheetParams,
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Product,
  }),
  approveProductSheet: defineRoute({
    method: 'POST',
    path: '/v1/products/:productId/sheets/:sheetId/approval',
    operationId: 'approveProductSheet',
    tag: 'products',
    summary: 'Approve a revision, so that it counts',
    description:
      'By somebody else than who recorded it. Only where nobody else of the chain could: by the same person on a later day, with `secondLook`, after comparing every figure with the print again.',
    access: 'manageCatalogue',
    reach: 'chain',
    params: sheetParams,
    body: z.strictObject({
      secondLook: z
        .boolean()
        .default(false)
        .describe('I recorded it myself, and have compared every figure with the print again'),
    }),
    status: 201,
    response: Product,
  }),
}
