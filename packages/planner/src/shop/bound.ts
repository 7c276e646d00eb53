import type { BreakRule, Problem } from '../model/problem.ts'
import { never } from '../time/profile.ts'
import { unlimited, type Compiled, type CompiledMode } from './compiled.ts'

export interface Relaxation {
  /** Earliest start and end of each task with all resources to itself. */
  readonly start: Int32Array
  readonly end: Int32Array
  /** A task that can't be done in its window even so, and the tasks before it that decide; null when there is none. */
  readonly conflict: readonly number[] | null
}

/**
 * Longest paths through the rate profiles, everything but the time-related rules left aside: each task at its quickest
 * mode and resource, with overtime, nobody else in the shop. What it proves holds for every plan.
 */
export function relax(compiled: Compiled): Relaxation {
  const { lagsIn, lagsOut, earliest, latestEnd, isFixed, groups, problem } = compiled
  const n = earliest.length
  const start = earliest.slice()
  const end = new Int32Array(n)
  /** Task that set the start, -1 for its own window. */
  const cause = new Int32Array(n).fill(-1)
  const quickest = quickestEnds(compiled)
  for (const group of groups) {
    for (let round = 0, again = true; again; round++) {
      again = false
      for (const i of group.tasks) {
        const { fixed } = problem.tasks[i]!
        if (fixed !== null) start[i] = fixed.start
        else {
          for (const lag of lagsIn[i]!) {
            const at = (lag.afterEnd ? end[lag.other]! : start[lag.other]!) + lag.min
            if (at > start[i]!) {
              start[i] = at
              cause[i] = lag.other
            }
          }
        }
        const place = quickest(i, start[i]!)
        if (fixed === null) start[i] = place.start
        end[i] = fixed?.end ?? place.end
        if (isFixed[i] === 0 && end[i]! > latestEnd[i]!) return { start, end, conflict: chain(i, cause) }
      }
      // A maximum lag pulls the earlier task along.
      for (const i of group.tasks) {
        for (const lag of lagsOut[i]!) {
          if (lag.max === unlimited || isFixed[i] === 1) continue
          const needed = start[lag.other]! - lag.max
          // Some choice may end late enough from the same start, though the quickest doesn't.
          if ((lag.afterEnd ? quickest(i, start[i]!).latest : start[i]!) >= needed) continue
          let low = start[i]! + 1
          if (!lag.afterEnd) low = needed
          else {
            let high = needed
            while (low < high) {
              const middle = (low + high) >> 1
              if (quickest(i, middle).latest >= needed) high = middle
              else low = middle + 1
            }
          }
          start[i] = low
          cause[i] = lag.other
          again = true
        }
      }
      if (round > 200) break
    }
  }
  return { start, end, conflict: null }
}

function chain(i: number, cause: Int32Array): number[] {
  const result: number[] = []
  for (let at = i; at >= 0 && !result.includes(at); at = cause[at]!) result.unshift(at)
  return result
}

/** Earliest start and end of a task from a minute on; `latest` is the latest of the ends its choices would give. */
function quickestEnds(
  compiled: Compiled,
): (i: number, from: number) => { start: number; end: number; latest: number } {
  const { modes, breaks, calendarOf, open, effective, problem } = compiled
  const calendarsOf = (mode: CompiledMode, rule: BreakRule): number[] => {
    // Calendars of one demand whose resources all have one stand for the rest: fewer rules can't end later.
    const first =
      rule === 'ignore'
        ? undefined
        : mode.demands.find(({ resources }) => resources.every((r) => calendarOf[r]! >= 0))
    return first ? [...new Set(Array.from(first.resources, (r) => calendarOf[r]!))] : [-1]
  }
  const choices = modes.map((list, i) =>
    list.flatMap((mode) =>
      [...new Set([mode.profile, ...(mode.byResource?.values() ?? [])])].flatMap((p) =>
        calendarsOf(mode, breaks[i]!).map((calendar) => ({
          work: mode.work,
          profile: effective(p, breaks[i] === 'pause' && calendar >= 0 ? [calendar] : [], 1),
          window: calendar >= 0 && mode.work > 0 ? open[1][calendar]! : null,
        })),
      ),
    ),
  )
  return (i, from) => {
    let start = never
    let end = never
    let latest = 0
    for (const { work, profile, window } of choices[i]!) {
      let at = from
      let done: number
      for (;;) {
        if (window !== null) at = window.nextWorking(at)
        done = at >= problem.horizonMinutes ? never : profile.finish(at, work)
        if (breaks[i] !== 'forbid' || window === null || done === never) break
        const stop = window.nextBreak(at)
        if (stop >= done) break
        at = stop
      }
      start = Math.min(start, at)
      end = Math.min(end, done)
      latest = Math.max(latest, done)
    }
    return { start, end, latest }
  }
}

