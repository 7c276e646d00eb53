import type { Message } from '@clampclock/messages'
import { precedences, isOfVehicle, inOrder } from '../operations/expand.ts'
import { eligible, segmentsOf } from './candidates.ts'
import { CureProfiles } from './cure-profiles.ts'
import type { OperationFact, OrderFact, ShopFacts, TakenFact } from './facts.ts'
import { clampHoldsOf, keptBy, staysOf } from './holds.ts'
import { SPARE_MINUTES } from './spare.ts'
import { bondTaskOf, leaveOf, toMinute } from './task-names.ts'
import { noPlace, unplannableReason, type UnplannedOrder } from './unplannable.ts'
import { ATTENDANCE, resourceSections } from './translate-resources.ts'

/** Minutes a plan leaves before anything new starts: somebody has to read it first. */
const READING_MINUTES = 15
/** What a minute late counts beside that of others. */
export const WEIGHT = { low: 1, normal: 2, high: 4, rush: 8 } as const

export interface Translated {
  /** The planner's JSON form (docs/planner.md): ids are those of operations, resources and repair orders. */
  readonly problem: object
  /** Orders that cannot be planned at all, each with why. */
  readonly unplanned: readonly UnplannedOrder[]
  /** What was assumed where a fact was missing. */
  readonly assumptions: readonly Message[]
}

/**
 * The planner's problem of a shop. A vehicle holds its bay from its first operation there until the next one begins in the
 * oven, or until it is done; nothing else stands there meanwhile. People work in their shifts and go on after a break; a
 * bond is made and clamped without one; a cure starts with the clamps and takes as long as its bay is warm; clamps stay on
 * until somebody takes them off. A bake runs while somebody is in the building.
 *
 * An order that cannot be planned, or is among `setAside`, keeps what it stands on and holds as far as the plan looks.
 */
export function translate(facts: ShopFacts, setAside: ReadonlySet<string> = new Set()): Translated {
  const profiles = new CureProfiles(facts)
  const unplanned: UnplannedOrder[] = []
  const jobs: object[] = []
  const tasks: object[] = []
  const lags: object[] = []
  const holds: object[] = []
  /** Where a vehicle stands already: its own bookings there are no obstacle to it. */
  const standing = new Map<string, string>()
  const kept: TakenFact[] = []
  for (const order of facts.orders) {
    const ordered = { ...order, operations: inOrder(order.operations) }
    const reason = setAside.has(order.id) ? noPlace(order) : unplannableReason(facts, ordered)
    if (reason) {
      unplanned.push(reason)
      kept.push(...keptBy(facts, ordered))
      continue
    }
    jobs.push(jobOf(facts, ordered))
    for (const operation of ordered.operations) {
      tasks.push(taskOf(facts, profiles, ordered, operation))
      const { progress } = operation
      if (progress.kind !== 'open' && progress.placeId !== null) standing.set(order.id, progress.placeId)
    }
    tasks.push({
      id: leaveOf(order.id),
      jobId: order.id,
      modes: [{ work: 0, demands: [] }],
      breaks: 'ignore',
    })
    tasks.push(...bondTasksOf(facts, ordered))
    lags.push(...lagsOf(ordered))
    holds.push(...staysOf(facts, ordered), ...clampHoldsOf(facts, ordered))
  }
  const { resources, calendars, fixedTasks, fixedJobs } = resourceSections(
    { ...facts, taken: [...facts.taken, ...kept] },
    standing,
  )
  return {
    problem: {
      horizonMinutes: facts.horizonMinutes,
      profiles: profiles.all(),
      calendars,
      resources,
      jobs: [...jobs, ...fixedJobs],
      tasks: [...tasks, ...fixedTasks],
      lags,
      holds,
      stocks: stocksOf(facts),
      objective: {
        kind: 'weighted',
        weights: { weightedTardiness: 1, shortage: 0.01, overtime: 0.5, change: 1 },
      },
      stability: { fadesOutAt: Math.min(facts.horizonMinutes, 7 * 1440) },
    },
    unplanned,
    assumptions: profiles.assumptions(),
  }
}

function jobOf(facts: ShopFacts, { id, promisedAtMs, priority }: OrderFact): object {
  return {
    id,
    dueAt: promisedAtMs === null ? null : toMinute(facts, promisedAtMs),
    weight: WEIGHT[priority],
  }
}

