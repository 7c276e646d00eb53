import {
  check,
  defineProblem,
  repair,
  solve,
  type Plan,
  type Problem,
  type RepairEvent,
  type RepairOptions,
  type Result,
  type Violation,
} from '@clampclock/planner'
import type { MessagePort } from 'node:worker_threads'
import { BOOKED_BY_HAND } from './translate-resources.ts'
import { tryMove, type Move } from './try-move.ts'

/** Runs on a thread of its own: what plans, and whatever else takes longer than a request may keep others waiting. */

export interface SolveTask {
  readonly problem: object
  readonly baseline: Plan | null
  readonly seed: number
  readonly iterations: number
  readonly seconds: number
  readonly mode: 'anew' | 'repair'
  /** Non-zero asks to stop. */
  readonly stop: Int32Array
  readonly progress: MessagePort
}

export interface SolveAnswer {
  readonly plan: Plan
  readonly violations: readonly Violation[]
  readonly values: Readonly<Record<string, number>>
  readonly cost: number
  readonly lowerBound: number
}

export interface Improvement {
  readonly cost: number
  readonly improvements: number
}

/** Tells of improvements at most so often, ms. */
const TELL_EVERY_MS = 200

/** Solves, and has the plan judged by the checker, which shares no code with the solver. */
export function solveShop({
  problem: json,
  baseline,
  seed,
  iterations,
  seconds,
  mode,
  stop,
  progress,
}: SolveTask): SolveAnswer {
  const problem = defineProblem(json)
  let improvements = 0
  let toldAt = -Infinity
  const options = {
    seed,
    stop: { milliseconds: seconds * 1000, iterations },
    nowMs: () => performance.now(),
    shouldStop: () => Atomics.load(stop, 0) !== 0,
    onImprovement: (_plan: Plan, cost: number) => {
      improvements += 1
      if (performance.now() - toldAt < TELL_EVERY_MS) return
      toldAt = performance.now()
      progress.postMessage({ cost, improvements } satisfies Improvement)
    },
  }
  const result =
    mode === 'repair' && baseline
      ? repairShop(problem, baseline, options)
      : solve(problem, { ...options, ...(baseline ? { baseline } : {}) })
  const { plan, cost, lowerBound } = result
  const { violations, values } = check(problem, plan, baseline)
  return { plan, violations: broken(violations, plan, problem), values, cost, lowerBound }
}

/**
 * What happened is in the problem already, as facts: the repair's event only says that now is minute 0. Everything that
 * still can stays exactly where it is published.
 */
function repairShop(problem: Problem, baseline: Plan, options: RepairOptions): Result {
  const [profile] = problem.profiles
  const [resource] = problem.resources
  const event: RepairEvent = profile
    ? { kind: 'ratesChange', at: 0, profileId: profile.id, points: profile.points }
    : { kind: 'resourceUnavailable', at: 0, resourceId: resource!.id, from: NEVER, until: NEVER + 1 }
  return repair(problem, baseline, event, options).result
}

/** Beyond any horizon. */
const NEVER = 2 ** 29

/** What an order that found no place lacks is told by its name, not by each of its operations. */
function broken(violations: readonly Violation[], plan: Plan, problem: Problem): Violation[] {
  const left = new Set(plan.unplannedJobs)
  const jobs = new Map(problem.tasks.map(({ id, jobId }) => [id, jobId]))
  return violations.filter(
    ({ rule, taskIds }) => rule !== 'unplanned' || !taskIds.every((id) => left.has(jobs.get(id) ?? '')),
  )
}

/** Judges a plan of another time by the facts of now. */
export function checkPlan({ problem, plan }: { readonly problem: object; readonly plan: Plan }): Violation[] {
  const defined = defineProblem(problem)
  const known = new Set(plan.tasks.map(({ taskId }) => taskId))
  // Bookings by hand are numbered as they come; those of now count, not those of then.
  const byHand = defined.tasks.flatMap(({ id, jobId, fixed }) =>
    jobId === BOOKED_BY_HAND && fixed
      ? [
          {
            taskId: id,
            start: fixed.start,
            end: fixed.end ?? fixed.start,
            mode: 0,
            resources: fixed.resources,
            overtime: false,
          },
        ]
      : [],
  )
  const tasks = [...plan.tasks.filter(({ taskId }) => !taskId.startsWith(`${BOOKED_BY_HAND}/`)), ...byHand]
  // What came in since is not in the plan, and does not make it wrong.
  return broken(check(defined, { ...plan, tasks }).violations, plan, defined).filter(
    ({ rule, taskIds }) => rule !== 'unplanned' || taskIds.some((id) => known.has(id)),
  )
}

export function move({
  problem,
  plan,
  wish,
}: {
  readonly problem: object
  readonly plan: Plan
  readonly wish: Move
}) {
  return tryMove(defineProblem(problem), plan, wish)
}
