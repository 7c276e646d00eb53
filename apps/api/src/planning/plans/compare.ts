import { nameOf } from '../../foundation/words/kept.ts'
import type { PlanComparison } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { ordersOf } from './plan-detail.ts'
import { planRow, publishedRow, wordsOf, wholePlan, type WholePlanRow } from './plan-store.ts'

type Change = PlanComparison['operations'][number]

export async function comparePlan(tx: Tx, actor: Actor, id: string): Promise<PlanComparison> {
  const { shopId } = await planRow(tx, id)
  requireIn(actor, 'readShop', shopId)
  const published = await publishedRow(tx, shopId)
  const before = published && published.id !== id ? await wholePlan(tx, published.id) : null
  const after = await wholePlan(tx, id)
  const operations = changesBetween(before, after)
  const was = before ? await ordersOf(tx, before) : []
  const will = await ordersOf(tx, after)
  const all = new Map([...was, ...will].map((order) => [order.id, order]))
  const endOf = (orders: typeof was, orderId: string) => {
    const order = orders.find((each) => each.id === orderId)
    return order ? { endsAt: order.endsAt, lateMinutes: order.lateMinutes } : null
  }
  return {
    against: before?.id ?? null,
    operations,
    unmoved: after.operations.length - operations.filter((each) => each.after !== null).length,
    orders: [...all.values()].map(({ id: orderId, number, vehicle, promisedAt }) => ({
      id: orderId,
      number,
      vehicle,
      promisedAt,
      before: endOf(was, orderId),
      after: endOf(will, orderId),
    })),
    before: before ? wordsOf(before).summary : null,
    after: wordsOf(after).summary,
  }
}

/** What starts at another time or elsewhere, is new, or is gone though it was not finished. Beginning is not being moved. */
export function changesBetween(before: WholePlanRow | null, after: WholePlanRow): Change[] {
  const was = new Map((before?.operations ?? []).map((each) => [each.operationId, each]))
  const will = new Map(after.operations.map((each) => [each.operationId, each]))
  const ids = [...new Set([...was.keys(), ...will.keys()])]
  return ids.flatMap((operationId): Change[] => {
    const old = was.get(operationId)
    const fresh = will.get(operationId)
    const isSame =
      old &&
      fresh &&
      (hasBegun(fresh) ||
        (old.startsAt.getTime() === fresh.startsAt.getTime() && old.placeId === fresh.placeId))
    if (isSame || (!fresh && old?.operation.finishedAt)) return []
    const { operation } = (fresh ?? old)!
    return [
      {
        operationId,
        repairOrderId: operation.repairOrderId,
        name: nameOf(operation),
        before: old ? { startsAt: old.startsAt, endsAt: old.endsAt, placeId: old.placeId } : null,
        after: fresh ? { startsAt: fresh.startsAt, endsAt: fresh.endsAt, placeId: fresh.placeId } : null,
        minutesLater:
          old && fresh ? Math.round((fresh.startsAt.getTime() - old.startsAt.getTime()) / 60_000) : null,
      },
    ]
  })
}

/** A bond and its cure begin with what is recorded of the joint. */
function hasBegun({ operation: { kind, startedAt, joint } }: WholePlanRow['operations'][number]): boolean {
  const isBonded = (kind === 'bondAndClamp' || kind === 'cure') && joint !== null && joint.bonds.length > 0
  return startedAt !== null || isBonded
}
