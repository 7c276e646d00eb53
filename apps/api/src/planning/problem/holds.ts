import { clampsEndWith } from './clamp-stay.ts'
import { placesFor, segmentsOf } from './candidates.ts'
import type { OrderFact, ShopFacts, TakenFact } from './facts.ts'
import { clampsOf, leaveOf, stayOf } from './task-names.ts'

/** As the planner takes it (docs/planner.md). */
interface Hold {
  readonly id: string
  readonly anyOf: readonly string[]
  readonly units?: number
  readonly fromTask: string
  readonly untilTask: string
  readonly until: 'start' | 'end'
  readonly fixedResource: string | null
}

export function staysOf(facts: ShopFacts, order: OrderFact): Hold[] {
  const segments = segmentsOf(order.operations)
  return segments.flatMap((segment, i) => {
    const next = segments[i + 1]?.[0]!.id ?? leaveOf(order.id)
    const following = segments[i + 1]?.[0]
    // A stay that is over holds nothing any more.
    if (following && following.progress.kind !== 'open') return []
    const begun = segment
      .flatMap(({ progress }) => (progress.kind === 'open' ? [] : [progress.placeId]))
      .at(-1)
    const suited = placesFor(facts, segment).map(({ id }) => id)
    // Where it stands, it stands, whatever the bay has.
    const fixedResource = begun === undefined ? null : (begun ?? suited[0] ?? null)
    const anyOf = fixedResource === null || suited.includes(fixedResource) ? suited : [fixedResource]
    return [
      {
        id: stayOf(segment[0]!.id),
        anyOf,
        fromTask: segment[0]!.id,
        untilTask: next,
        until: 'start',
        fixedResource,
      },
    ]
  })
}

export function clampHoldsOf(facts: ShopFacts, order: OrderFact): Hold[] {
  return order.operations.flatMap((operation, at) => {
    const { id, kind, clampSets, clampSetId } = operation
    if (kind !== 'bondAndClamp' || clampSets === 0) return []
    const { takesOff, cure } = clampsEndWith(order.operations, at)
    const last = takesOff ?? cure
    // Off again.
    if (!last || last.progress.kind === 'done' || (takesOff && last.progress.kind !== 'open')) return []
    const anyOf = facts.resources
      .filter((each) => each.isActive && each.kind === 'clampSet' && each.capacity >= clampSets)
      .map((each) => each.id)
    const until = takesOff ? 'start' : 'end'
    const fixedResource = operation.progress.kind === 'open' ? null : (clampSetId ?? anyOf[0] ?? null)
    if (fixedResource !== null && !anyOf.includes(fixedResource)) anyOf.push(fixedResource)
    if (anyOf.length === 0) return []
    return [
      { id: clampsOf(id), anyOf, units: clampSets, fromTask: id, untilTask: last.id, until, fixedResource },
    ]
  })
}

/** What a vehicle that stays out of the plan has all the same: its place and its clamps, and people while they work on it. */
export function keptBy(facts: ShopFacts, order: OrderFact): TakenFact[] {
  const { originMs, horizonMinutes } = facts
  const whole = {
    repairOrderId: order.id,
    fromMs: originMs,
    untilMs: originMs + horizonMinutes * 60_000,
  }
  const holds = [...staysOf(facts, order), ...clampHoldsOf(facts, order)].flatMap(
    ({ fixedResource, units = 1 }) => (fixedResource ? [{ ...whole, resourceId: fixedResource, units }] : []),
  )
  const people = order.operations.flatMap(({ progress }) =>
    progress.kind === 'running'
      ? progress.technicianIds.map((resourceId) => ({
          ...whole,
          resourceId,
          units: 1,
          untilMs: progress.endMs,
        }))
      : [],
  )
  // Where it stands for a bond, when nobody has told of any work on it.
  const bays = order.bonds.flatMap(({ placeId }) =>
    placeId === null || holds.length > 0 ? [] : [{ ...whole, resourceId: placeId, units: 1 }],
  )
  return [...holds, ...bays, ...people]
}
