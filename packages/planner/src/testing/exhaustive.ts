/**
 * Exhaustive search for tiny problems, minute by minute, as an oracle for tests. It shares nothing with the solver:
 * every mode, resource and start is tried, and each complete plan is judged by `check`. Only branches are cut that can't
 * beat the best found even if the tasks left had every resource to themselves, or that already overfill a resource.
 */
import { check } from '../check/check.ts'
import type { Plan, PlannedHold, PlannedTask } from '../model/plan.ts'
import type { Mode, Problem, Task } from '../model/problem.ts'

const product = <T>(lists: readonly (readonly T[])[]): T[][] =>
  lists.reduce<T[][]>((rows, list) => rows.flatMap((row) => list.map((item) => [...row, item])), [[]])

/** First level of the objective, or the weighted sum. */
function costOf(problem: Problem, values: Readonly<Record<string, number>>): number {
  const { objective } = problem
  if (objective.kind === 'lexicographic') return values[objective.order[0]!]!
  return Object.entries(objective.weights).reduce((sum, [term, weight]) => sum + weight * values[term]!, 0)
}

export interface ExhaustiveOptions {
  /** Gives up after so many partial plans. */
  readonly mostNodes?: number
  /** Looks only for plans that cost less: whoever holds a plan of this cost need only be told of better ones. */
  readonly below?: number
}

/** One way of running a task, and when it would end for each start; -1 where it may not start. */
interface Option {
  readonly mode: number
  readonly resources: readonly string[]
  readonly overtime: boolean
  readonly ends: readonly number[]
}

/** Least cost of any feasible plan, null when there is none (below `below`); `undefined` when it gave up. */
export function exhaustiveOptimum(
  problem: Problem,
  { mostNodes = 400_000, below = Infinity }: ExhaustiveOptions = {},
): number | null | undefined {
  const order = topological(problem)
  let best = below
  let nodes = 0
  const search = (held: readonly string[]): void => {
    const options = new Map(order.map((task) => [task.id, optionsOf(problem, task, held)]))
    const soonest = new Map(order.map((task) => [task.id, soonestEnds(problem, options.get(task.id)!)]))
    const used = new Usage(problem)
    const chosen = new Map<string, PlannedTask>()
    const visit = (depth: number): void => {
      if (nodes++ > mostNodes) return
      if (depth === order.length) {
        const plan = {
          tasks: [...chosen.values()],
          holds: holdsOf(problem, chosen, held),
          unplannedJobs: [],
        } satisfies Plan
        const verdict = check(problem, plan)
        if (verdict.feasible) best = Math.min(best, costOf(problem, verdict.values))
        return
      }
      const task = order[depth]!
      const [earliest, latest] = startWindow(problem, task, chosen)
      for (const option of options.get(task.id)!) {
        for (let start = earliest; start <= latest; start++) {
          const end = option.ends[start]!
          if (end < 0) continue
          chosen.set(task.id, { taskId: task.id, start, end, ...option })
          // Later starts end no earlier, so nothing better follows on these resources.
          if (leastCost(problem, order, chosen, soonest) >= best - 1e-9) break
          const stays = staysOf(problem, task, chosen, held)
          if (stays.every((stay) => used.add(stay, 1) || used.undo(stays, stay))) {
            visit(depth + 1)
            used.undo(stays)
          }
        }
        chosen.delete(task.id)
      }
    }
    visit(0)
  }
  for (const held of product(
    problem.holds.map((hold) => (hold.fixedResource === null ? hold.anyOf : [hold.fixedResource])),
  )) {
    search(held)
  }
  return nodes > mostNodes ? undefined : best < below ? best : null
}

function optionsOf(problem: Problem, task: Task, held: readonly string[]): Option[] {
  const levels = problem.calendars.some((calendar) => calendar.overtime.length > 0) ? [false, true] : [false]
  return task.modes.flatMap((mode, m) =>
    product(mode.demands.map((demand) => demand.anyOf)).flatMap((resources) =>
      levels.map((overtime) => ({
        mode: m,
        resources,
        overtime,
        ends: Array.from(
          { length: problem.horizonMinutes },
          (_, start) => endOf(problem, task, mode, resources, held, start, overtime) ?? -1,
        ),
      })),
    ),
  )
}

/** The soonest end of a task by any option, for each minute from which on it may start. */
function soonestEnds(problem: Problem, options: readonly Option[]): number[] {
  const ends = Array.from({ length: problem.horizonMinutes + 1 }, () => Infinity)
  for (let start = problem.horizonMinutes - 1; start >= 0; start--) {
    const here = options.map((option) => option.ends[start]!).filter((end) => end >= 0)
    ends[start] = Math.min(ends[start + 1]!, ...here)
  }
  return ends
}

/** Earliest start by release and minimum lags, latest by maximum lags from tasks already chosen. */
function startWindow(
  problem: Problem,
  task: Task,
  chosen: ReadonlyMap<string, { readonly start: number; readonly end: number }>,
): [earliest: number, latest: number] {
  const job = problem.jobs.find((candidate) => candidate.id === task.jobId)!
  let earliest = Math.max(task.earliestStart, job.releaseAt)
  let latest = problem.horizonMinutes - 1
  for (const lag of problem.lags) {
    if (lag.to !== task.id) continue
    const before = chosen.get(lag.from)!
    const at = lag.after === 'end' ? before.end : before.start
    earliest = Math.max(earliest, at + lag.minMinutes)
    if (lag.maxMinutes !== null) latest = Math.min(latest, at + lag.maxMinutes)
  }
  return [earliest, latest]
}

interface Stay {
  readonly resource: string
  readonly units: number
  readonly from: number
  readonly until: number
}

