import { ExpiryLimit } from '../work/expiry-limit.ts'
import { saidOf, saidOfEach, Words, WordsOrText } from '../foundation/words.ts'
import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import {
  CalendarDate,
  Id,
  Instant,
  Label,
  Millilitres,
  Note,
  pageOf,
  PageQuery,
  Reason,
} from '../foundation/values.ts'

export const CartridgeState = z
  .enum(['sealed', 'opened', 'empty', 'discarded', 'inTransit', 'missing'])
  .describe('inTransit: on its way to another shop; missing: lost on the way, or not found at a count')
  .meta({ id: 'CartridgeState' })
export type CartridgeState = z.output<typeof CartridgeState>

/** How soon a person must act. `expired` counts opened cartridges past their open life too. */
export const Urgency = z.enum(['expired', 'soon', 'good']).meta({ id: 'Urgency' })
export type Urgency = z.output<typeof Urgency>

export const Cartridge = z
  .object({
    id: Id,
    code: z.string().describe('What the label on the cartridge says'),
    shopId: Id,
    lotId: Id,
    lotNumber: z.string(),
    productId: Id,
    productName: z.string(),
    cartridgeForm: z.string(),
    locationId: Id.nullable(),
    locationName: z.string().nullable(),
    state: CartridgeState,
    remainingMl: z.number().describe('In transit and missing: what it held when it left'),
    printedExpiry: CalendarDate.describe('The last day that counts'),
    openedAt: Instant.nullable(),
    receivedAt: Instant,
    effectiveExpiryAt: Instant.describe('The first instant at which it no longer counts'),
    expiryLimit: ExpiryLimit,
    expiryReason: Words,
    said: saidOf('expiryReason'),
    urgency: Urgency,
    hold: z
      .object({ reason: WordsOrText, said: saidOf('reason'), since: Instant })
      .nullable()
      .describe('Of its lot: every cartridge of it is held'),
    quarantine: z
      .object({ reason: WordsOrText, said: saidOf('reason'), since: Instant })
      .nullable()
      .describe('It lay outside its storage range itself: until somebody entitled decides, nothing takes it'),
    fitsDispenser: z.boolean().describe('Whether a dispenser of its shop takes it; if not it is no stock'),
  })
  .meta({ id: 'Cartridge' })
export type Cartridge = z.output<typeof Cartridge>

export const MovementKind = z
  .enum([
    'received',
    'opened',
    'used',
    'emptied',
    'discarded',
    'corrected',
    'sent',
    'arrived',
    'moved',
    'lost',
  ])
  .meta({ id: 'MovementKind' })
export type MovementKind = z.output<typeof MovementKind>

export const StockMovement = z
  .object({
    id: z.string(),
    at: Instant,
    recordedAt: Instant,
    kind: MovementKind,
    shopId: Id,
    lotId: Id,
    lotNumber: z.string(),
    cartridgeId: Id,
    cartridgeCode: z.string(),
    sealedChange: z.number().int(),
    openedChange: z.number().int(),
    volumeChangeMl: z.number(),
    by: z.string(),
    reason: WordsOrText,
    said: saidOf('reason'),
    bondId: Id.nullable(),
    shipmentId: Id.nullable(),
    locationName: z.string().nullable().describe('Where it lies from then on, of what is put somewhere'),
  })
  .meta({ id: 'StockMovement' })

export const Lot = z
  .object({
    id: Id,
    productId: Id,
    productName: z.string(),
    lotNumber: z.string(),
    printedExpiry: CalendarDate,
    expiryPrecision: z.enum(['day', 'month']),
    hold: z
      .object({
        reason: WordsOrText,
        since: Instant,
        by: WordsOrText,
        said: saidOf('by', 'reason'),
        kind: z
          .enum(['person', 'excursion', 'scrapped'])
          .describe(
            'excursion: it lay outside its storage range; scrapped: disposed of, and never used again',
          ),
      })
      .nullable(),
    onHand: z.array(
      z.object({ shopId: Id, sealed: z.number().int(), opened: z.number().int(), volumeMl: z.number() }),
    ),
  })
  .meta({ id: 'Lot' })
