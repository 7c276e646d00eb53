import { asJobShop } from './jobshop/instance.ts'
import { jobShopPlan } from './jobshop/plan.ts'
import { solveJobShop } from './jobshop/solve.ts'
import type { Plan, Result } from './model/plan.ts'
import type { Problem } from './model/problem.ts'
import { makespanWeight } from './model/structure.ts'
import { solveProject } from './project/genetic.ts'
import { asProject } from './project/instance.ts'
import { projectPlan } from './project/plan.ts'
import { solveShop } from './shop/solve.ts'
import { Budget, type Stop } from './search/budget.ts'

export interface SolveOptions {
  /** Same seed and same iteration or schedule budget: same plan, on every machine. */
  readonly seed?: number
  readonly stop: Stop
  /** A clock in milliseconds, for `stop.milliseconds`. The package reads none itself. */
  readonly nowMs?: () => number
  /** Asked often; true ends the search with the best plan so far. */
  readonly shouldStop?: () => boolean
  /** Called with each better plan. */
  readonly onImprovement?: (plan: Plan, cost: number) => void
  /** The published plan, from which changes are priced. */
  readonly baseline?: Plan
}

/** Finds the best plan the budget allows, with a proved lower bound of its cost. */
export function solve(problem: Problem, options: SolveOptions): Result {
  const budget = new Budget(options.stop, options.nowMs ?? null, options.shouldStop ?? null)
  const seed = options.seed ?? 1
  const shop = asJobShop(problem)
  const weight = makespanWeight(problem)
  const finish = (plan: Plan, makespan: number, bound: number, engine: string): Result => ({
    status: makespan <= bound ? 'optimal' : 'feasible',
    plan,
    values: { weightedTardiness: 0, shortage: 0, waste: 0, overtime: 0, change: 0, makespan },
    cost: makespan * weight,
    lowerBound: bound * weight,
    gap: makespan === 0 ? 0 : (makespan - bound) / makespan,
    iterations: budget.iterations,
    schedules: budget.schedules,
    engine,
  })
  if (shop && !options.baseline) {
    const { best, bound, isOptimal } = solveJobShop(shop, seed, budget, (better) =>
      options.onImprovement?.(jobShopPlan(problem, better), better.makespan * weight),
    )
    return finish(
      jobShopPlan(problem, best),
      best.makespan,
      isOptimal ? best.makespan : bound,
      shop.isFlexible ? 'flexible-tabu' : 'block-tabu',
    )
  }
  const project = asProject(problem)
  if (project && !options.baseline) {
    const { start, makespan, bound } = solveProject(project, seed, budget, (better, value) =>
      options.onImprovement?.(projectPlan(problem, better), value * weight),
    )
    return finish(projectPlan(problem, start), makespan, bound, 'genetic-justification')
  }
  return solveShop(problem, {
    seed,
    budget,
    progress: () => budget.progress(),
    baseline: options.baseline ?? null,
    onImprovement: options.onImprovement ?? null,
  })
}
