import { message, type Message, type Told } from '@clampclock/messages'
import { param } from '../../foundation/words/params.ts'
import { judgeBake } from '@clampclock/cure'
import { refusalReason } from '../../cure/pure.ts'
import type { OperationFact, OrderFact, ShopFacts } from './facts.ts'
import { eligible, placesFor, segmentsOf } from './candidates.ts'

export interface UnplannedOrder {
  readonly orderId: string
  readonly number: string
  readonly reasons: readonly Told[]
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
    : { orderId: order.id, number: order.number, reasons: eachOnce(reasons) }
}

/** Of one that has no place behind what it stands on already. */
export function noPlace({ id, number }: OrderFact): UnplannedOrder {
  return { orderId: id, number, reasons: [message('reason.planNoPlace')] }
}

/** What runs on beyond the plan leaves no room for what comes after it. */
function endlessReasons(
  { originMs, horizonMinutes }: ShopFacts,
  { operations, bonds }: OrderFact,
): Message[] {
  const endMs = originMs + horizonMinutes * 60_000
  return [
    ...operations.flatMap(({ name, kind, progress }) => {
      if (progress.kind !== 'running' || progress.endMs < endMs) return []
      return kind === 'cure'
        ? [message('reason.planCureEndless', { name: param(name) })]
        : [message('reason.planEndless', { name: param(name) })]
    }),
    ...bonds
      .filter(({ readyMs }) => readyMs >= endMs)
      .map(({ jointName }) => message('reason.planCureEndless', { name: jointName })),
  ]
}

function peopleReasons(facts: ShopFacts, operation: OperationFact): Message[] {
  const { technicians, skill, name } = operation
  const able = eligible(facts, operation).length
  if (able >= technicians) return []
  return [
    skill === null
      ? message('reason.planPeople', { name: param(name), technicians, able })
      : message('reason.planPeopleSkilled', { name: param(name), technicians, skill, able }),
  ]
}

function clampReasons({ resources }: ShopFacts, { clampSets, name, kind }: OperationFact): Message[] {
  if (kind !== 'bondAndClamp' || clampSets === 0) return []
  const most = Math.max(
    0,
    ...resources.filter((each) => each.kind === 'clampSet' && each.isActive).map((each) => each.capacity),
  )
  return most >= clampSets ? [] : [message('reason.planClampSets', { name: param(name), clampSets, most })]
}

function placeReasons(facts: ShopFacts, operations: readonly OperationFact[]): Message[] {
  return segmentsOf(operations).flatMap((segment) => {
    if (placesFor(facts, segment).length > 0) return []
    const needed = [...new Set(segment.flatMap(({ attributes }) => attributes))]
    const what = {
      place: segment[0]!.place,
      names: { list: segment.map(({ name }) => param(name)), join: 'plain' },
    } as const
    if (needed.length === 0) return [message('reason.planPlace', what)]
    const attributes = needed.map((attribute) => ({ message: message('reason.attribute', { attribute }) }))
    return [message('reason.planPlaceWith', { ...what, attributes: { list: attributes } })]
  })
}

/**
 * By the one judge of rule 4. That each bond is past handling strength by then, the plan itself sees to: a bake comes after
 * every cure.
 */
function bakeReasons(
  { originMs, timeZone, temperatureUnit: unit }: ShopFacts,
  { operations, ovenLimitC, joints }: OrderFact,
): Message[] {
  const fields = { program: 'bake', heat: 'bake', moveAt: 'bake' }
  return operations
    .filter(({ kind, progress }) => kind === 'bake' && progress.kind === 'open')
    .flatMap(({ name, highestMetalC, byProgram }) => {
      if (byProgram && byProgram.faults.length > 0) return byProgram.faults.map((fault) => named(name, fault))
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
      return refusals.map((each) => named(name, refusalReason(each, { timeZone, unit, fields }).message))
    })
}

function named(name: Told, what: Told): Message {
  return message('reason.named', { name: param(name), what: param(what) })
}

function cureReasons({ forecasts }: ShopFacts, operations: readonly OperationFact[]): Message[] {
  const cures = operations.filter(({ kind }) => kind === 'cure')
  if (cures.length === 0) return []
  if (cures.some(({ joint }) => joint === null)) return [message('reason.planNoSheet')]
  const isKnown = [...forecasts.values()].some((points) => points.length > 0)
  return isKnown ? [] : [message('reason.planNoForecast')]
}

function eachOnce(reasons: readonly Message[]): Message[] {
  return [...new Map(reasons.map((each) => [JSON.stringify(each), each])).values()]
}
