import { saidOf, Words, WordsOrText } from '../foundation/words.ts'
import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant } from '../foundation/values.ts'

export const Reservation = z
  .object({
    id: Id,
    shopId: Id,
    jointId: Id,
    jointName: z.string(),
    repairOrderId: Id,
    repairOrderNumber: z.string(),
    cartridgeId: Id,
    code: z.string(),
    productName: z.string(),
    lotNumber: z.string(),
    amountMl: z.number(),
    neededAt: Instant.describe('When it will be used; it is in date then'),
    madeAt: Instant,
    madeBy: WordsOrText,
    said: saidOf('madeBy'),
  })
  .meta({ id: 'Reservation' })
export type Reservation = z.output<typeof Reservation>

const Reservations = z.object({ items: z.array(Reservation) })
const jointParams = z.object({ jointId: Id })

export const reservationRoutes = {
  listReservations: defineRoute({
    method: 'GET',
    path: '/v1/reservations',
    operationId: 'listReservations',
    tag: 'stock',
    summary: 'What is kept for which joint, the soonest needed first',
    access: 'readShop',
    query: z.strictObject({ shopId: Id.optional(), jointId: Id.optional(), cartridgeId: Id.optional() }),
    status: 200,
    response: Reservations,
  }),
  reserveForJoint: defineRoute({
    method: 'POST',
    path: '/v1/joints/:jointId/reservation',
    operationId: 'reserveForJoint',
    tag: 'stock',
    summary: 'Keep cartridges for a joint, first expired first out on the day of use',
    description:
      'An opened cartridge goes first if it suffices. What is dead by then, on hold, promised to others or fits no gun is not taken. A joint that has a reservation keeps it.',
    access: 'reserveStock',
    params: jointParams,
    body: z.strictObject({
      neededAt: Instant.optional().describe(
        'When left out: the next booking of the vehicle, else the promised time, else now',
      ),
    }),
    answer: 'What is kept for the joint now',
    status: 201,
    response: Reservations,
  }),
  releaseReservation: defineRoute({
    method: 'DELETE',
    path: '/v1/joints/:jointId/reservation',
    operationId: 'releaseReservation',
    tag: 'stock',
    summary: 'Give back what is kept for a joint',
    access: 'reserveStock',
    params: jointParams,
    answer: 'What is still kept for the joint',
    status: 200,
    response: Reservations,
  }),
  reserveForPlan: defineRoute({
    method: 'POST',
    path: '/v1/shops/:shopId/planReservations',
    operationId: 'reserveForPlan',
    tag: 'stock',
    summary: 'Keep cartridges for every booked joint, in the order in which they are needed',
    access: 'reserveStock',
    params: z.object({ shopId: Id }),
    body: z.strictObject({ days: z.number().int().min(1).max(60).default(14) }),
    answer: 'What is kept for each joint now, and what is short',
    status: 201,
    response: z.object({
      made: z.array(Reservation),
      short: z.array(
        z.object({
          jointId: Id,
          jointName: z.string(),
          repairOrderNumber: z.string(),
          message: Words,
          said: saidOf('message'),
        }),
      ),
    }),
  }),
}
