import { absences, workingTime } from './calendars.ts'
import type { ShopFacts } from './facts.ts'
import { clip, union, type Interval } from './intervals.ts'

/** Stands for "somebody is in the building": what runs by itself, but not unwatched. */
export const ATTENDANCE = 'attendance'
/** The job of what people have booked of counted resources. */
export const BOOKED_BY_HAND = 'booked-by-hand'
const OF_THE_SHOP = 'shop'

interface Sections {
  readonly calendars: readonly object[]
  readonly resources: readonly object[]
  /** Counted resources that are booked by hand: tasks that the planner may not touch. */
  readonly fixedTasks: readonly object[]
  readonly fixedJobs: readonly object[]
}

/** Resources with their calendars, and what of them is taken. `standing`: where a vehicle stands by the plan, by order. */
export function resourceSections(facts: ShopFacts, standing: ReadonlyMap<string, string>): Sections {
  const technicians = facts.resources.filter(({ kind }) => kind === 'technician')
  const taken = facts.taken
    .filter(({ repairOrderId, resourceId }) => standing.get(repairOrderId) !== resourceId)
    .map((each) => ({ ...each, interval: intervalOf(facts, each) }))
    .filter(({ interval: [from, until] }) => from < until)
  const resources = facts.resources.map(({ id, kind, capacity }) => ({
    id,
    capacity,
    calendarId: kind === 'technician' ? id : null,
    unavailable: union([
      ...(kind === 'technician' ? [] : absences(facts, id)),
      ...(capacity === 1
        ? taken.filter((each) => each.resourceId === id).map(({ interval }) => interval)
        : []),
    ]),
  }))
  const counted = taken.filter(({ resourceId }) =>
    facts.resources.some(({ id, capacity }) => id === resourceId && capacity > 1),
  )
  const jobId = BOOKED_BY_HAND
  return {
    calendars: [
      { id: OF_THE_SHOP, ...workingTime(facts, null) },
      ...technicians.map(({ id }) => ({ id, ...workingTime(facts, id) })),
    ],
    resources: [...resources, { id: ATTENDANCE, capacity: 10_000, calendarId: OF_THE_SHOP }],
    fixedJobs: counted.length > 0 ? [{ id: jobId }] : [],
    fixedTasks: counted.map(({ resourceId, units, interval: [from, until] }, i) => ({
      id: `${jobId}/${i}`,
      jobId,
      breaks: 'ignore',
      modes: [{ work: until - from, demands: [{ anyOf: [resourceId], units }] }],
      fixed: { state: 'running', start: from, end: until, mode: 0, resources: [resourceId] },
    })),
  }
}

function intervalOf(
  { originMs, horizonMinutes }: ShopFacts,
  { fromMs, untilMs }: { fromMs: number; untilMs: number },
): Interval {
  const from = Math.floor((fromMs - originMs) / 60_000)
  const until = Math.ceil((untilMs - originMs) / 60_000)
  return clip([[from, until]], [0, horizonMinutes])[0] ?? [0, 0]
}
