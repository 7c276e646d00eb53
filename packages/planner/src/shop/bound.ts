import type { Problem } from '../model/problem.ts'
import { never } from '../time/profile.ts'
import { unlimited, type Compiled } from './compile.ts'

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
          if ((lag.afterEnd ? end[i]! : start[i]!) >= needed) continue
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
  const level = 1
  return (i, from) => {
    let start = never
    let end = never
    let latest = 0
    for (const mode of modes[i]!) {
      const profiles = new Set([mode.profile, ...(mode.byResource?.values() ?? [])])
      // Calendars of the first demand that has any stand for all: fewer rules can't end later.
      const first = mode.demands.find(({ resources }) => resources.every((r) => calendarOf[r]! >= 0))
      const calendars =
        breaks[i] === 'ignore' || !first
          ? [-1]
          : [...new Set(Array.from(first.resources, (r) => calendarOf[r]!))]
      for (const p of profiles) {
        for (const calendar of calendars) {
          const profile = effective(p, breaks[i] === 'pause' && calendar >= 0 ? [calendar] : [], level)
          let at = from
          let done: number
          for (;;) {
            if (calendar >= 0 && mode.work > 0) at = open[level][calendar]!.nextWorking(at)
            done = at >= problem.horizonMinutes ? never : profile.finish(at, mode.work)
            if (breaks[i] !== 'forbid' || calendar < 0 || mode.work === 0 || done === never) break
            const stop = open[level][calendar]!.nextBreak(at)
            if (stop >= done) break
            at = stop
          }
          start = Math.min(start, at)
          end = Math.min(end, done)
          latest = Math.max(latest, done)
        }
      }
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
  for (let r = 0; r < problem.resources.length; r++)
    makespan = Math.max(makespan, workBound(compiled, relaxation, r))
  return { makespan, weightedTardiness }
}

/** When a resource is done at the earliest with the tasks that can go nowhere else. */
function workBound(compiled: Compiled, relaxation: Relaxation, r: number): number {
  const { modes, breaks, calendarOf, open, profiles, isFixed, problem } = compiled
  const resource = problem.resources[r]!
  if (resource.batch) return 0
  let work = 0
  let begin = never
  const keepsCalendar: boolean[] = []
  modes.forEach((list, i) => {
    const demand =
      list.length === 1
        ? list[0]!.demands.find(({ resources }) => resources.length === 1 && resources[0] === r)
        : undefined
    if (!demand || isFixed[i] === 1) return
    const mode = list[0]!
    const numbers = [mode.profile, ...(mode.byResource?.values() ?? [])]
    const fastest = Math.max(1, ...numbers.flatMap((p) => [...profiles[p]!.rate]))
    work += Math.ceil(mode.work / fastest) * demand.units
    begin = Math.min(begin, relaxation.start[i]!)
    keepsCalendar.push(breaks[i] !== 'ignore')
  })
  if (work === 0) return 0
  const minutes = Math.ceil(work / resource.capacity)
  const calendar = calendarOf[r]!
  return calendar >= 0 && keepsCalendar.every(Boolean)
    ? Math.min(open[1][calendar]!.finish(begin, minutes), never)
    : begin + minutes
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
