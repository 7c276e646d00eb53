import { saidOf, saidOfEach, Words, WordsOrText } from '../foundation/words.ts'
import * as z from 'zod'
import { OperationKind, WorkMinutes } from './operations.ts'
import { ProblemReason } from '../foundation/problems.ts'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, Note } from '../foundation/values.ts'

export const PlanState = z
  .enum(['solving', 'draft', 'published', 'superseded', 'discarded', 'failed'])
  .meta({ id: 'PlanState' })

export const PlanMode = z.enum(['anew', 'repair']).meta({ id: 'PlanMode' })

export const PlanProgress = z
  .object({
    seconds: z.number(),
    improvements: z.number().int().describe('How often a better plan was found'),
    weightedLateMinutes: z
      .number()
      .describe('Minutes late times priority, with overtime and changes priced in'),
  })
  .meta({ id: 'PlanProgress' })
export type PlanProgress = z.output<typeof PlanProgress>

export const PlanSummary = z
  .object({
    orders: z.number().int(),
    droppedOrders: z.number().int().describe('Repair orders with work to do that it leaves out'),
    lateOrders: z.number().int(),
    lateMinutes: z.number().int().describe('Over all of them'),
    overtimeMinutes: z.number().int(),
    shortMl: z.number().describe('Adhesive that would be lacking, or out of date, on its day'),
    cost: z
      .number()
      .describe(
        'What the planner made as small as it could, and what is left out priced above anything late',
      ),
    lowerBound: z.number().describe('Proved: no plan costs less'),
  })
  .meta({ id: 'PlanSummary' })
export type PlanSummary = z.output<typeof PlanSummary>

export const PlanNotes = z
  .object({
    assumptions: z.array(WordsOrText),
    unplanned: z.array(
      z.object({
        orderId: Id,
        number: z.string(),
        reasons: z.array(WordsOrText),
        said: saidOfEach('reasons'),
      }),
    ),
    said: saidOfEach('assumptions'),
  })
  .meta({ id: 'PlanNotes' })
export type PlanNotes = z.output<typeof PlanNotes>

export const Plan = z
  .object({
    id: Id,
    shopId: Id,
    state: PlanState,
    mode: PlanMode,
    basedOn: Id.nullable().describe('The published plan that it was made from'),
    isOutdated: z.boolean().describe('Another plan has been published since: it can no longer be'),
    changedOrders: z
      .array(z.object({ id: Id, number: z.string(), vehicle: z.string() }))
      .describe(
        'Vehicles in it whose operations were changed after it was made: of a draft and of the published plan',
      ),
    leftOut: z
      .array(
        z.object({
          id: Id,
          number: z.string(),
          vehicle: z.string(),
          reasons: z.array(WordsOrText),
          said: saidOfEach('reasons'),
        }),
      )
      .describe('Open repair orders that it leaves out, each with why: of a draft and of the published plan'),
    reason: WordsOrText,
    said: saidOf('reason', 'fault'),
    originAt: Instant,
    createdAt: Instant,
    createdBy: z.string(),
    finishedAt: Instant.nullable(),
    publishedAt: Instant.nullable(),
    publishedBy: z.string().nullable(),
    isWaiting: z.boolean().describe('It is not worked on yet: plans that were asked for before come first'),
    progress: PlanProgress.nullable(),
    notes: PlanNotes,
    summary: PlanSummary.nullable(),
    fault: WordsOrText.nullable().describe('Why there is no plan, of one that failed'),
  })
  .meta({ id: 'Plan' })
export type Plan = z.output<typeof Plan>

export const PlannedOperation = z
  .object({
    operationId: Id,
    repairOrderId: Id,
    kind: OperationKind,
    name: WordsOrText,
    jointName: z.string().nullable(),
    startsAt: Instant,
    endsAt: Instant.describe('Of a cure: on the careful estimate, from the forecast of its bay'),
    expectedEndAt: Instant.nullable().describe('Of a cure'),
    workMinutes: WorkMinutes.nullable().describe('Without the breaks that lie in it; null for a cure'),
    placeId: Id.nullable().describe('The bay or oven'),
    technicianIds: z.array(Id),
    overtime: z.boolean(),
    startedAt: Instant.nullable(),
    finishedAt: Instant.nullable(),
    warning: Words.nullable().describe(
      'By the newest forecast the next move would come before handling strength',
    ),
    said: saidOf('warning', 'name'),
  })
  .meta({ id: 'PlannedOperation' })
