import { Words, WordsOrText, saidOf } from '../foundation/words.ts'
import * as z from 'zod'
import { Bond } from '../cure/bond.ts'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant } from '../foundation/values.ts'
import { OperationKind } from './operations.ts'

export const Task = z
  .object({
    operationId: Id.nullable().describe('null: booked by hand, without an operation'),
    kind: OperationKind.nullable(),
    name: WordsOrText,
    state: z
      .enum(['underWay', 'now', 'late', 'next'])
      .describe('Begun; its time has come; its time is over and it has not begun; still to come'),
    shopId: Id,
    repairOrderId: Id,
    repairOrderNumber: z.string(),
    vehicle: z.string(),
    jointId: Id.nullable(),
    jointName: z.string().nullable(),
    productId: Id.nullable().describe('The adhesive of the joint'),
    productName: z.string().nullable(),
    placeName: z.string().nullable().describe('The bay or the oven, where it is known'),
    startsAt: Instant.describe('As begun, else as planned'),
    endsAt: Instant.nullable().describe('As told or planned; null where nobody said'),
    waitsFor: Words.nullable().describe(
      'Why it cannot begin yet, where something on the vehicle comes first',
    ),
    note: WordsOrText,
    said: saidOf('name', 'waitsFor', 'note'),
  })
  .meta({ id: 'Task' })
export type Task = z.output<typeof Task>

export const myWorkRoutes = {
  getMyWork: defineRoute({
    method: 'GET',
    path: '/v1/me/work',
    operationId: 'getMyWork',
    tag: 'planning',
    summary: 'What I am on, and what is next for me by the published plan',
    description:
      'For the person who is signed in, as the technician that resources name. Bonds: those that run and that this person put on. Tasks: begun ones first, then by their time, 48 h ahead; where those hold none, what is planned within 12 h of the next one, two weeks ahead at most.',
    access: 'signedIn',
    status: 200,
    response: z.object({
      asOf: Instant,
      isTechnician: z.boolean().describe('Whether a technician of some shop is this person'),
      bonds: z.array(Bond),
      tasks: z.array(Task),
    }),
  }),
}
