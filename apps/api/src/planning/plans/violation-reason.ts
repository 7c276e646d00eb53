import type { ProblemReason } from '@clampclock/contracts'
import type { Violation } from '@clampclock/planner'
import { shopTime } from '../../cure/index.ts'
import type { BondFact, OperationFact, OrderFact, ShopFacts } from '../problem/facts.ts'
import { SPARE_MINUTES } from '../problem/spare.ts'
import { bondTaskOf, leaveOf } from '../problem/task-names.ts'

/** A broken rule of the planner in the shop's words. */
export function violationReason(facts: ShopFacts, violation: Violation): ProblemReason {
  return { code: violation.rule, message: sentence(facts, violation) }
}

function sentence(facts: ShopFacts, { rule, taskIds, resourceId, at, by }: Violation): string {
  const [first, second] = taskIds.map((id) => nameOf(facts, id))
  const place = facts.resources.find(({ id }) => id === resourceId)?.name ?? 'It'
  const when = at === null ? 'then' : shopTime(facts.originMs + at * 60_000, facts.timeZone)
  switch (rule) {
    case 'capacity':
      return `${place} is taken ${when}: ${[...new Set(taskIds.map((id) => nameOf(facts, id)))].join(', ')}`
    case 'unavailable':
      return `${place} is booked or out of use ${when}, and ${first} would stand there`
    case 'calendar':
      return `${first} would start in a break, or lie across one: ${when}`
    case 'lag':
      if (!isCure(facts, taskIds[0])) return `${second} would start ${when}, before ${first} is through`
      return by > spareBehind(facts, taskIds[0]!)
        ? `${second} would come ${when}, before ${first} has reached handling strength on the careful estimate`
        : `${second} would come ${when}, right after ${first}: ${SPARE_MINUTES} min are left for a forecast that changes`
    case 'maxLag':
      return `${second} would start ${when}: it follows on ${first} without a wait`
    case 'window':
      return `${first} would start too soon, or end beyond what is planned: ${when}`
    case 'unplanned':
      return `${first} finds no place behind it in the next four weeks`
    case 'mode':
      return `${first} needs somebody, or a bay, that can do it`
    case 'fixed':
      return `${first} has begun otherwise than planned`
    case 'form':
      return 'Something in the plan is finished, or not to be done any more'
    case 'hold':
      return `${orderOf(facts, taskIds[0])} would not stand where it is planned to ${when}`
    case 'duration':
      return `${first} takes another time than planned: it would not be through as planned, ${when}`
    case 'batch':
      return `${first} and ${second} would be in ${place} together ${when}, and are no common load`
    case 'setup':
      return `${second} would start ${when}, too soon after ${first}: ${place} has to be made ready in between`
  }
}

function find(
  facts: ShopFacts,
  taskId: string,
): { order: OrderFact; operation: OperationFact | undefined } | undefined {
  for (const order of facts.orders) {
    const operation = order.operations.find(({ id }) => id === taskId)
    if (operation || taskId === leaveOf(order.id)) return { order, operation }
  }
  return undefined
}

function nameOf(facts: ShopFacts, taskId: string): string {
  const bond = bondOf(facts, taskId)
  if (bond) return `the bond on ${bond.jointName}`
  const found = find(facts, taskId)
  if (!found) return 'a booking made by hand'
  return `${found.operation?.name ?? 'the vehicle'} (${found.order.number})`
}

function orderOf({ orders }: ShopFacts, taskId: string | undefined): string {
  const order = orders.find(
    ({ id, operations, bonds }) =>
      taskId === leaveOf(id) ||
      operations.some((operation) => operation.id === taskId) ||
      bonds.some((bond) => bondTaskOf(bond.id) === taskId),
  )
  return order ? `The vehicle of ${order.number}` : 'A vehicle'
}

function isCure(facts: ShopFacts, taskId: string | undefined): boolean {
  if (taskId === undefined) return false
  return find(facts, taskId)?.operation?.kind === 'cure' || bondOf(facts, taskId) !== undefined
}

/** Minutes that the planner leaves behind a cure: none behind one whose clock runs already. */
function spareBehind(facts: ShopFacts, taskId: string): number {
  return find(facts, taskId)?.operation?.progress.kind === 'open' ? SPARE_MINUTES : 0
}

function bondOf({ orders }: ShopFacts, taskId: string): BondFact | undefined {
  return orders.flatMap(({ bonds }) => bonds).find(({ id }) => bondTaskOf(id) === taskId)
}
