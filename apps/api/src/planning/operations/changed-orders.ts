import type { Plan } from '@clampclock/contracts'
import * as z from 'zod'
import type { Tx } from '../../foundation/database/database.ts'

/** How often the operations of each vehicle had been changed when a plan read them, by repair order. */
const WorkVersions = z.record(z.string(), z.number())
export type WorkVersions = z.output<typeof WorkVersions>

/**
 * To be asked before a plan reads the operations: what is changed meanwhile is then told as changed, be it in the plan or not.
 */
export async function workVersionsOf(tx: Tx, shopId: string): Promise<WorkVersions> {
  const orders = await tx.repairOrder.findMany({
    where: { shopId, state: 'open' },
    select: { id: true, workVersion: true },
  })
  return Object.fromEntries(orders.map(({ id, workVersion }) => [id, workVersion]))
}

/** Of those that found a place in the plan. */
export function onlyOf(
  versions: WorkVersions,
  planned: readonly { readonly orderId: string }[],
): WorkVersions {
  return Object.fromEntries(
    planned.flatMap(({ orderId }) => (versions[orderId] === undefined ? [] : [[orderId, versions[orderId]]])),
  )
}

interface OfPlan {
  readonly state: string
  readonly workVersions: unknown
}

/** Open repair orders of each plan whose operations were changed after it read them; of what holds, or may come to hold. */
export async function changedOrders<Row extends OfPlan>(
  tx: Tx,
  plans: readonly Row[],
): Promise<ReadonlyMap<Row, Plan['changedOrders']>> {
  const versions = new Map(
    plans
      .filter(({ state }) => state === 'draft' || state === 'published')
      .map((row) => [row, WorkVersions.parse(row.workVersions)]),
  )
  const ids = new Set([...versions.values()].flatMap((each) => Object.keys(each)))
  const orders = await tx.repairOrder.findMany({
    where: { id: { in: [...ids] }, state: 'open' },
    select: { id: true, number: true, vehicle: true, workVersion: true },
    orderBy: { number: 'asc' },
  })
  return new Map(
    [...versions].map(([row, read]) => [
      row,
      orders
        .filter(({ id, workVersion }) => read[id] !== undefined && read[id] !== workVersion)
        .map(({ id, number, vehicle }) => ({ id, number, vehicle })),
    ]),
  )
}

/** The plan that holds has the vehicle as it was before its operations were changed. */
export async function isPlanOutdated(
  tx: Tx,
  { id, shopId, workVersion, state }: { id: string; shopId: string; workVersion: number; state: string },
): Promise<boolean> {
  const published = await tx.plan.findFirst({
    where: { shopId, state: 'published' },
    select: { workVersions: true },
  })
  const read = published ? WorkVersions.parse(published.workVersions)[id] : undefined
  return state === 'open' && read !== undefined && read !== workVersion
}
