import * as z from 'zod'
import { ReadyInstant } from './bond.ts'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, TemperatureC } from '../foundation/values.ts'

/** What somebody wishes of a bond, and by what means. */
export const wish = {
  milestone: z.enum(['handlingStrength', 'fullCure']).default('handlingStrength'),
  by: Instant,
  warming: z.enum(['bay', 'heatLamp']),
  toleranceC: z
    .number()
    .min(0)
    .max(20)
    .describe('How well the warmed temperature is held: counted against you'),
  warmestC: TemperatureC.optional().describe('What the heater or lamp can do'),
}

export const Help = z
  .object({
    readyAt: ReadyInstant.describe('Conservative, if nothing is done'),
    verdict: z
      .enum(['onTime', 'warm', 'notPossible'])
      .describe('onTime: nothing need be done; warm: hold neededC; notPossible: late even at the limit'),
    neededC: z.number().nullable(),
    readyAtWithHelp: ReadyInstant,
    limit: z
      .object({
        highestC: z.number(),
        because: z.enum(['highestCure', 'serviceRange', 'otherProduct', 'vehicle', 'equipment', 'workTime']),
      })
      .describe('What keeps it from being any warmer'),
    minutesSavedPerDegreeC: z.number().nullable(),
  })
  .meta({ id: 'Help' })
export type Help = z.output<typeof Help>

export const helpRoutes = {
  helpBond: defineRoute({
    method: 'POST',
    path: '/v1/bonds/:bondId/whatWouldHelp',
    operationId: 'helpBond',
    tag: 'bonds',
    summary: 'How warm must this bond be kept, to be ready by then?',
    description:
      "From the bond's own readings and the forecast of its bay; every product on the vehicle and the vehicle's own limit count. Nothing is recorded.",
    access: 'readShop',
    params: z.object({ bondId: Id }),
    body: z.strictObject(wish),
    status: 200,
    response: Help,
  }),
}