export type PlannedOperation = z.output<typeof PlannedOperation>

export const PlannedStay = z
  .object({ repairOrderId: Id, resourceId: Id, startsAt: Instant, endsAt: Instant, units: z.number().int() })
  .meta({ id: 'PlannedStay' })

export const PlannedOrder = z
  .object({
    id: Id,
    number: z.string(),
    vehicle: z.string(),
    promisedAt: Instant.nullable(),
    endsAt: Instant,
    lateMinutes: z.number().int().nullable().describe('null without a promise'),
  })
  .meta({ id: 'PlannedOrder' })

export const PlanDetail = Plan.extend({
  operations: z.array(PlannedOperation),
  stays: z.array(PlannedStay).describe('Bays, ovens and clamp sets held over several operations'),
  orders: z.array(PlannedOrder),
}).meta({ id: 'PlanDetail' })
export type PlanDetail = z.output<typeof PlanDetail>

const Spot = z.object({ startsAt: Instant, endsAt: Instant, placeId: Id.nullable() })

export const PlanComparison = z
  .object({
    against: Id.nullable().describe('The published plan; null when there is none'),
    operations: z
      .array(
        z.object({
          operationId: Id,
          repairOrderId: Id,
          name: WordsOrText,
          said: saidOf('name'),
          before: Spot.nullable(),
          after: Spot.nullable(),
          minutesLater: z.number().int().nullable(),
        }),
      )
      .describe('What starts at another time, elsewhere, or is new or gone'),
    unmoved: z.number().int(),
    orders: z.array(
      z.object({
        id: Id,
        number: z.string(),
        vehicle: z.string(),
        promisedAt: Instant.nullable(),
        before: z.object({ endsAt: Instant, lateMinutes: z.number().int().nullable() }).nullable(),
        after: z.object({ endsAt: Instant, lateMinutes: z.number().int().nullable() }).nullable(),
      }),
    ),
    before: PlanSummary.nullable(),
    after: PlanSummary.nullable(),
  })
  .meta({ id: 'PlanComparison' })
export type PlanComparison = z.output<typeof PlanComparison>

export const PlanMove = z
  .object({
    isAllowed: z.boolean(),
    reasons: z.array(ProblemReason).describe('Why not'),
    moved: z
      .array(
        z.object({
          operationId: Id,
          name: WordsOrText,
          said: saidOf('name'),
          startsAt: Instant,
          endsAt: Instant,
          placeId: Id.nullable(),
        }),
      )
      .describe('The operation, and what follows on the same vehicle as far as it has to give way'),
    planId: Id.describe('The plan that holds now: a new one when something was moved'),
  })
  .meta({ id: 'PlanMove' })
export type PlanMove = z.output<typeof PlanMove>

const Period = z.object({ startsAt: Instant, endsAt: Instant })

export const ResourceTime = z
  .object({
    resourceId: Id.nullable().describe('null: the shop'),
    shifts: z.array(Period),
    overtime: z.array(Period),
    absent: z.array(Period),
  })
  .meta({ id: 'ResourceTime' })

const shopParams = z.object({ shopId: Id })
const planParams = z.object({ planId: Id })

