import type { ProblemReason } from '@clampclock/contracts'
import type { Violation } from '@clampclock/planner'
import { message, type Message, type Param } from '@clampclock/messages'
import { onClock, param } from '../../foundation/words/params.ts'
import type { BondFact, OperationFact, OrderFact, ShopFacts } from '../problem/facts.ts'
import { SPARE_MINUTES } from '../problem/spare.ts'
import { bondTaskOf, leaveOf } from '../problem/task-names.ts'

/** A broken rule of the planner in the shop's words. */
export function violationReason(facts: ShopFacts, violation: Violation): ProblemReason {
  return { code: violation.rule, message: sentence(facts, violation) }
}

function sentence(facts: ShopFacts, { rule, taskIds, resourceId, at, by }: Violation): Message {
  const names = taskIds.map((id) => nameOf(facts, id))
  const [first = SOMETHING, second = SOMETHING] = names
  const place = facts.resources.find(({ id }) => id === resourceId)?.name ?? {
    message: message('plan-rule.it'),
  }
  const when: Param =
    at === null
      ? { message: message('plan-rule.then') }
      : onClock(facts.originMs + at * 60_000, facts.timeZone)
  switch (rule) {
    case 'capacity':
      return message('plan-rule.capacity', { place, when, names: { list: eachOnce(names), join: 'plain' } })
    case 'unavailable':
      return message('plan-rule.unavailable', { place, when, first })
    case 'calendar':
      return message('plan-rule.calendar', { first, when })
    case 'lag':
      if (!isCure(facts, taskIds[0])) return message('plan-rule.lag', { second, when, first })
      return by > spareBehind(facts, taskIds[0]!)
        ? message('plan-rule.lagOfCure', { second, when, first })
        : message('plan-rule.lagOfForecast', { second, when, first, spare: { minutes: SPARE_MINUTES } })
    case 'maxLag':
      return message('plan-rule.maxLag', { second, when, first })
    case 'window':
      return message('plan-rule.window', { first, when })
    case 'unplanned':
      return message('plan-rule.unplanned', { first })
    case 'mode':
      return message('plan-rule.mode', { first })
    case 'fixed':
      return message('plan-rule.fixed', { first })
    case 'form':
      return message('plan-rule.form')
    case 'hold':
      return message('plan-rule.hold', { vehicle: orderOf(facts, taskIds[0]), when })
    case 'duration':
      return message('plan-rule.duration', { first, when })
    case 'batch':
      return message('plan-rule.batch', { first, second, place, when })
    case 'setup':
      return message('plan-rule.setup', { second, when, first, place })
  }
}

const SOMETHING: Param = { message: message('plan-rule.byHand') }

function eachOnce(names: readonly Param[]): Param[] {
  return [...new Map(names.map((each) => [JSON.stringify(each), each])).values()]
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

function nameOf(facts: ShopFacts, taskId: string): Param {
  const bond = bondOf(facts, taskId)
  if (bond) return { message: message('plan-rule.bondOn', { joint: bond.jointName }) }
  const found = find(facts, taskId)
  if (!found) return SOMETHING
  const order = found.order.number
  return {
    message: found.operation
      ? message('plan-rule.operation', { operation: param(found.operation.name), order })
      : message('plan-rule.vehicle', { order }),
  }
}

function orderOf({ orders }: ShopFacts, taskId: string | undefined): Param {
  const order = orders.find(
    ({ id, operations, bonds }) =>
      taskId === leaveOf(id) ||
      operations.some((operation) => operation.id === taskId) ||
      bonds.some((bond) => bondTaskOf(bond.id) === taskId),
  )
  return {
    message: order ? message('plan-rule.vehicleOf', { order: order.number }) : message('plan-rule.aVehicle'),
  }
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
