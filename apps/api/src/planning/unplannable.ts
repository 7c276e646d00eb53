import type { OperationFact, OrderFact, ShopFacts } from './facts.ts'
import { eligible, placesFor, segmentsOf } from './candidates.ts'

export interface UnplannedOrder {
  readonly orderId: string
  readonly number: string
  readonly reasons: readonly string[]
}

/** Why an order cannot be planned whatever the planner does; undefined when it may try. */
export function unplannableReason(facts: ShopFacts, order: OrderFact): UnplannedOrder | undefined {
  const open = order.operations.filter(({ progress }) => progress.kind === 'open')
  const reasons = [
    ...open.flatMap((operation) => [...peopleReasons(facts, operation), ...clampReasons(facts, operation)]),
    ...placeReasons(facts, open),
    ...bakeReasons(order),
    ...cureReasons(facts, open),
  ]
  return reasons.length === 0
    ? undefined
    : { orderId: order.id, number: order.number, reasons: [...new Set(reasons)] }
}

function peopleReasons(facts: ShopFacts, operation: OperationFact): string[] {
  const { technicians, skill, name } = operation
  const able = eligible(facts, operation).length
  if (able >= technicians) return []
  const who = skill === null ? 'technicians' : `technicians with the skill ${skill}`
  return [`${name} needs ${technicians} ${who}; the shop has ${able}`]
}

function clampReasons({ resources }: ShopFacts, { clampSets, name, kind }: OperationFact): string[] {
  if (kind !== 'bondAndClamp' || clampSets === 0) return []
  const most = Math.max(
    0,
    ...resources.filter((each) => each.kind === 'clampSet' && each.isActive).map((each) => each.capacity),
  )
  return most >= clampSets
    ? []
    : [`${name} needs ${clampSets} clamp sets of one kind; the most there are is ${most}`]
}

function placeReasons(facts: ShopFacts, operations: readonly OperationFact[]): string[] {
  return segmentsOf(operations).flatMap((segment) => {
    if (placesFor(facts, segment).length > 0) return []
    const needed = [...new Set(segment.flatMap(({ attributes }) => attributes))]
    const what = needed.length === 0 ? '' : ` with ${needed.join(' and ')}`
    return [`there is no ${segment[0]!.place}${what} for ${segment.map(({ name }) => name).join(', ')}`]
  })
}

/** The metal must stay inside the rated range of every product on the vehicle, and inside the vehicle's own limit. */
function bakeReasons({ operations, ovenLimitC }: OrderFact): string[] {
  return operations
    .filter(({ kind, progress }) => kind === 'bake' && progress.kind === 'open')
    .flatMap(({ name, highestMetalC }) => {
      if (highestMetalC === null) return []
      const joints = operations.flatMap(({ joint }) => joint ?? [])
      return [
        ...(ovenLimitC !== null && highestMetalC > ovenLimitC
          ? [
              `${name} would take the metal to ${highestMetalC} degC; the vehicle's own limit is ${ovenLimitC} degC`,
            ]
          : []),
        ...joints
          .filter(({ sheet }) => highestMetalC > sheet.serviceRangeC.max)
          .map(
            ({ productName, sheet }) =>
              `${name} would take the metal to ${highestMetalC} degC; ${productName} is rated to ${sheet.serviceRangeC.max} degC`,
          ),
      ]
    })
}

function cureReasons({ forecasts }: ShopFacts, operations: readonly OperationFact[]): string[] {
  const cures = operations.filter(({ kind }) => kind === 'cure')
  if (cures.length === 0) return []
  if (cures.some(({ joint }) => joint === null)) return ['a product on it has no data sheet on file']
  const isKnown = [...forecasts.values()].some((points) => points.length > 0)
  return isKnown ? [] : ['no bay has a thermometer with readings, so nobody can tell how long the cure takes']
}
