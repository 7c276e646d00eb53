import { Explainer } from '../explain/explain.ts'
import type { Plan, PlannedTask, Result } from '../model/plan.ts'
import type { Problem } from '../model/problem.ts'
import { Budget, type Stop } from '../search/budget.ts'
import { repairShop } from '../shop/solve.ts'
import { applyEvent, type RepairEvent } from './event.ts'

export interface RepairOptions {
  readonly seed?: number
  /** Search after the first repaired plan; 400 iterations unless told. */
  readonly stop?: Stop
  readonly nowMs?: () => number
  readonly shouldStop?: () => boolean
  /** Called with each better repaired plan, the first of them at once. */
  readonly onImprovement?: (plan: Plan, cost: number) => void
}

/** A task that no longer starts when or runs where it was published. */
export interface MovedTask {
  readonly taskId: string
  readonly before: PlannedTask
  readonly after: PlannedTask
  readonly minutesLater: number
  /** Why it now starts when it does, in words. */
  readonly because: string
}

export interface Repair {
  /** The problem after the event, with facts fixed: what the new plan is a plan of. */
  readonly problem: Problem
  readonly result: Result
  readonly moved: readonly MovedTask[]
  /** Tasks of the published plan that stand exactly as published. */
  readonly unmoved: number
}

/**
 * Repairs a published plan after one event: facts are frozen, whatever still can stays exactly where it was, the rest
 * shifts right to the nearest room, and then a search with a price on every change looks for better near by.
 */
export function repair(
  problem: Problem,
  plan: Plan,
  event: RepairEvent,
  options: RepairOptions = {},
): Repair {
  const after = applyEvent(problem, plan, event)
  const budget = new Budget(
    options.stop ?? { iterations: 400 },
    options.nowMs ?? null,
    options.shouldStop ?? null,
  )
  const result = repairShop(after, {
    seed: options.seed ?? 1,
    budget,
    progress: () => budget.progress(),
    baseline: plan,
    onImprovement: options.onImprovement ?? null,
  })
  const now = new Map(result.plan.tasks.map((entry) => [entry.taskId, entry]))
  const explainer = new Explainer(after, result.plan)
  const moved = plan.tasks.flatMap((before): MovedTask[] => {
    const entry = now.get(before.taskId)
    if (!entry) return []
    if (entry.start === before.start && entry.resources.every((name, d) => name === before.resources[d]))
      return []
    const because = explainer.explain(before.taskId).text
    return [
      { taskId: before.taskId, before, after: entry, minutesLater: entry.start - before.start, because },
    ]
  })
  return { problem: after, result, moved, unmoved: plan.tasks.length - moved.length }
}