export type Lot = z.output<typeof Lot>

const lotParams = z.object({ lotId: Id })
const cartridgeParams = z.object({ cartridgeId: Id })

/** No adhesive lasts two centuries: a digit was misread, or nobody knew what to write. */
function isReadDay(day: string): boolean {
  return day < '2200'
}

/**
 * As printed, and as it is compared: two that look the same on every screen are the same. What nobody sees (zero width, a
 * mark of the direction of writing) would make another lot of it, past a hold and past a recall.
 */
const LotNumber = Label.max(20, 'must be at most 20 characters').refine(
  (text) => !/\p{Cf}/u.test(text),
  'must not contain control characters',
)

/** A printed expiry with a month only means the last day of that month. */
const PrintedExpiry = z
  .union(
    [
      z.strictObject({ date: CalendarDate.refine(isReadDay, 'must be a date such as 2031-05-31') }),
      z.strictObject({
        month: z
          .string()
          .regex(/^\d{4}-(0[1-9]|1[0-2])$/, 'must be a month such as 2031-05')
          .refine(isReadDay, 'must be a month such as 2031-05'),
      }),
    ],
    { error: 'must be {"date": "2031-05-31"}, or {"month": "2031-05"} where no day is printed' },
  )
  .meta({ id: 'PrintedExpiry' })

