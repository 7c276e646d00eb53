import { judgeBake } from '@clampclock/cure'
import { refusalReason } from '../../cure/pure.ts'
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
    ...bakeReasons(facts, order),
    ...endlessReasons(facts, order),
    ...cureReasons(facts, open),
  ]
  return reasons.length === 0
    ? undefined
    : { orderId: order.id, number: order.number, reasons: [...new Set(reasons)] }
}

/** Of one that has no place behind what it stands on already. */
export function noPlace({ id, number }: OrderFact): UnplannedOrder {
  return { orderId: id, number, reasons: ['found no place in the next four weeks'] }
}

/** What runs on beyond the plan leaves no room for what comes after it. */
function endlessReasons({ originMs, horizonMinutes }: ShopFacts, { operations, bonds }: OrderFact): string[] {
  const endMs = originMs + horizonMinutes * 60_000
  return [
    ...operations.flatMap(({ name, kind, progress }) => {
      if (progress.kind !== 'running' || progress.endMs < endMs) return []
      return kind === 'cure'
        ? [`${name} does not reach handling strength in the next four weeks on the careful estimate`]
        : [`${name} does not end in the next four weeks`]
    }),
    ...bonds
      .filter(({ readyMs }) => readyMs >= endMs)
      .map(
        ({ jointName }) =>
          `${jointName} does not reach handling strength in the next four weeks on the careful estimate`,
      ),
  ]
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

/**
 * By the one judge of rule 4. That each bond is past handling strength by then, the plan itself sees to: a bake comes after
 * every cure.
 */
function bakeReasons(
  { originMs, timeZone, temperatureUnit: unit }: ShopFacts,
  { operations, ovenLimitC, joints }: OrderFact,
): string[] {
  const fields = { program: 'bake', heat: 'bake', moveAt: 'bake' }
  return operations
    .filter(({ kind, progress }) => kind === 'bake' && progress.kind === 'open')
    .flatMap(({ name, highestMetalC, byProgram }) => {
      if (byProgram && byProgram.faults.length > 0)
        return byProgram.faults.map((fault) => `${name}: ${fault}`)
      if (highestMetalC === null) return []
      const { refusals } = judgeBake({
        moveAtMs: originMs,
        metal: [{ panel: null, peakC: highestMetalC }],
        vehicleLimitC: ovenLimitC,
        bonds: joints.map((joint) => ({
          joint: joint.name,
          product: joint.productName,
          serviceRangeC: joint.serviceRangeC ?? { min: -Infinity, max: Infinity },
          panel: null,
          handlingReadyAt: { kind: 'at', atMs: originMs },
          heldBy: joint.heldBy,
        })),
      })
      return refusals.map((each) => `${name}: ${refusalReason(each, { timeZone, unit, fields }).message}`)
    })
}

function cureReasons({ forecasts }: ShopFacts, operations: readonly OperationFact[]): string[] {
  const cures = operations.filter(({ kind }) => kind === 'cure')
  if (cures.length === 0) return []
  if (cures.some(({ joint }) => joint === null)) return ['a product on it has no data sheet on file']
  const isKnown = [...forecasts.values()].some((points) => points.length > 0)
  return isKnown ? [] : ['no bay has a thermometer with readings, so nobody can tell how long the cure takes']
}
