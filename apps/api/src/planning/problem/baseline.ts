import type { Plan, PlannedTask } from '@clampclock/planner'
import { segmentsOf } from './candidates.ts'
import type { OperationFact, OrderFact, ShopFacts } from './facts.ts'
import { inOrder } from '../operations/expand.ts'
import { ATTENDANCE } from './translate-resources.ts'
import { clampsEndWith, clampStayOf } from './clamp-stay.ts'
import { bondTaskOf, clampsOf, leaveOf, stayOf, toMinute } from './task-names.ts'

/** A plan as it is kept: of the database, or just worked out. */
export interface KeptPlan {
  readonly operations: readonly {
    readonly operationId: string
    readonly startsAt: Date
    readonly endsAt: Date
    readonly placeId: string | null
    readonly technicianIds: readonly string[]
    readonly overtime: boolean
  }[]
  readonly stays: readonly {
    readonly repairOrderId: string
    readonly resourceId: string
    readonly startsAt: Date
    readonly endsAt: Date
  }[]
}

/**
 * A kept plan in the planner's form, in minutes of the facts' origin: what changes are priced against, and what a move
 * starts from. Times before the origin come out as minute 0.
 */
export function baselineOf(facts: ShopFacts, kept: KeptPlan): Plan {
  const minute = (at: Date) => Math.max(0, Math.round((at.getTime() - facts.originMs) / 60_000))
  const planned = new Map(kept.operations.map((each) => [each.operationId, each]))
  const tasks: PlannedTask[] = []
  const holds: Plan['holds'][number][] = []
  for (const order of facts.orders) {
    const operations = inOrder(order.operations)
    let end = 0
    for (const operation of operations) {
      const entry = planned.get(operation.id)
      if (!entry) continue
      const fact = operation.progress.kind === 'open' ? null : operation.progress
      const from = minute(fact ? new Date(fact.startMs) : entry.startsAt)
      const until = Math.max(from, minute(fact ? new Date(fact.endMs) : entry.endsAt))
      end = Math.max(end, until)
      tasks.push({
        taskId: operation.id,
        start: from,
        end: until,
        mode: 0,
        resources: resourcesOf(operation, entry.technicianIds),
        overtime: entry.overtime,
      })
    }
    if (end === 0) continue
    for (const bond of order.bonds)
      tasks.push({
        taskId: bondTaskOf(bond.id),
        start: toMinute(facts, bond.startMs),
        end: toMinute(facts, bond.readyMs),
        mode: 0,
        resources: [],
        overtime: false,
      })
    tasks.push({ taskId: leaveOf(order.id), start: end, end, mode: 0, resources: [], overtime: false })
    const startOf = new Map(tasks.map(({ taskId, start }) => [taskId, start]))
    const endOf = new Map(tasks.map((task) => [task.taskId, task.end]))
    const segments = segmentsOf(operations)
    segments.forEach((segment, i) => {
      const first = segment[0]!
      const resourceId = planned.get(first.id)?.placeId
      const until = startOf.get(segments[i + 1]?.[0]!.id ?? leaveOf(order.id))
      const from = startOf.get(first.id)
      if (resourceId && from !== undefined && until !== undefined)
        holds.push({ holdId: stayOf(first.id), resourceId, from, until })
    })
    holds.push(...clampHolds(facts, { ...order, operations }, kept, startOf, endOf))
  }
  return { tasks, holds, unplannedJobs: [] }
}

/** As `translate` asks for them, by demand. */
function resourcesOf({ kind, progress }: OperationFact, technicianIds: readonly string[]): readonly string[] {
  if (progress.kind === 'done') return []
  if (progress.kind === 'running') return progress.technicianIds
  return kind === 'bake' ? [ATTENDANCE] : technicianIds
}

function clampHolds(
  facts: ShopFacts,
  { id: orderId, operations }: OrderFact,
  kept: KeptPlan,
  startOf: ReadonlyMap<string, number>,
  endOf: ReadonlyMap<string, number>,
): Plan['holds'][number][] {
  const sets = new Set(facts.resources.filter(({ kind }) => kind === 'clampSet').map(({ id }) => id))
  const stays = kept.stays.filter(
    ({ repairOrderId, resourceId }) => repairOrderId === orderId && sets.has(resourceId),
  )
  return operations.flatMap((bond, at) => {
    if (bond.kind !== 'bondAndClamp' || bond.clampSets === 0) return []
    const from = startOf.get(bond.id)
    const { takesOff, cure } = clampsEndWith(operations, at)
    const until = takesOff ? startOf.get(takesOff.id) : cure && endOf.get(cure.id)
    const stay = clampStayOf({ operations: kept.operations, stays }, operations, bond.id)
    if (from === undefined || until === undefined || !stay) return []
    return [{ holdId: clampsOf(bond.id), resourceId: stay.resourceId, from, until }]
  })
}