export const stockRoutes = {
  listCartridges: defineRoute({
    method: 'GET',
    path: '/v1/cartridges',
    operationId: 'listCartridges',
    tag: 'stock',
    summary: 'Cartridges on hand, those that expire first on top',
    access: 'readShop',
    query: PageQuery.extend({
      shopId: Id.optional(),
      productId: Id.optional(),
      lotId: Id.optional(),
      code: Label.optional().describe('Begins with these letters'),
      urgency: Urgency.optional(),
      state: CartridgeState.optional().describe('Sealed and opened ones when left out'),
    }),
    status: 200,
    response: pageOf(Cartridge),
  }),
  getCartridge: defineRoute({
    method: 'GET',
    path: '/v1/cartridges/:cartridgeId',
    operationId: 'getCartridge',
    tag: 'stock',
    summary: 'One cartridge: may it be used, until when, and why',
    access: 'readShop',
    params: cartridgeParams,
    status: 200,
    response: Cartridge,
  }),
  receiveLot: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/receipts',
    operationId: 'receiveLot',
    tag: 'stock',
    summary: 'Receive cartridges of a lot',
    description:
      'A lot that is known keeps its printed expiry: a delivery of the same lot number with another one is refused. ' +
      'Cartridges that fit no dispenser of the shop are received and marked: they are no stock until a gun takes them.',
    access: 'handleStock',
    params: z.object({ shopId: Id }),
    body: z.strictObject({
      productId: Id,
      lotNumber: LotNumber,
      printedExpiry: PrintedExpiry,
      cartridges: z.number().int().min(1).max(500),
      locationId: Id.nullable().default(null),
      reason: Note.default('').describe('Told as “Delivery” without one'),
      deliveryNote: Label.max(60).nullable().default(null).describe('Number of the paper that came with it'),
      gtin: z
        .string()
        .regex(/^\d{14}$/, 'must be a GTIN of 14 digits')
        .nullable()
        .default(null)
        .describe('As scanned. One that stands for no product yet is remembered for this one'),
      cartridgesPerScan: z
        .number()
        .int()
        .min(1)
        .max(500)
        .default(1)
        .describe('How many come with one scan of `gtin`, where it is remembered now'),
      serials: z
        .array(Label.max(20))
        .max(500)
        .default([])
        .describe('Serial numbers of the cartons or cartridges, where their labels carry any'),
    }),
    answer: 'The receipt, its cartridges with their codes, and what to look at',
    status: 201,
    response: z.object({
      receiptId: Id,
      lot: Lot,
      cartridges: z.array(Cartridge),
      warnings: z.array(Words),
      said: saidOfEach('warnings'),
    }),
  }),
  listLots: defineRoute({
    method: 'GET',
    path: '/v1/lots',
    operationId: 'listLots',
    tag: 'stock',
    summary: 'Lots of the chain',
    access: 'readShop',
    query: PageQuery.extend({ productId: Id.optional(), lotNumber: Label.optional() }),
    status: 200,
    response: pageOf(Lot),
  }),
  getLot: defineRoute({
    method: 'GET',
    path: '/v1/lots/:lotId',
    operationId: 'getLot',
    tag: 'stock',
    summary: 'One lot: where it is',
    access: 'readShop',
    params: lotParams,
    status: 200,
    response: Lot,
  }),
  holdLot: defineRoute({
    method: 'POST',
    path: '/v1/lots/:lotId/hold',
    operationId: 'holdLot',
    tag: 'stock',
    summary: 'Put a lot on hold in every shop at once',
    access: 'handleStock',
    params: lotParams,
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Lot,
  }),
  endLotHold: defineRoute({
    method: 'POST',
    path: '/v1/lots/:lotId/holdEnd',
    operationId: 'endLotHold',
    tag: 'stock',
    summary: 'Dispose of a held lot as usable: the hold ends',
    access: 'handleStock',
    params: lotParams,
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Lot,
  }),
  openCartridge: defineRoute({
    method: 'POST',
    path: '/v1/cartridges/:cartridgeId/opening',
    operationId: 'openCartridge',
    tag: 'stock',
    summary: 'Open a cartridge: its open life starts',
    access: 'useStock',
    params: cartridgeParams,
    body: z.strictObject({
      openedAt: Instant.optional().describe('Now when left out; never in the future'),
      reason: Note.default('').describe('Told as “Opened for a job” without one'),
    }),
    status: 201,
    response: Cartridge,
  }),
  changeNozzle: defineRoute({
    method: 'POST',
    path: '/v1/cartridges/:cartridgeId/nozzleChange',
    operationId: 'changeNozzle',
    tag: 'stock',
    summary: 'A new mixing nozzle goes on an opened cartridge',
    description:
      'It must be filled before anything comes out: what a nozzle of the product holds is booked as used, and a cartridge that holds no more than that is empty. ' +
      'The nozzle that goes on for a bond is part of what the bond takes: book only those that are changed besides.',
    access: 'useStock',
    params: cartridgeParams,
    body: z.strictObject({ reason: Note.default('').describe('Told as “Nozzle changed” without one') }),
    status: 201,
    response: Cartridge,
  }),
  discardCartridge: defineRoute({
    method: 'POST',
    path: '/v1/cartridges/:cartridgeId/discard',
    operationId: 'discardCartridge',
    tag: 'stock',
    summary: 'Discard a cartridge',
    access: 'useStock',
    params: cartridgeParams,
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Cartridge,
  }),
  decideQuarantine: defineRoute({
    method: 'POST',
    path: '/v1/cartridges/:cartridgeId/quarantineDecision',
    operationId: 'decideQuarantine',
    tag: 'stock',
    summary: 'Decide about a quarantined cartridge: use it, or discard it',
    description: 'Kept for ever with the name and the reason. A lot that is on hold stays so.',
    access: 'handleStock',
    params: cartridgeParams,
    body: z.strictObject({ decision: z.enum(['use', 'discard']), reason: Reason }),
    status: 201,
    response: Cartridge,
  }),
  correctCartridge: defineRoute({
    method: 'POST',
    path: '/v1/cartridges/:cartridgeId/correction',
    operationId: 'correctCartridge',
    tag: 'stock',
    summary: 'Correct what an opened cartridge still holds',
    access: 'handleStock',
    params: cartridgeParams,
    body: z.strictObject({ remainingMl: Millilitres, reason: Reason }),
    status: 201,
    response: Cartridge,
  }),
  listStockMovements: defineRoute({
    method: 'GET',
    path: '/v1/stockMovements',
    operationId: 'listStockMovements',
    tag: 'stock',
    summary: 'The ledger, newest first',
    access: 'readShop',
    query: PageQuery.extend({
      shopId: Id.optional(),
      lotId: Id.optional(),
      cartridgeId: Id.optional(),
    }),
    status: 200,
    response: pageOf(StockMovement),
  }),
}
