import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant } from '../foundation/values.ts'

const Share = z.number().nullable().describe('0 to 1; null where there is nothing to take a share of')

export const PlanFigures = z
  .object({
    shopId: Id.nullable().describe('null: all of the shops together'),
    shopName: z.string(),
    promised: z.number().int().describe('Repair orders with operations that were promised for the period'),
    onTime: z.number().int().describe('Of those, all of whose operations were through by then'),
    onTimeShare: Share,
    bayHours: z.number().describe('Bays times opening hours'),
    bayHoursBooked: z.number().describe('Of those, booked'),
    bayUse: Share,
    ovenHours: z.number(),
    ovenHoursBooked: z.number(),
    ovenUse: Share,
    bondsReleased: z.number().int(),
    cureHours: z.number().describe('From the adhesive on to the release, over all of them'),
    earlyReleases: z.number().int().describe('Before the conservative ready time'),
    earlyReleaseShare: Share,
    operationsPlanned: z.number().int().describe('Operations of the published plans of the period'),
    operationsMoved: z.number().int().describe('Of those, moved at least once after they had been published'),
    movedShare: Share,
    hoursMoved: z.number().describe('By how much, over all moves'),
  })
  .meta({ id: 'PlanFigures' })
export type PlanFigures = z.output<typeof PlanFigures>

const query = z.strictObject({ shopId: Id.optional(), from: Instant, to: Instant })

export const figureRoutes = {
  getPlanFigures: defineRoute({
    method: 'GET',
    path: '/v1/planFigures',
    operationId: 'getPlanFigures',
    tag: 'planning',
    summary:
      'On time, bay and oven use, cure, early releases, stability of plans: per shop and over all, for a period',
    access: 'readShop',
    query,
    status: 200,
    response: z.object({ items: z.array(PlanFigures), total: PlanFigures }),
  }),
  getPlanFiguresCsv: defineRoute({
    method: 'GET',
    path: '/v1/planFigures.csv',
    operationId: 'getPlanFiguresCsv',
    tag: 'planning',
    summary: 'The same as a table: a row for each shop, then one for all',
    access: 'readShop',
    query,
    status: 200,
    mediaType: 'text/csv',
    response: z.string().describe('CSV in UTF-8 with a heading'),
  }),
}