export const planRoutes = {
  startPlan: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/plans',
    operationId: 'startPlan',
    tag: 'planning',
    summary: 'Plan the open repair orders of a shop, as a draft',
    description:
      'Answers at once; the plan is worked out beside everything else. Watch it by the topic `plans` of the event stream, or ask again. ' +
      'What has begun, bookings made by hand and running bonds stand fast. The same facts, seed and iterations give the same plan.',
    access: 'planWork',
    params: shopParams,
    body: z.strictObject({
      seconds: z.number().min(0.2).max(120).default(5).describe('At most so long'),
      iterations: z.number().int().min(1).max(1_000_000).default(20_000).describe('At most so many'),
      seed: z.number().int().min(1).max(1_000_000).default(1),
      mode: PlanMode.default('anew').describe(
        'repair: what of the published plan still can stays exactly where it is',
      ),
      reason: Note.default('').describe('What happened; kept with what the plan changes'),
    }),
    status: 202,
    response: Plan,
  }),
  listPlans: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/plans',
    operationId: 'listPlans',
    tag: 'planning',
    summary: 'The latest plans of a shop, the newest first',
    access: 'readShop',
    params: shopParams,
    query: z.strictObject({ limit: z.coerce.number().int().min(1).max(100).default(20) }),
    status: 200,
    response: z.object({ items: z.array(Plan) }),
  }),
  getPublishedPlan: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/publishedPlan',
    operationId: 'getPublishedPlan',
    tag: 'planning',
    summary: 'The plan that holds; null when none was published yet',
    access: 'readShop',
    params: shopParams,
    status: 200,
    response: z.object({ plan: PlanDetail.nullable() }),
  }),
  getPlan: defineRoute({
    method: 'GET',
    path: '/v1/plans/:planId',
    operationId: 'getPlan',
    tag: 'planning',
    summary: 'One plan, or how far it is',
    access: 'readShop',
    params: planParams,
    status: 200,
    response: PlanDetail,
  }),
  stopPlan: defineRoute({
    method: 'POST',
    path: '/v1/plans/:planId/stop',
    operationId: 'stopPlan',
    tag: 'planning',
    summary: 'Stop working on a plan: the best one so far becomes the draft',
    access: 'planWork',
    params: planParams,
    status: 202,
    response: Plan,
  }),
  comparePlan: defineRoute({
    method: 'GET',
    path: '/v1/plans/:planId/comparison',
    operationId: 'comparePlan',
    tag: 'planning',
    summary: 'What a plan changes against the published one: what moves, who is late, what each costs',
    access: 'readShop',
    params: planParams,
    status: 200,
    response: PlanComparison,
  }),
  publishPlan: defineRoute({
    method: 'POST',
    path: '/v1/plans/:planId/publication',
    operationId: 'publishPlan',
    tag: 'planning',
    summary: 'Publish a draft: its bookings are made, all of them or none',
    description:
      'Refused with `plan-outdated` when another plan was published since it was made, or when it no longer fits what has happened; ' +
      'with `booking-taken` when somebody booked a place by hand meanwhile; with `vehicles-left-out` unless `leavesOut` names ' +
      'each repair order that it leaves out. The draft stays as it is.',
    access: 'planWork',
    params: planParams,
    body: z.strictObject({
      leavesOut: z
        .array(Id)
        .max(1000)
        .default([])
        .describe('The repair orders of its `leftOut`: a person has seen that nothing is planned for them'),
    }),
    status: 201,
    response: PlanDetail,
  }),
  discardPlan: defineRoute({
    method: 'DELETE',
    path: '/v1/plans/:planId',
    operationId: 'discardPlan',
    tag: 'planning',
    summary: 'Discard a draft; it stays on record',
    access: 'planWork',
    params: planParams,
    status: 204,
    response: z.null(),
  }),
  movePlanned: defineRoute({
    method: 'POST',
    path: '/v1/plans/:planId/moves',
    operationId: 'movePlanned',
    tag: 'planning',
    summary: 'Move one operation of the published plan, or ask whether it could be',
    description:
      'What follows on the same vehicle gives way as far as it must; nothing of other vehicles moves. Everything the planner keeps is ' +
      'kept: shifts, skills, bays, clamps, the cure. With `tryOnly` nothing changes.',
    access: 'planWork',
    params: planParams,
    body: z.strictObject({
      operationId: Id,
      startsAt: Instant,
      placeId: Id.optional().describe('Another bay or oven, for all that the vehicle does there in one stay'),
      technicianIds: z.array(Id).max(4).optional(),
      workMinutes: WorkMinutes.optional().describe('It takes longer, or shorter, from now on'),
      tryOnly: z.boolean().default(false),
    }),
    status: 201,
    response: PlanMove,
  }),
  getResourceTime: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/resourceTime',
    operationId: 'getResourceTime',
    tag: 'planning',
    summary: 'When a shop and each technician work in a period, as instants',
    access: 'readShop',
    params: shopParams,
    query: z.strictObject({ from: Instant, to: Instant }),
    status: 200,
    response: z.object({ items: z.array(ResourceTime) }),
  }),
}
