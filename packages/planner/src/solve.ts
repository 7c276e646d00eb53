import { asJobShop, type JobShop } from './jobshop/instance.ts'
import { jobShopPlan } from './jobshop/plan.ts'
import { solveJobShop } from './jobshop/solve.ts'
import { solveTardiness } from './jobshop/tardiness.ts'
import type { ObjectiveValues, Plan, Result } from './model/plan.ts'
import type { Problem } from './model/problem.ts'
import { isOnly, weightOf } from './model/structure.ts'
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
  const isClassical = options.baseline === undefined
  if (isClassical && isOnly(problem, 'makespan')) {
    const shop = asJobShop(problem)
    const weight = weightOf(problem, 'makespan')
    if (shop) {
      const { best, bound, isOptimal } = solveJobShop(shop, seed, budget, (better) =>
        options.onImprovement?.(jobShopPlan(problem, better), better.makespan * weight),
      )
      const engine = shop.isFlexible ? 'flexible-tabu' : 'block-tabu'
      return classicalResult(
        problem,
        jobShopPlan(problem, best),
        isOptimal ? best.makespan : bound,
        'makespan',
        budget,
        engine,
      )
    }
    const project = asProject(problem)
    if (project) {
      const { start, bound } = solveProject(project, seed, budget, (better, value) =>
        options.onImprovement?.(projectPlan(problem, better), value * weight),
      )
      return classicalResult(
        problem,
        projectPlan(problem, start),
        bound,
        'makespan',
        budget,
        'genetic-justification',
      )
    }
  }
  if (isClassical && isOnly(problem, 'weightedTardiness')) {
    const shop = asJobShop(problem)
    if (shop && !shop.isFlexible && isOneChainAJob(problem, shop)) {
      const weight = weightOf(problem, 'weightedTardiness')
      const { best, bound } = solveTardiness(problem, shop, seed, budget, (better, value) =>
        options.onImprovement?.(jobShopPlan(problem, better), value * weight),
      )
      return classicalResult(
        problem,
        jobShopPlan(problem, best),
        bound,
        'weightedTardiness',
        budget,
        'tardiness-annealing',
      )
    }
  }
  return solveShop(problem, {
    seed,
    budget,
    progress: () => budget.progress(),
    baseline: options.baseline ?? null,
    onImprovement: options.onImprovement ?? null,
  })
}

function classicalResult(
  problem: Problem,
  plan: Plan,
  bound: number,
  term: 'makespan' | 'weightedTardiness',
  budget: Budget,
  engine: string,
): Result {
  const values = valuesOf(problem, plan)
  const cost = values[term] * weightOf(problem, term)
  const lowerBound = bound * weightOf(problem, term)
  return {
    status: cost <= lowerBound ? 'optimal' : 'feasible',
    plan,
    values,
    cost,
    lowerBound,
    gap: cost <= 0 ? 0 : (cost - lowerBound) / cost,
    iterations: budget.iterations,
    schedules: budget.schedules,
    engine,
  }
}

/** Makespan and tardiness; a classical problem has nothing else to price. */
function valuesOf(problem: Problem, plan: Plan): ObjectiveValues {
  const end = new Map<string, number>()
  plan.tasks.forEach((entry, i) => {
    const { jobId } = problem.tasks[i]!
    end.set(jobId, Math.max(end.get(jobId) ?? 0, entry.end))
  })
  const weightedTardiness = problem.jobs.reduce(
    (sum, job) =>
      job.dueAt === null ? sum : sum + job.weight * Math.max(0, (end.get(job.id) ?? 0) - job.dueAt),
    0,
  )
  return {
    weightedTardiness,
    shortage: 0,
    waste: 0,
    overtime: 0,
    change: 0,
    makespan: Math.max(0, ...end.values()),
  }
}

/** Whether each job is one chain, so that its last operation is its end. */
function isOneChainAJob(problem: Problem, shop: JobShop): boolean {
  const ends = problem.tasks.filter((_, i) => shop.after[i] === shop.n).map((task) => task.jobId)
  return (
    new Set(ends).size === ends.length &&
    problem.tasks.every(
      (task, i) => shop.after[i] === shop.n || problem.tasks[shop.after[i]!]!.jobId === task.jobId,
    )
  )
}
