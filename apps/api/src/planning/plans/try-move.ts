import {
  brokenFurther,
  check,
  solve,
  type Plan,
  type Problem,
  type Task,
  type Violation,
} from '@clampclock/planner'

export interface Move {
  readonly taskId: string
  readonly start: number
  /** Other people, in the order of its demands; as planned when left out. */
  readonly resources?: readonly string[]
  /** The stay that goes elsewhere. */
  readonly stay?: { readonly holdId: string; readonly resourceId: string }
}

export interface MoveAnswer {
  /** The whole plan with the move in it; of no use when there are violations. */
  readonly plan: Plan
  /** Rules that the move would break, or break further than they are without it. */
  readonly violations: readonly Violation[]
  /** What the checker makes of the plan with the move in it. */
  readonly values: Readonly<Record<string, number>>
}

const ITERATIONS = 40

/**
 * Moves one task of a plan: it starts when it is asked to, what follows in the same job gives way as far as it must, and
 * everything else stays. What was broken before (a fact that came otherwise) and gets no worse is not held against it.
 */
export function tryMove(problem: Problem, plan: Plan, move: Move): MoveAnswer {
  const planned = new Map(plan.tasks.map((entry) => [entry.taskId, entry]))
  const followers = followersOf(problem, move.taskId)
  const held = new Map(plan.holds.map(({ holdId, resourceId }) => [holdId, resourceId]))
  if (move.stay) held.set(move.stay.holdId, move.stay.resourceId)
  const lock = (task: Task, isFree: boolean): Task => {
    const entry = planned.get(task.id)
    if (task.fixed || !entry || isFree) return task
    const isMoved = task.id === move.taskId
    return {
      ...task,
      fixed: {
        state: 'locked',
        start: isMoved ? move.start : entry.start,
        end: null,
        mode: entry.mode,
        resources: (isMoved ? move.resources : undefined) ?? entry.resources,
        overtime: entry.overtime,
      },
    }
  }
  const settled = (free: ReadonlySet<string>): Problem => {
    const tasks = problem.tasks.map((task) => lock(task, free.has(task.id)))
    const isFixed = new Set(tasks.filter(({ fixed }) => fixed).map(({ id }) => id))
    return {
      ...problem,
      tasks,
      holds: problem.holds.map((hold) => ({
        ...hold,
        fixedResource: isFixed.has(hold.fromTask)
          ? (held.get(hold.id) ?? hold.fixedResource)
          : hold.fixedResource,
      })),
    }
  }
  const run = (free: ReadonlySet<string>) =>
    solve(settled(free), { seed: 1, stop: { iterations: ITERATIONS }, baseline: plan }).plan
  const before = check(problem, plan).violations

  const moved = run(followers)
  const verdict = check(problem, moved)
  const values = { ...verdict.values }
  const violations = brokenFurther(before, verdict.violations)
  if (!violations.some(({ rule }) => rule === 'unplanned')) return { plan: moved, violations, values }
  // Nothing fits behind it: what stands in its own way says more than that.
  const alone = brokenFurther(before, check(problem, run(new Set())).violations)
  return { plan: moved, violations: alone.length > 0 ? alone : violations, values }
}

/** All that waits for the task, within its job. */
function followersOf(problem: Problem, taskId: string): Set<string> {
  const jobOf = new Map(problem.tasks.map(({ id, jobId }) => [id, jobId]))
  const found = new Set<string>([taskId])
  for (const id of found)
    for (const { from, to } of problem.lags)
      if (from === id && jobOf.get(to) === jobOf.get(taskId)) found.add(to)
  found.delete(taskId)
  return found
}
