import { defineProblem } from '../model/define-problem.ts'
import type { Plan } from '../model/plan.ts'
import { ProblemError } from '../model/problem-error.ts'
import type { Fixed, Interval, Problem, RateProfile, Task } from '../model/problem.ts'

/** Something that happened at minute `at`. Everything planned to start before then has started. */
export type RepairEvent =
  /** A task, mostly a cure, that will end later (or sooner) than planned. */
  | { readonly kind: 'taskEnds'; readonly at: number; readonly taskId: string; readonly end: number }
  /** A bay that fails, a technician who is ill. What runs on it now goes on unless a `taskEnds` says otherwise. */
  | {
      readonly kind: 'resourceUnavailable'
      readonly at: number
      readonly resourceId: string
      readonly from: number
      readonly until: number
    }
  /** A new forecast: the rates of a profile change. */
  | {
      readonly kind: 'ratesChange'
      readonly at: number
      readonly profileId: string
      readonly points: RateProfile['points']
    }
  /** A rush job, in the JSON form of the problem's sections. */
  | {
      readonly kind: 'jobArrives'
      readonly at: number
      readonly job: unknown
      readonly tasks: readonly unknown[]
      readonly lags: readonly unknown[]
      readonly holds: readonly unknown[]
    }

/**
 * The problem as it stands after the event: started tasks and holds are facts, the rest starts no earlier than now.
 * @throws ProblemError when the event names what isn't there, or brings a job that breaks a rule.
 */
export function applyEvent(problem: Problem, plan: Plan, event: RepairEvent): Problem {
  const planned = new Map(plan.tasks.map((entry) => [entry.taskId, entry]))
  const heldOn = new Map(plan.holds.map((entry) => [entry.holdId, entry]))
  const requireId = (items: readonly { readonly id: string }[], id: string, field: string): void => {
    if (!items.some((item) => item.id === id))
      throw new ProblemError([{ field, value: id, fix: 'name one that the problem has' }])
  }
  if (event.kind === 'taskEnds') requireId(problem.tasks, event.taskId, 'event.taskId')
  if (event.kind === 'resourceUnavailable') requireId(problem.resources, event.resourceId, 'event.resourceId')
  if (event.kind === 'ratesChange') {
    requireId(problem.profiles, event.profileId, 'event.profileId')
    defineProblem({
      horizonMinutes: problem.horizonMinutes,
      profiles: [{ id: event.profileId, points: event.points }],
    })
  }
  if (event.kind === 'resourceUnavailable' && !(event.from < event.until)) {
    throw new ProblemError([
      { field: 'event.until', value: event.until, fix: `give a minute after event.from ${event.from}` },
    ])
  }

  const now = (task: Task): Task => {
    const entry = planned.get(task.id)
    if (entry === undefined || (entry.start >= event.at && task.fixed === null)) {
      return { ...task, earliestStart: Math.max(task.earliestStart, event.at) }
    }
    if (entry.start >= event.at && task.fixed?.state === 'locked') return task
    const isHit = event.kind === 'taskEnds' && event.taskId === task.id
    const isOver = !isHit && entry.end <= event.at
    // A running task that a change of rates touches ends when the new rates say so.
    const isOpen =
      event.kind === 'ratesChange' &&
      !isOver &&
      usesProfile(task, event.profileId) &&
      (task.fixed?.end ?? null) === null
    const end = isHit ? Math.max(event.end, entry.start) : isOpen ? null : entry.end
    const fixed: Fixed = {
      state: isOver ? 'done' : 'running',
      start: entry.start,
      end,
      mode: entry.mode,
      resources: entry.resources,
      overtime: entry.overtime,
    }
    return { ...task, fixed }
  }
  const tasks = problem.tasks.map(now)
  const started = new Set(
    tasks.filter((task) => task.fixed !== null && task.fixed.state !== 'locked').map((task) => task.id),
  )
  const changed: Problem = {
    ...problem,
    tasks,
    holds: problem.holds.map((hold) =>
      started.has(hold.fromTask)
        ? { ...hold, fixedResource: heldOn.get(hold.id)?.resourceId ?? hold.fixedResource }
        : hold,
    ),
    resources: problem.resources.map((resource) =>
      event.kind === 'resourceUnavailable' && event.resourceId === resource.id
        ? { ...resource, unavailable: withInterval(resource.unavailable, [event.from, event.until]) }
        : resource,
    ),
    profiles: problem.profiles.map((profile) =>
      event.kind === 'ratesChange' && event.profileId === profile.id
        ? { ...profile, points: event.points }
        : profile,
    ),
    objective: withChangePriced(problem),
  }
  if (event.kind === 'jobArrives') {
    return defineProblem({
      ...changed,
      jobs: [...changed.jobs, event.job],
      tasks: [...changed.tasks, ...event.tasks],
      lags: [...changed.lags, ...event.lags],
      holds: [...changed.holds, ...event.holds],
    })
  }
  return changed
}

const usesProfile = (task: Task, profileId: string): boolean =>
  task.modes.some(
    (mode) => mode.profileId === profileId || Object.values(mode.profileByResource).includes(profileId),
  )

/** Without a price on change a repair would move half the shop. */
function withChangePriced(problem: Problem): Problem['objective'] {
  const { objective } = problem
  if (objective.kind === 'lexicographic') {
    return objective.order.includes('change')
      ? objective
      : { ...objective, order: [...objective.order, 'change'] }
  }
  return objective.weights.change === undefined
    ? { ...objective, weights: { ...objective.weights, change: 1 } }
    : objective
}

/** Sorted union with one more interval. */
function withInterval(intervals: readonly Interval[], added: Interval): Interval[] {
  const result: [number, number][] = []
  for (const [from, until] of [...intervals, added].toSorted((a, b) => a[0] - b[0])) {
    const last = result.at(-1)
    if (last && from <= last[1]) last[1] = Math.max(last[1], until)
    else result.push([from, until])
  }
  return result
}