/** Lower bounds of makespan and weighted tardiness, from the relaxation and from the work each resource must do. */
export function shopBounds(
  compiled: Compiled,
  relaxation: Relaxation,
): { makespan: number; weightedTardiness: number } {
  const { problem, jobOf } = compiled
  const last = new Int32Array(problem.jobs.length)
  let makespan = 0
  relaxation.end.forEach((end, i) => {
    last[jobOf[i]!] = Math.max(last[jobOf[i]!]!, end)
    makespan = Math.max(makespan, end)
  })
  const weightedTardiness = problem.jobs.reduce(
    (sum, job, j) => (job.dueAt === null ? sum : sum + job.weight * Math.max(0, last[j]! - job.dueAt)),
    0,
  )
  // Tasks that can go to one resource only.
  const bound: number[][] = problem.resources.map(() => [])
  compiled.modes.forEach((list, i) => {
    if (list.length !== 1 || compiled.isFixed[i] === 1) return
    for (const { resources } of list[0]!.demands) if (resources.length === 1) bound[resources[0]!]!.push(i)
  })
  bound.forEach((tasks, r) => (makespan = Math.max(makespan, workBound(compiled, relaxation, r, tasks))))
  return { makespan, weightedTardiness }
}

/** When a resource is done at the earliest with the tasks that can go nowhere else. */
function workBound(compiled: Compiled, relaxation: Relaxation, r: number, tasks: readonly number[]): number {
  const { modes, breaks, calendarOf, open, fastest, problem } = compiled
  const resource = problem.resources[r]!
  if (resource.batch || tasks.length === 0) return 0
  let work = 0
  let begin = never
  for (const i of tasks) {
    const mode = modes[i]![0]!
    const { units } = mode.demands.find(({ resources }) => resources.length === 1 && resources[0] === r)!
    const numbers = [mode.profile, ...(mode.byResource?.values() ?? [])]
    work += Math.ceil(mode.work / Math.max(...numbers.map((p) => fastest[p]!))) * units
    begin = Math.min(begin, relaxation.start[i]!)
  }
  const minutes = Math.ceil(work / resource.capacity)
  const calendar = calendarOf[r]!
  const keepsCalendar = calendar >= 0 && tasks.every((i) => breaks[i] !== 'ignore')
  return keepsCalendar ? Math.min(open[1][calendar]!.finish(begin, minutes), never) : begin + minutes
}

/** Bound of the cost that `Result` reports: the weighted sum, or the first level of a lexicographic objective. */
export function costBound(problem: Problem, bounds: { makespan: number; weightedTardiness: number }): number {
  const { objective } = problem
  if (objective.kind === 'weighted') {
    return (
      (objective.weights.makespan ?? 0) * bounds.makespan +
      (objective.weights.weightedTardiness ?? 0) * bounds.weightedTardiness
    )
  }
  const first = objective.order[0]
  return first === 'makespan' ? bounds.makespan : first === 'weightedTardiness' ? bounds.weightedTardiness : 0
}

/** What each group costs at least in the annealer's terms: the tardiness it would have alone in the shop. */
export function groupBounds(compiled: Compiled, relaxation: Relaxation): Float64Array {
  const { problem, groups, jobOf } = compiled
  const { objective } = problem
  const isFirst = objective.kind === 'lexicographic' && objective.order[0] === 'weightedTardiness'
  const weight = objective.kind === 'weighted' ? (objective.weights.weightedTardiness ?? 0) : isFirst ? 1 : 0
  return Float64Array.from(groups, (group) => {
    let sum = 0
    for (const j of group.jobs) {
      const job = problem.jobs[j]!
      let end = 0
      for (const i of group.tasks) if (jobOf[i] === j) end = Math.max(end, relaxation.end[i]!)
      if (job.dueAt !== null) sum += job.weight * Math.max(0, end - job.dueAt)
    }
    return sum * weight
  })
}
