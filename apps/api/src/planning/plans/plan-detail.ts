import { nameOf } from '../../foundation/words/kept.ts'
import type { PlanDetail, PlannedOperation } from '@clampclock/contracts'
import type { Tx } from '../../foundation/database/database.ts'
import { toPlans, wholePlan, type WholePlanRow } from './plan-store.ts'
import { cureWarnings } from './watch-cures.ts'

export async function planDetail(tx: Tx, id: string, now: Date): Promise<PlanDetail> {
  const row = await wholePlan(tx, id)
  // Of the row that was read with its operations: one that is being worked on may be done a moment later.
  const [plan] = await toPlans(tx, row.shopId, [row])
  const warnings = row.state === 'published' ? await cureWarnings(tx, row.shopId, now) : []
  const told = new Map(warnings.map(({ operationId, message }) => [operationId, message]))
  return {
    ...plan!,
    operations: row.operations.map((planned): PlannedOperation => ({
      operationId: planned.operationId,
      repairOrderId: planned.operation.repairOrderId,
      kind: planned.operation.kind as PlannedOperation['kind'],
      name: nameOf(planned.operation),
      jointName: planned.operation.joint?.name ?? null,
      startsAt: planned.startsAt,
      endsAt: planned.endsAt,
      expectedEndAt: planned.expectedEndAt,
      workMinutes: planned.operation.workMinutes,
      placeId: planned.placeId,
      technicianIds: planned.technicianIds,
      overtime: planned.overtime,
      startedAt: planned.operation.startedAt,
      finishedAt: planned.operation.finishedAt,
      warning: told.get(planned.operationId) ?? null,
    })),
    stays: row.stays.map(({ repairOrderId, resourceId, startsAt, endsAt, units }) => ({
      repairOrderId,
      resourceId,
      startsAt,
      endsAt,
      units,
    })),
    orders: await ordersOf(tx, row),
  }
}

/** Each order of a plan, with when it is done and how late that is. */
export async function ordersOf(tx: Tx, { operations }: WholePlanRow): Promise<PlanDetail['orders']> {
  const ends = new Map<string, number>()
  for (const { operation, endsAt } of operations) {
    const { repairOrderId } = operation
    ends.set(repairOrderId, Math.max(ends.get(repairOrderId) ?? 0, endsAt.getTime()))
  }
  const orders = await tx.repairOrder.findMany({ where: { id: { in: [...ends.keys()] } } })
  return orders
    .map(({ id, number, vehicle, promisedAt }) => {
      const endsMs = ends.get(id)!
      const late = promisedAt === null ? null : Math.ceil((endsMs - promisedAt.getTime()) / 60_000)
      return {
        id,
        number,
        vehicle,
        promisedAt,
        endsAt: new Date(endsMs),
        lateMinutes: late === null ? null : Math.max(0, late),
      }
    })
    .toSorted((a, b) => a.number.localeCompare(b.number, 'en'))
}
