import { saidOf, WordsOrText } from '../foundation/words.ts'
import * as z from 'zod'
import { ReadyInstant } from './bond.ts'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, threeOf } from '../foundation/values.ts'

/** What happened to a bond, to be marked on its curve. */
export const BondEvent = z
  .object({
    kind: z.enum([
      'applied',
      'clamped',
      'released',
      'abandoned',
      'reading',
      'incident',
      'inspection',
      'disposition',
    ]),
    at: Instant,
    by: z.string(),
    temperatureC: z.number().nullable().describe('Of a panel reading'),
    detail: WordsOrText.describe('One sentence; empty when there is nothing to add'),
    said: saidOf('detail'),
  })
  .meta({ id: 'BondEvent' })
export type BondEvent = z.output<typeof BondEvent>

export const BondCurve = z
  .object({
    bondId: Id,
    asOf: Instant.describe('What lies later is forecast'),
    readyAt: threeOf(ReadyInstant).describe('Handling strength'),
    points: z
      .array(
        z.object({
          at: Instant,
          lowC: z.number(),
          expectedC: z.number(),
          highC: z.number(),
          progress: threeOf(z.number()).describe('Fraction of handling strength; 1 is reached'),
        }),
      )
      .describe(
        'In order of time. Where a gap in the readings ends, two points share an instant: the line jumps to what was measured. Empty when no temperature is known',
      ),
    events: z.array(BondEvent).describe('In order of time'),
  })
  .meta({ id: 'BondCurve' })
export type BondCurve = z.output<typeof BondCurve>

export const bondCurveRoutes = {
  getBondCurve: defineRoute({
    method: 'GET',
    path: '/v1/bonds/:bondId/curve',
    operationId: 'getBondCurve',
    tag: 'bonds',
    summary: "A bond's temperature and progress, to be drawn, with what happened to it",
    description:
      'By the same computation as the estimate and the gate. It reaches an hour beyond the conservative ready time, or a day beyond now where there is none.',
    access: 'readShop',
    params: z.object({ bondId: Id }),
    query: z.strictObject({
      stepMinutes: z.coerce
        .number()
        .min(1, 'must be at least 1')
        .max(720, 'must be at most 720')
        .optional()
        .describe('Distance of the points; about 200 points when left out'),
    }),
    status: 200,
    response: BondCurve,
  }),
}
