import type { Told } from '@clampclock/messages'
import type { Plan } from '@clampclock/contracts'
import * as z from 'zod'
import type { Tx } from '../../foundation/database/database.ts'
import type { ShopFacts } from '../problem/facts.ts'
import { toMinute } from '../problem/task-names.ts'
import { WEIGHT } from '../problem/translate.ts'
import type { UnplannedOrder } from '../problem/unplannable.ts'

/** What a plan leaves out, counted and priced. */
export interface LeftOut {
  readonly orders: number
  readonly cost: number
}

/**
 * The price of the orders that a plan leaves out, in minutes late times priority like all else: each as late as it is at the
 * end of what is planned, and all that is planned on top. So no order is cheaper left out than planned late, and one that
 * is promised for later, or for no day, costs too. Our own rule: no source.
 */
export function priceOf(
  facts: Pick<ShopFacts, 'originMs' | 'horizonMinutes' | 'orders'>,
  left: readonly Pick<UnplannedOrder, 'orderId'>[],
): LeftOut {
  const { horizonMinutes, orders } = facts
  const ids = new Set(left.map(({ orderId }) => orderId))
  const cost = orders
    .filter(({ id }) => ids.has(id))
    .map(({ promisedAtMs, priority }) => {
      const dueAt = promisedAtMs === null ? horizonMinutes : toMinute(facts, promisedAtMs)
      return WEIGHT[priority] * (horizonMinutes + Math.max(0, horizonMinutes - dueAt))
    })
  return { orders: ids.size, cost: cost.reduce((sum, each) => sum + each, 0) }
}

interface OfPlan {
  readonly state: string
  readonly notes: unknown
}

const Notes = z.object({
  unplanned: z.array(z.object({ orderId: z.string(), reasons: z.array(z.custom<Told>()) })),
})

/** Orders that each plan leaves out and that are still open; of what holds, or may come to hold. */
export async function leftOutOf<Row extends OfPlan>(
  tx: Tx,
  plans: readonly Row[],
): Promise<ReadonlyMap<Row, Plan['leftOut']>> {
  const notes = new Map(
    plans
      .filter(({ state }) => state === 'draft' || state === 'published')
      .map((row) => [row, Notes.parse(row.notes).unplanned]),
  )
  const ids = new Set([...notes.values()].flatMap((left) => left.map(({ orderId }) => orderId)))
  const orders = await tx.repairOrder.findMany({
    where: { id: { in: [...ids] }, state: 'open' },
    select: { id: true, number: true, vehicle: true },
    orderBy: { number: 'asc' },
  })
  return new Map(
    [...notes].map(([row, left]) => {
      const why = new Map(left.map(({ orderId, reasons }) => [orderId, reasons]))
      return [
        row,
        orders.flatMap((order) => (why.has(order.id) ? [{ ...order, reasons: why.get(order.id)! }] : [])),
      ]
    }),
  )
}
