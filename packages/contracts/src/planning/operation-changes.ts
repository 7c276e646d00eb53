import * as z from 'zod'
import { BakeProgram } from '../cure/bakes.ts'
import {
  checkStep,
  OF_THE_VEHICLE,
  Operation,
  stepFacts,
  templateStepFacts,
  WorkMinutes,
} from './operations.ts'
import { defineRoute } from '../foundation/route.ts'
import { Id, Label, TemperatureC } from '../foundation/values.ts'

const operationParams = z.object({ operationId: Id })

const AfterId = Id.nullable().describe(
  'The operation that it comes right after: of the same joint, or of the same kind on the vehicle; null: before all of those',
)

/** What one vehicle needs, where it is something else than its templates say. */
export const operationChangeRoutes = {
  addOperation: defineRoute({
    method: 'POST',
    path: '/v1/repairOrders/:repairOrderId/singleOperations',
    operationId: 'addOperation',
    tag: 'planning',
    summary: 'Add one operation to a repair order, at a place in its order',
    description:
      'A bond comes with its cure. Refused before anything that has begun, and between a bond and its cure. Answers all of them, in order.',
    access: 'planWork',
    params: z.object({ repairOrderId: Id }),
    body: z
      .strictObject({
        ...templateStepFacts,
        jointId: Id.nullable().default(null).describe('null for what is done on the vehicle as a whole'),
        afterId: AfterId,
      })
      .superRefine((step, context) => {
        checkStep(step, context)
        const fault = (field: 'kind' | 'jointId', message: string) =>
          context.addIssue({ code: 'custom', path: [field], message })
        if (step.kind === 'cure') fault('kind', 'must not be cure: it comes with its bond, bondAndClamp')
        if (OF_THE_VEHICLE.includes(step.kind) !== (step.jointId === null))
          fault('jointId', 'must be null for what is done on the vehicle, and given for anything else')
      }),
    answer: 'The operations of the repair order, in their order',
    status: 201,
    response: z.object({ items: z.array(Operation) }),
  }),
  editOperation: defineRoute({
    method: 'PATCH',
    path: '/v1/operations/:operationId',
    operationId: 'editOperation',
    tag: 'planning',
    summary: 'Change what an operation needs that has not begun',
    access: 'planWork',
    params: operationParams,
    body: z.strictObject({
      name: Label.optional(),
      workMinutes: WorkMinutes.optional(),
      technicians: stepFacts.technicians.optional(),
      skill: stepFacts.skill.optional(),
      clampSets: stepFacts.clampSets.optional(),
      attributes: stepFacts.attributes.optional(),
      highestMetalC: TemperatureC.optional(),
      bakeProgram: BakeProgram.nullable()
        .optional()
        .describe(
          'Of a bake: its minutes and highest metal temperature follow from it; null: those that it has stay, and are its own from now on',
        ),
    }),
    ifMatch: true,
    status: 200,
    response: Operation,
  }),
  orderOperation: defineRoute({
    method: 'PUT',
    path: '/v1/operations/:operationId/order',
    operationId: 'orderOperation',
    tag: 'planning',
    summary: 'Put an operation that has not begun at another place in the order of its joint',
    description:
      'A bond and its cure go together, and nothing goes before what has begun. What is done on the vehicle as a whole ' +
      'has an order of its own: only what is of one kind changes places. Answers all of them, in order.',
    access: 'planWork',
    params: operationParams,
    body: z.strictObject({ afterId: AfterId }),
    ifMatch: true,
    answer: 'The operations of the repair order, in their order',
    status: 200,
    response: z.object({ items: z.array(Operation) }),
  }),
  removeOperation: defineRoute({
    method: 'DELETE',
    path: '/v1/operations/:operationId',
    operationId: 'removeOperation',
    tag: 'planning',
    summary: 'Remove an operation that has not begun; a bond goes with its cure',
    access: 'planWork',
    params: operationParams,
    status: 204,
    response: z.null(),
  }),
}
