import type { ProblemReason } from '@clampclock/contracts'
import type { Violation } from '@clampclock/planner'
import { shopTime } from '../bonds/notes.ts'
import type { BondFact, OperationFact, OrderFact, ShopFacts } from './facts.ts'
import { SPARE_MINUTES } from './spare.ts'
import { bondTaskOf } from './task-names.ts'

/** A broken rule of the planner in the shop's words. */
export function violationReason(facts: ShopFacts, violation: Violation): ProblemReason {
  return { code: violation.rule, message: sentence(facts, violation) }
}

function sentence(facts: ShopFacts, { rule, taskIds, message }: Violation): string {
  const [first, second] = taskIds.map((id) => nameOf(facts, id))
  const place = facts.resources.find(({ id }) => message.includes(id))?.name ?? 'It'
  switch (rule) {
    case 'capacity':
      return `${place} is taken then: ${[...new Set(taskIds.map((id) => nameOf(facts, id)))].join(', ')}`
    case 'unavailable':
      return `${place} is booked or out of use then, and ${first} would stand there`
    case 'calendar':
      return `${first} would start in a break, or lie across one`
    case 'lag':
      if (!isCure(facts, taskIds[0])) return `${second} would start before ${first} is through`
      return /starts -/.test(message)
        ? `${second} would come before ${first} has reached handling strength on the careful estimate`
        : `${second} would come right after ${first}: ${SPARE_MINUTES} min are left for a forecast that changes`
    case 'window':
      return `${first} would start too soon, or end beyond what is planned`
    case 'unplanned':
      return `${first} finds no place behind it in the next four weeks`
    case 'mode':
      return `${first} needs somebody, or a bay, that can do it`
    case 'fixed':
      return `${first} has begun otherwise than planned`
    case 'form':
      return 'Something in the plan is finished, or not to be done any more'
    case 'hold':
      return `The vehicle of ${first} would not stand where it is planned to`
    case 'duration':
    case 'batch':
    case 'setup':
      return `${first}: ${minutesAsTimes(facts, message)}`
  }
}

function find(
  facts: ShopFacts,
  taskId: string,
): { order: OrderFact; operation: OperationFact | undefined } | undefined {
  for (const order of facts.orders) {
    const operation = order.operations.find(({ id }) => id === taskId)
    if (operation || taskId === `${order.id}/leave`) return { order, operation }
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

function isCure(facts: ShopFacts, taskId: string | undefined): boolean {
  if (taskId === undefined) return false
  return find(facts, taskId)?.operation?.kind === 'cure' || bondOf(facts, taskId) !== undefined
}

function bondOf({ orders }: ShopFacts, taskId: string): BondFact | undefined {
  return orders.flatMap(({ bonds }) => bonds).find(({ id }) => bondTaskOf(id) === taskId)
}

function minutesAsTimes({ originMs, timeZone }: ShopFacts, text: string): string {
  return text.replace(
    /\b(at|from|to|before|after) (\d+)\b/g,
    (_, word: string, minute: string) => `${word} ${shopTime(originMs + Number(minute) * 60_000, timeZone)}`,
  )
}