/** What placing the task adds to the use of resources: its demands, and holds of which it is the later end. */
function staysOf(
  problem: Problem,
  task: Task,
  chosen: ReadonlyMap<string, PlannedTask>,
  held: readonly string[],
): Stay[] {
  const own = chosen.get(task.id)!
  const demands = task.modes[own.mode]!.demands.map(({ units }, d) => ({
    resource: own.resources[d]!,
    units,
    from: own.start,
    until: own.end,
  }))
  const holds = problem.holds.flatMap((hold, h) => {
    const from = chosen.get(hold.fromTask)
    const last = chosen.get(hold.untilTask)
    if (!from || !last || (hold.fromTask !== task.id && hold.untilTask !== task.id)) return []
    const until = hold.until === 'end' ? last.end : last.start
    return [{ resource: held[h]!, units: hold.units, from: from.start, until }]
  })
  return [...demands, ...holds]
}

/** Units in use minute by minute. Families and set-up are left to the checker. */
class Usage {
  private readonly minutes: Map<string, { readonly capacity: number; readonly used: number[] }>

  constructor(problem: Problem) {
    this.minutes = new Map(
      problem.resources.map(({ id, capacity, unavailable }) => [
        id,
        {
          capacity,
          used: Array.from({ length: problem.horizonMinutes + 1 }, (_, minute) =>
            unavailable.some(([from, until]) => from <= minute && minute < until) ? capacity : 0,
          ),
        },
      ]),
    )
  }

  /** Whether it fits after it has been added. */
  add({ resource, units, from, until }: Stay, sign: 1 | -1): boolean {
    const { capacity, used } = this.minutes.get(resource)!
    let fits = true
    for (let minute = from; minute < until; minute++) {
      used[minute]! += sign * units
      if (used[minute]! > capacity) fits = false
    }
    return fits
  }

  /** Takes off all stays up to and with `last`. */
  undo(stays: readonly Stay[], last?: Stay): false {
    for (const stay of stays) {
      this.add(stay, -1)
      if (stay === last) break
    }
    return false
  }
}

function topological(problem: Problem): Task[] {
  const left = [...problem.tasks]
  const order: Task[] = []
  while (left.length > 0) {
    const at = left.findIndex((task) =>
      problem.lags.every((lag) => lag.to !== task.id || order.some((done) => done.id === lag.from)),
    )
    order.push(...left.splice(at, 1))
  }
  return order
}

function endOf(
  problem: Problem,
  task: Task,
  mode: Mode,
  names: readonly string[],
  held: readonly string[],
  start: number,
  overtime: boolean,
): number | null {
  const calendars = names.flatMap((name) => {
    const resource = problem.resources.find((candidate) => candidate.id === name)!
    return problem.calendars.filter((calendar) => calendar.id === resource.calendarId)
  })
  const isOpen = (minute: number): boolean =>
    calendars.every((calendar) =>
      [...calendar.shifts, ...(overtime ? calendar.overtime : [])].some(
        ([from, until]) => from <= minute && minute < until,
      ),
    )
  const override = [...names, ...held]
    .map((name) => mode.profileByResource[name])
    .find((id) => id !== undefined)
  const points = problem.profiles.find((profile) => profile.id === (override ?? mode.profileId))?.points
  const rate = (minute: number): number =>
    points?.findLast((point) => point.atMinute <= minute)?.ratePerMinute ?? 1
  let left = mode.work
  for (let minute = start; minute <= problem.horizonMinutes; minute++) {
    if (left <= 0) return minute
    if (task.breaks === 'forbid' && !isOpen(minute)) return null
    if (task.breaks === 'pause' && minute === start && !isOpen(minute)) return null
    if (task.breaks !== 'pause' || isOpen(minute)) left -= rate(minute)
  }
  return null
}

function holdsOf(
  problem: Problem,
  chosen: ReadonlyMap<string, PlannedTask>,
  held: readonly string[],
): PlannedHold[] {
  return problem.holds.map((hold, h) => {
    const last = chosen.get(hold.untilTask)!
    return {
      holdId: hold.id,
      resourceId: held[h]!,
      from: chosen.get(hold.fromTask)!.start,
      until: hold.until === 'end' ? last.end : last.start,
    }
  })
}

/** What any plan costs at least that goes on from the chosen tasks, resources of the others left aside. */
function leastCost(
  problem: Problem,
  order: readonly Task[],
  chosen: ReadonlyMap<string, PlannedTask>,
  soonest: ReadonlyMap<string, readonly number[]>,
): number {
  const times = new Map<string, { readonly start: number; readonly end: number }>()
  const last = new Map<string, number>()
  let makespan = 0
  for (const task of order) {
    let entry: { readonly start: number; readonly end: number } | undefined = chosen.get(task.id)
    if (!entry) {
      const [start] = startWindow(problem, task, times)
      entry = { start, end: soonest.get(task.id)![start] ?? Infinity }
    }
    if (entry.end > Math.min(task.latestEnd ?? Infinity, problem.horizonMinutes)) return Infinity
    times.set(task.id, entry)
    makespan = Math.max(makespan, entry.end)
    last.set(task.jobId, Math.max(last.get(task.jobId) ?? 0, entry.end))
  }
  let weightedTardiness = 0
  for (const job of problem.jobs) {
    const end = last.get(job.id) ?? 0
    if (job.deadlineAt !== null && end > job.deadlineAt) return Infinity
    if (job.dueAt !== null) weightedTardiness += job.weight * Math.max(0, end - job.dueAt)
  }
  return costOf(problem, { weightedTardiness, makespan, overtime: 0, shortage: 0, waste: 0, change: 0 })
}
