import * as z from 'zod'
import { ProblemReason } from '../foundation/problems.ts'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, RangeC, TemperatureC, threeOf } from '../foundation/values.ts'

/** What the oven is told, and what the paint asks of the metal. */
export const BakeProgram = z
  .strictObject({
    airStartC: TemperatureC.describe('Air when the vehicle comes in'),
    setPointC: TemperatureC,
    rampCPerMinute: z
      .number()
      .positive('must be above 0')
      .max(100, 'must be at most 100 degC a minute')
      .optional()
      .describe('How fast the air rises; at once when left out'),
    airToleranceC: z
      .number()
      .min(0, 'must not be negative')
      .max(30, 'must be at most 30 degC')
      .describe('How far the air may be off: its warm side counts for limits, its cold side for time'),
    metalTargetC: TemperatureC.describe(
      'The dwell counts from the slowest panel at this temperature, not from the set point',
    ),
    dwellMinutes: z
      .number()
      .min(0, 'must not be negative')
      .max(24 * 60, 'must be at most a day'),
    coolAirC: TemperatureC.describe('Air that it cools down in'),
    touchC: TemperatureC.describe('The vehicle may be touched from here down'),
  })
  .meta({ id: 'BakeProgram' })
export type BakeProgram = z.output<typeof BakeProgram>

/** Of a vehicle that is to be baked. */
export const MetalStartC = TemperatureC.nullable()
  .default(null)
  .describe(
    'Of the metal when it is moved to the oven; null: as the coldest of its bonds is expected to be then, else as the thermometer of its bay reads now, else as the air it cools in',
  )

const MaybeMinutes = z.number().nullable().describe('null: never')

/** A bake worked out: times, peaks, what it gives each bond, why it may not be, and the lines to draw it by. */
export const OvenWindow = z
  .object({
    mayBake: z.boolean(),
    heatUpMinutes: threeOf(MaybeMinutes).describe('Until the slowest panel is at the metal target'),
    windowMinutes: threeOf(MaybeMinutes).describe('Heat-up, dwell and cool-down: book the conservative one'),
    metalStartC: z.number().describe('Of the metal when it is moved to the oven'),
    peakMetalC: z
      .number()
      .nullable()
      .describe('The fastest panel with the air on its warm side; null when no panel can be computed'),
    limits: z
      .object({
        vehicleC: z.number().nullable().describe("The vehicle's own; null where it has none"),
        rated: z
          .array(z.object({ joint: z.string(), product: z.string(), rangeC: RangeC }))
          .describe('What the product of each bond is rated to'),
      })
      .describe('What the metal was held against'),
    panels: z.array(
      z.object({
        name: z.string(),
        tauMinutes: z.number(),
        heatUpMinutes: MaybeMinutes,
        peakMetalC: z.number(),
      }),
    ),
    bonds: z
      .array(
        z.object({
          joint: z.string(),
          panel: z.string(),
          gained: threeOf(z.number()).describe('Share of full cure that the bake adds'),
          fullCureProgress: threeOf(z.number()).describe('Full cure when the vehicle is cool'),
        }),
      )
      .describe('Credit by the temperature of the metal'),
    refusals: z.array(ProblemReason).describe('Empty when it may be baked'),
    cautions: z.array(ProblemReason),
    points: z
      .array(z.object({ atMinutes: z.number(), airC: z.number(), metalC: z.array(z.number()) }))
      .describe(
        'As expected, to draw by: minutes from the move to the oven, air, and the metal of each of `panels` in their order; two points at one instant are a step of the air',
      ),
  })
  .meta({ id: 'OvenWindow' })
export type OvenWindow = z.output<typeof OvenWindow>

export const bakeRoutes = {
  checkOven: defineRoute({
    method: 'POST',
    path: '/v1/repairOrders/:repairOrderId/ovenCheck',
    operationId: 'checkOven',
    tag: 'schedule',
    summary: 'May this vehicle be baked then, how long does it take, and what does it give its bonds?',
    description:
      'Nothing is booked. Its panels come from its joints, its bonds as they will stand when it is moved by the forecast of its bay.',
    access: 'readShop',
    params: z.object({ repairOrderId: Id }),
    body: z.strictObject({
      startsAt: Instant.describe('When the vehicle is moved to the oven'),
      bakeProgram: BakeProgram,
      metalStartC: MetalStartC,
    }),
    status: 200,
    response: OvenWindow,
  }),
}
