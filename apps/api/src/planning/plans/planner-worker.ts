import {
  check,
  defineProblem,
  repair,
  solve,
  type Plan,
  type PlannedTask,
  type Problem,
  type RepairEvent,
  type RepairOptions,
  type Result,
  type Violation,
} from '@clampclock/planner'
import type { MessagePort } from 'node:worker_threads'
import type { ShopFacts } from '../problem/facts.ts'
import { solveInTurn } from '../problem/set-aside.ts'
import { BESIDE, leaveOf } from '../problem/task-names.ts'
import { BOOKED_BY_HAND } from '../problem/translate-resources.ts'
import { translate, type Translated } from '../problem/translate.ts'
import { tryMove, type Move, type MoveAnswer } from './try-move.ts'
import type { UnplannedOrder } from '../problem/unplannable.ts'

/** Runs on a thread of its own: what plans, and whatever else takes longer than a request may keep others waiting. */

export interface SolveTask {
  readonly facts: ShopFacts
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
  /** What the answer is the answer to. */
  readonly translated: Translated
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
export async function solveShop({
  facts,
  baseline,
  seed,
  iterations,
  seconds,
  mode,
  stop,
  progress,
}: SolveTask): Promise<SolveAnswer> {
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
  const { translated, answer } = await solveInTurn(facts, async (made) => {
    const problem = defineProblem(made.problem)
    return mode === 'repair' && baseline
      ? repairShop(problem, baseline, options)
      : solve(problem, { ...options, ...(baseline ? { baseline } : {}) })
  })
  const { plan, cost, lowerBound } = answer
  const problem = defineProblem(translated.problem)
  const { violations, values } = check(problem, plan, baseline)
  return { translated, plan, violations: broken(violations, plan, problem), values, cost, lowerBound }
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

interface KeptPlan {
  /** Those of now. */
  readonly facts: ShopFacts
  /** Orders that the plan leaves out though they have begun. */
  readonly leftOut: ReadonlySet<string>
  readonly plan: Plan
}

export interface Judgement {
  readonly violations: readonly Violation[]
  /** Orders that cannot be planned any more, whether the plan has them or not. */
  readonly unplanned: readonly UnplannedOrder[]
}

export interface MovedPlan extends MoveAnswer {
  /** What the plan with the move in it is an answer to. */
  readonly problem: object
}

/** Judges a plan of another time by the facts of now. */
export function judgePlan({ facts, leftOut, plan }: KeptPlan): Judgement {
  const { problem, unplanned } = translate(facts, leftOut)
  return { violations: violationsOf(defineProblem(problem), plan), unplanned }
}

function violationsOf(defined: Problem, plan: Plan): Violation[] {
  const known = new Set(plan.tasks.map(({ taskId }) => taskId))
  // What came in since is not in the plan, and does not make it wrong.
  return broken(check(defined, withFactsOfNow(plan, defined)).violations, plan, defined).filter(
    ({ rule, taskIds }) => rule !== 'unplanned' || taskIds.some((id) => known.has(id)),
  )
}

/**
 * The plan with what has happened since: bookings by hand and bonds beside the operations are those of now, and what had
 * begun then ends when it is known to by now, so that the lags behind it say whether what follows still fits. A vehicle
 * leaves when all of that is through.
 */
function withFactsOfNow(plan: Plan, { tasks, holds, lags, jobs }: Problem): Plan {
  const known = new Set(plan.tasks.map(({ taskId }) => taskId))
  const facts = new Map(tasks.flatMap((task) => (task.fixed ? [[task.id, task.fixed] as const] : [])))
  const planned = new Map<string, PlannedTask>()
  for (const entry of plan.tasks) {
    if (entry.taskId.startsWith(`${BOOKED_BY_HAND}/`) || entry.taskId.startsWith(BESIDE)) continue
    const fact = facts.get(entry.taskId)
    if (!fact || fact.start !== entry.start) planned.set(entry.taskId, entry)
    else {
      // Of what is finished nobody is asked for any more.
      const resources = fact.state === 'done' ? fact.resources : entry.resources
      planned.set(entry.taskId, { ...entry, end: fact.end ?? entry.end, resources })
    }
  }
  const isHere = new Set(tasks.filter(({ id }) => known.has(id)).map(({ jobId }) => jobId))
  for (const { id, jobId, fixed } of tasks)
    if (fixed && (jobId === BOOKED_BY_HAND || (id.startsWith(BESIDE) && isHere.has(jobId)))) {
      const { start, end, resources } = fixed
      planned.set(id, { taskId: id, start, end: end ?? start, mode: 0, resources, overtime: false })
    }
  for (const { id } of jobs) {
    const leave = planned.get(leaveOf(id))
    if (!leave) continue
    const last = lags.filter(({ to }) => to === leave.taskId).map(({ from }) => planned.get(from)?.end ?? 0)
    const start = Math.max(leave.start, ...last)
    planned.set(leave.taskId, { ...leave, start, end: start })
  }
  const until = new Map(
    holds.flatMap((hold) => {
      const last = planned.get(hold.untilTask)
      return last ? [[hold.id, hold.until === 'end' ? last.end : last.start] as const] : []
    }),
  )
  return {
    ...plan,
    tasks: [...planned.values()],
    holds: plan.holds.map((hold) => ({ ...hold, until: until.get(hold.holdId) ?? hold.until })),
  }
}

export function movePlan({ facts, leftOut, plan, wish }: KeptPlan & { readonly wish: Move }): MovedPlan {
  const { problem } = translate(facts, leftOut)
  return { ...tryMove(defineProblem(problem), plan, wish), problem }
}