function taskOf(
  facts: ShopFacts,
  profiles: CureProfiles,
  order: OrderFact,
  operation: OperationFact,
): object {
  const { id, kind, progress, workMinutes } = operation
  const base = { id, jobId: order.id, earliestStart: READING_MINUTES }
  if (progress.kind !== 'open') {
    const start = toMinute(facts, progress.startMs)
    const end = Math.max(start, toMinute(facts, progress.endMs))
    // People on a running operation are taken until it ends.
    const people = progress.kind === 'running' ? progress.technicianIds : []
    return {
      ...base,
      breaks: 'ignore',
      modes: [{ work: end - start, demands: people.map((person) => ({ anyOf: [person] })) }],
      fixed: { state: progress.kind, start, end, mode: 0, resources: people },
    }
  }
  if (kind === 'cure') {
    const { profileId, profileByResource, work } = profiles.of(operation)
    return { ...base, breaks: 'ignore', modes: [{ work, profileId, profileByResource, demands: [] }] }
  }
  if (kind === 'bake')
    return { ...base, breaks: 'forbid', modes: [{ work: workMinutes, demands: [{ anyOf: [ATTENDANCE] }] }] }
  const people = eligible(facts, operation).map((person) => person.id)
  const demands = Array.from({ length: operation.technicians }, () => ({ anyOf: people }))
  const uses =
    kind === 'bondAndClamp' && operation.joint
      ? [{ stockId: operation.joint.productId, amount: operation.joint.amountUl }]
      : []
  return {
    ...base,
    // Adhesive on the flange does not wait for lunch.
    breaks: kind === 'cool' ? 'ignore' : kind === 'bondAndClamp' ? 'forbid' : 'pause',
    modes: [{ work: workMinutes, demands }],
    uses,
  }
}

interface Lag {
  readonly from: string
  readonly to: string
  readonly after?: 'start'
  readonly maxMinutes?: number
}

function lagsOf(order: OrderFact): object[] {
  // Of a cure that runs the end is known better, and nothing is gained by moving what follows.
  const toCome = new Set(
    order.operations
      .filter(({ kind, progress }) => kind === 'cure' && progress.kind === 'open')
      .map(({ id }) => id),
  )
  const found: Lag[] = precedences(order.operations).map(({ before, after, noWait }) => {
    const isFact = order.operations.find(({ id }) => id === before)?.progress.kind !== 'open'
    return { from: before, to: after, ...(noWait && !isFact ? { maxMinutes: 0 } : {}) }
  })
  const [first] = order.operations
  const standsAt = order.operations.findLast(({ progress }) => progress.kind !== 'open')?.place
  // Where nobody told where it stands, or it would go elsewhere, it waits for every bond on it.
  const waiting = order.operations.filter(
    ({ kind, place, progress }) =>
      progress.kind === 'open' && (isOfVehicle(kind) || standsAt === undefined || place !== standsAt),
  )
  for (const bond of order.bonds)
    for (const to of [...waiting.map(({ id }) => id), leaveOf(order.id)])
      found.push({ from: bondTaskOf(bond.id), to })
  // Nor does it go elsewhere while a joint that was planned before that cures.
  const segments = segmentsOf(order.operations)
  segments.forEach((segment, i) => {
    const cures = segments.slice(0, i).flatMap((before) => before.filter(({ kind }) => kind === 'cure'))
    for (const { id: from } of cures)
      for (const { id: to, kind } of segment) if (!isOfVehicle(kind)) found.push({ from, to })
  })
  // The first one brings the vehicle in: whatever else is done on its joints comes no sooner.
  for (const { id, kind } of order.operations.slice(1))
    if (!isOfVehicle(kind)) found.push({ from: first!.id, to: id, after: 'start' })
  return [
    ...found.map((lag) => (toCome.has(lag.from) ? { ...lag, minMinutes: SPARE_MINUTES } : lag)),
    ...order.operations.map(({ id }) => ({ from: id, to: leaveOf(order.id) })),
  ]
}

function bondTasksOf(facts: ShopFacts, order: OrderFact): object[] {
  return order.bonds.map(({ id, startMs, readyMs }) => {
    const start = toMinute(facts, startMs)
    const end = Math.max(start, toMinute(facts, readyMs))
    return {
      id: bondTaskOf(id),
      jobId: order.id,
      breaks: 'ignore',
      modes: [{ work: end - start, demands: [] }],
      fixed: { state: 'running', start, end, mode: 0, resources: [] },
    }
  })
}

function stocksOf(facts: ShopFacts): object[] {
  // None on the shelf is a stock too: of nothing.
  const needed = facts.orders.flatMap(({ operations }) =>
    operations.flatMap(({ joint }) => joint?.productId ?? []),
  )
  const products = [...new Set([...facts.lots.map(({ productId }) => productId), ...needed])]
  return products.map((productId) => ({
    id: productId,
    lots: facts.lots
      .filter((lot) => lot.productId === productId)
      .map(({ id, amountUl, expiresAtMs }) => ({
        id,
        amount: amountUl,
        expiresAt: toMinute(facts, expiresAtMs),
      })),
  }))
}
