/**
 * Exhaustive search for tiny problems, minute by minute, as an oracle for tests. It shares nothing with the solver:
 * every mode, resource and start is tried, and each complete plan is judged by `check`. Only branches that can't beat
 * the best found, or that already overfill a resource, are cut.
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

/** Least cost of any feasible plan, null when there is none; `undefined` when it gave up after `mostNodes`. */
export function exhaustiveOptimum(problem: Problem, mostNodes = 400_000): number | null | undefined {
  const order = topological(problem)
  const chosen = new Map<string, PlannedTask>()
  let best: number | null = null
  let nodes = 0
  const holdChoices = product(
    problem.holds.map((hold) => (hold.fixedResource === null ? hold.anyOf : [hold.fixedResource])),
  )

  const visit = (depth: number, held: readonly string[]): void => {
    if (nodes++ > mostNodes) return
    if (depth === order.length) {
      const plan: Plan = {
        tasks: [...chosen.values()],
        holds: holdsOf(problem, chosen, held),
        unplannedJobs: [],
      }
      const verdict = check(problem, plan)
      const cost = costOf(problem, verdict.values)
      if (verdict.feasible && (best === null || cost < best)) best = cost
      return
    }
    const task = order[depth]!
    const earliest = problem.lags
      .filter((lag) => lag.to === task.id)
      .reduce((at, lag) => {
        const before = chosen.get(lag.from)!
        return Math.max(at, (lag.after === 'end' ? before.end : before.start) + lag.minMinutes)
      }, 0)
    const levels = problem.calendars.some((calendar) => calendar.overtime.length > 0)
      ? [false, true]
      : [false]
    task.modes.forEach((mode, m) => {
      for (const resources of product(mode.demands.map((demand) => demand.anyOf))) {
        for (const overtime of levels) {
          for (let start = earliest; start < problem.horizonMinutes; start++) {
            const end = endOf(problem, task, mode, resources, held, start, overtime)
            if (end === null) continue
            chosen.set(task.id, { taskId: task.id, start, end, mode: m, resources, overtime })
            if (best !== null && partialCost(problem, chosen) >= best) {
              // Later starts end no earlier, so nothing better follows on these resources.
              chosen.delete(task.id)
              break
            }
            if (fits(problem, chosen, task)) visit(depth + 1, held)
            chosen.delete(task.id)
          }
        }
      }
    })
  }
  for (const held of holdChoices) visit(0, held)
  return nodes > mostNodes ? undefined : best
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

function fits(problem: Problem, chosen: ReadonlyMap<string, PlannedTask>, task: Task): boolean {
  const own = chosen.get(task.id)!
  return own.resources.every((name) => {
    const { capacity } = problem.resources.find((candidate) => candidate.id === name)!
    for (let minute = own.start; minute < own.end; minute++) {
      let used = 0
      for (const entry of chosen.values()) {
        if (entry.start > minute || entry.end <= minute) continue
        const { demands } = problem.tasks.find((candidate) => candidate.id === entry.taskId)!.modes[
          entry.mode
        ]!
        entry.resources.forEach((other, d) => (used += other === name ? demands[d]!.units : 0))
      }
      if (used > capacity) return false
    }
    return true
  })
}

/** What the tasks placed so far cost at least. */
function partialCost(problem: Problem, chosen: ReadonlyMap<string, PlannedTask>): number {
  let makespan = 0
  const last = new Map<string, number>()
  for (const entry of chosen.values()) {
    makespan = Math.max(makespan, entry.end)
    const { jobId } = problem.tasks.find((task) => task.id === entry.taskId)!
    last.set(jobId, Math.max(last.get(jobId) ?? 0, entry.end))
  }
  const weightedTardiness = problem.jobs.reduce(
    (sum, job) =>
      sum + (job.dueAt === null ? 0 : job.weight * Math.max(0, (last.get(job.id) ?? 0) - job.dueAt)),
    0,
  )
  return costOf(problem, { weightedTardiness, makespan, overtime: 0, shortage: 0, waste: 0, change: 0 })
}
