import type { Plan } from '@clampclock/planner'
import { segmentsOf } from './candidates.ts'
import type { OperationFact, OrderFact, ShopFacts } from './facts.ts'
import { cureEnd, expectedCureRates } from './cure-profile.ts'
import { inOrder } from '../operations/expand.ts'
import { clampsOf, leaveOf, stayOf, toMinute } from './task-names.ts'

export interface PlannedOperation {
  readonly operationId: string
  readonly startsAt: Date
  readonly endsAt: Date
  /** Of a cure, when it is expected to be through. */
  readonly expectedEndAt: Date | null
  readonly placeId: string | null
  readonly technicianIds: readonly string[]
  readonly overtime: boolean
}

export interface PlannedStay {
  readonly repairOrderId: string
  readonly resourceId: string
  readonly startsAt: Date
  readonly endsAt: Date
  readonly units: number
}

export interface Interpreted {
  readonly operations: readonly PlannedOperation[]
  readonly stays: readonly PlannedStay[]
  /** Orders that found no place in the plan. */
  readonly unplannedOrderIds: readonly string[]
  /** When each order is done, and how late that is; null without a promise. */
  readonly ends: readonly {
    readonly orderId: string
    readonly endsAt: Date
    readonly lateMinutes: number | null
  }[]
}

/** The planner's plan in the shop's words: what happens when and where, on which stays, done by whom. */
export function interpret(facts: ShopFacts, plan: Plan): Interpreted {
  const at = (minute: number) => new Date(facts.originMs + minute * 60_000)
  const tasks = new Map(plan.tasks.map((task) => [task.taskId, task]))
  const held = new Map(plan.holds.map((hold) => [hold.holdId, hold]))
  const people = new Set(facts.resources.filter(({ kind }) => kind === 'technician').map(({ id }) => id))
  const operations: PlannedOperation[] = []
  const stays: PlannedStay[] = []
  const ends: Interpreted['ends'][number][] = []
  for (const order of facts.orders) {
    const leave = tasks.get(leaveOf(order.id))
    if (!leave) continue
    const { promisedAtMs } = order
    const lateMinutes = promisedAtMs === null ? null : Math.max(0, leave.end - toMinute(facts, promisedAtMs))
    ends.push({ orderId: order.id, endsAt: at(leave.end), lateMinutes })
    const places = placesOf(order, held)
    for (const operation of order.operations) {
      const task = tasks.get(operation.id)
      if (!task) continue
      const placeId = places.get(operation.id) ?? startedAt(operation)
      const isOpen = operation.progress.kind === 'open'
      operations.push({
        operationId: operation.id,
        // What has begun keeps the instants at which it did.
        startsAt: operation.progress.kind === 'open' ? at(task.start) : new Date(operation.progress.startMs),
        endsAt: operation.progress.kind === 'open' ? at(task.end) : new Date(operation.progress.endMs),
        expectedEndAt:
          isOpen && operation.kind === 'cure' ? expectedEnd(facts, operation, placeId, task.start) : null,
        placeId,
        technicianIds: task.resources.filter((id) => people.has(id)),
        overtime: task.overtime,
      })
    }
    const holds = order.operations.flatMap(({ id, clampSets }) => [
      { hold: held.get(stayOf(id)), units: 1 },
      { hold: held.get(clampsOf(id)), units: clampSets },
    ])
    for (const { hold, units } of holds)
      if (hold && hold.from < hold.until)
        stays.push({
          repairOrderId: order.id,
          resourceId: hold.resourceId,
          startsAt: at(hold.from),
          endsAt: at(hold.until),
          units,
        })
  }
  return { operations, stays, unplannedOrderIds: plan.unplannedJobs, ends }
}

function placesOf(
  order: OrderFact,
  held: ReadonlyMap<string, { readonly resourceId: string }>,
): Map<string, string> {
  const places = new Map<string, string>()
  for (const segment of segmentsOf(inOrder(order.operations))) {
    const stay = held.get(stayOf(segment[0]!.id))
    if (stay) for (const { id } of segment) places.set(id, stay.resourceId)
  }
  return places
}

function startedAt({ progress }: OperationFact): string | null {
  return progress.kind === 'open' ? null : progress.placeId
}

function expectedEnd(
  facts: ShopFacts,
  { joint }: OperationFact,
  placeId: string | null,
  start: number,
): Date | null {
  const forecast = placeId === null ? undefined : facts.forecasts.get(placeId)
  if (!joint || !forecast || forecast.length === 0) return null
  const end = cureEnd(expectedCureRates(joint.sheet, forecast, facts.originMs, joint.panelTauMinutes), start)
  return end === null ? null : new Date(facts.originMs + end * 60_000)
}
