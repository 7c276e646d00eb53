import { Words, WordsOrText, saidOf } from '../foundation/words.ts'
import * as z from 'zod'
import { BakeProgram, MetalStartC } from '../cure/bakes.ts'
import { Bond, ReadyInstant } from '../cure/bond.ts'
import { ProblemReason } from '../foundation/problems.ts'
import { defineRoute } from '../foundation/route.ts'
import { Resource, Shop } from '../foundation/shops.ts'
import { Id, Instant, Note, TemperatureC, Version } from '../foundation/values.ts'

export const BookingPurpose = z.enum(['work', 'bake']).meta({ id: 'BookingPurpose' })

export const Booking = z
  .object({
    id: Id,
    shopId: Id,
    resourceId: Id,
    resourceName: z.string(),
    repairOrderId: Id,
    repairOrderNumber: z.string(),
    vehicle: z.string(),
    purpose: BookingPurpose,
    startsAt: Instant,
    endsAt: Instant,
    highestMetalC: z
      .number()
      .nullable()
      .describe('Of a bake: as it was booked, or as it was worked out from its program'),
    bakeProgram: BakeProgram.nullable(),
    metalStartC: z.number().nullable().describe('As it was said with the program'),
    units: z.number().int().describe('How many of a counted resource'),
    curingUntil: ReadyInstant.nullable().describe(
      'Conservative: until when a bond keeps the vehicle here; null when none does',
    ),
    clash: z
      .object({
        withBookingId: Id,
        message: Words,
        proposal: Words,
        said: saidOf('message', 'proposal'),
      })
      .nullable()
      .describe('The cure runs on into the next booking: nothing is overwritten'),
    note: WordsOrText,
    planId: Id.nullable().describe('The published plan made it: it is moved there'),
    operationName: WordsOrText.nullable().describe('Of the plan: what is done'),
    said: saidOf('note', 'operationName'),
    version: Version,
  })
  .meta({ id: 'Booking' })
export type Booking = z.output<typeof Booking>

export const BayBoardRow = z
  .object({
    resource: Resource,
    current: Booking.nullable(),
    next: Booking.nullable(),
    bonds: z.array(Bond).describe('Not released yet, on the vehicle that stands here'),
    held: z
      .array(ProblemReason)
      .describe('Joints of the vehicle that stands here that a person must inspect or make again'),
    temperatureC: z.number().nullable(),
    temperatureAt: Instant.nullable(),
  })
  .meta({ id: 'BayBoardRow' })

const NewBooking = z
  .strictObject({
    resourceId: Id,
    repairOrderId: Id,
    purpose: BookingPurpose.default('work'),
    startsAt: Instant,
    endsAt: Instant,
    highestMetalC: TemperatureC.nullable()
      .default(null)
      .describe('Of a bake without a program: what the metal will get to'),
    bakeProgram: BakeProgram.nullable()
      .default(null)
      .describe(
        'Of a bake: the window, the highest metal temperature and every limit are worked out from it',
      ),
    metalStartC: MetalStartC,
    units: z.number().int().min(1).max(500).default(1),
    note: Note.default(''),
  })
  .refine((b) => b.startsAt < b.endsAt, { path: ['endsAt'], error: 'must be after startsAt' })
  // It runs even where an instant is none, and is still a text then.
  .refine((b) => !(Number(b.endsAt) - Number(b.startsAt) > 60 * 24 * 3600_000), {
    path: ['endsAt'],
    error: 'must be at most 60 days after startsAt',
  })
  .refine((b) => (b.purpose === 'bake') === ((b.highestMetalC === null) !== (b.bakeProgram === null)), {
    path: ['highestMetalC'],
    error: 'or bakeProgram, one of them, is needed for a bake, and only for a bake',
  })
  .refine((b) => b.purpose === 'bake' || (b.highestMetalC === null && b.bakeProgram === null), {
    path: ['bakeProgram'],
    error: 'is only for a bake',
  })
  .refine((b) => b.metalStartC === null || b.bakeProgram !== null, {
    path: ['metalStartC'],
    error: 'is only for a bake by its program',
  })

const bookingParams = z.object({ bookingId: Id })

export const bookingRoutes = {
  listBookings: defineRoute({
    method: 'GET',
    path: '/v1/bookings',
    operationId: 'listBookings',
    tag: 'schedule',
    summary: 'Bookings that overlap a period',
    access: 'readShop',
    query: z.strictObject({ shopId: Id, from: Instant, to: Instant }),
    status: 200,
    response: z.object({ items: z.array(Booking) }),
  }),
  addBooking: defineRoute({
    method: 'POST',
    path: '/v1/bookings',
    operationId: 'addBooking',
    tag: 'schedule',
    summary: 'Book a bay, an oven, clamp sets or a person',
    description:
      'The database decides whether the place is free. A bake is refused while a bond on the vehicle is short of handling strength by then, or when the metal would leave a rated range.',
    access: 'planWork',
    body: NewBooking,
    status: 201,
    response: Booking,
  }),
  moveBooking: defineRoute({
    method: 'PATCH',
    path: '/v1/bookings/:bookingId',
    operationId: 'moveBooking',
    tag: 'schedule',
    summary: 'Move or lengthen a booking',
    access: 'planWork',
    params: bookingParams,
    body: z.strictObject({
      resourceId: Id.optional(),
      startsAt: Instant.optional(),
      endsAt: Instant.optional(),
      note: Note.optional(),
    }),
    ifMatch: true,
    status: 200,
    response: Booking,
  }),
  cancelBooking: defineRoute({
    method: 'DELETE',
    path: '/v1/bookings/:bookingId',
    operationId: 'cancelBooking',
    tag: 'schedule',
    summary: 'Cancel a booking; refused while a bond on the vehicle still needs the bay',
    access: 'planWork',
    params: bookingParams,
    status: 204,
    response: z.null(),
  }),
  getBayBoard: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/bayBoard',
    operationId: 'getBayBoard',
    tag: 'schedule',
    summary: 'What stands in each bay and oven now, and how long it must stay',
    access: 'readShop',
    params: z.object({ shopId: Id }),
    status: 200,
    response: z.object({ shop: Shop, asOf: Instant, rows: z.array(BayBoardRow) }),
  }),
}
