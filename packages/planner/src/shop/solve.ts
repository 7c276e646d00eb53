import type { ObjectiveValues, Plan, Result, Status } from '../model/plan.ts'
import type { Problem } from '../model/problem.ts'
import type { Budget } from '../search/budget.ts'
import { Snapshot } from './board.ts'
import { costBound, groupBounds, relax, shopBounds, type Relaxation } from './bound.ts'
import { compile } from './compile.ts'
import type { Compiled } from './compiled.ts'
import { shopPlan } from './plan.ts'
import { publishedFrom } from './published.ts'
import { ShopSearch } from './ruin-recreate.ts'

export interface ShopOptions {
  readonly seed: number
  readonly budget: Budget
  readonly progress: () => number
  readonly baseline: Plan | null
  readonly onImprovement: ((plan: Plan, cost: number) => void) | null
}

/** Weighted sum, or first level, of the objective: what `Result.cost` reports. */
function reportedCost(problem: Problem, values: ObjectiveValues): number {
  const { objective } = problem
  if (objective.kind === 'lexicographic') return values[objective.order[0]!]
  return Object.entries(values).reduce(
    (sum, [term, value]) => sum + value * (Reflect.get(objective.weights, term) ?? 0),
    0,
  )
}

/** Solves any problem of the model by insertion and ruin and recreate. */
export function solveShop(problem: Problem, options: ShopOptions): Result {
  const compiled = compile(problem)
  const published = options.baseline === null ? null : publishedFrom(compiled, options.baseline)
  const search: ShopSearch = new ShopSearch(compiled, {
    seed: options.seed,
    budget: options.budget,
    published,
    progress: options.progress,
    onImprovement: () => options.onImprovement?.(shopPlan(compiled, search.best), search.bestCost),
  })
  search.construct(0, 0)
  const relaxation = relax(compiled)
  const lowerBound = costBound(problem, shopBounds(compiled, relaxation))
  // Only a bound on the whole objective may end the search; of a lexicographic one it bounds the first level alone.
  const isWhole = problem.objective.kind === 'weighted' || problem.objective.order.length === 1
  search.setBounds(isWhole ? lowerBound : -Infinity, groupBounds(compiled, relaxation))
  if (relaxation.conflict === null) {
    search.construct(1)
    search.squeak(100)
    search.improve()
  }
  return finish(problem, compiled, search, relaxation, lowerBound, isWhole, options)
}

/** Repairs a published plan (the baseline): what can stays where it was, the rest is searched near by. */
export function repairShop(problem: Problem, options: ShopOptions & { readonly baseline: Plan }): Result {
  const compiled = compile(problem)
  const published = publishedFrom(compiled, options.baseline)
  const search: ShopSearch = new ShopSearch(compiled, {
    seed: options.seed,
    budget: options.budget,
    published,
    progress: options.progress,
    onImprovement: () => options.onImprovement?.(shopPlan(compiled, search.best), search.bestCost),
  })
  const moved = search.followPublished(published)
  const relaxation = relax(compiled)
  const lowerBound = costBound(problem, shopBounds(compiled, relaxation))
  const isWhole = problem.objective.kind === 'weighted' || problem.objective.order.length === 1
  search.setBounds(isWhole ? lowerBound : -Infinity, groupBounds(compiled, relaxation))
  if (moved.length > 0) search.improve(search.neighbourhood(moved))
  return finish(problem, compiled, search, relaxation, lowerBound, isWhole, options)
}

function finish(
  problem: Problem,
  compiled: Compiled,
  search: ShopSearch,
  relaxation: Relaxation,
  lowerBound: number,
  isWhole: boolean,
  options: ShopOptions,
): Result {
  search.goToBest()
  const plan = shopPlan(compiled, new Snapshot(search.board))
  const values = search.cost.values()
  const cost = reportedCost(problem, values)
  let status: Status = 'feasible'
  if (relaxation.conflict !== null) status = 'infeasible'
  else if (plan.unplannedJobs.length > 0) status = 'incomplete'
  else if (isWhole && cost <= lowerBound + 1e-9) status = 'optimal'
  return {
    status,
    plan,
    values,
    cost,
    lowerBound,
    gap: plan.unplannedJobs.length > 0 ? 1 : cost <= 0 ? 0 : Math.max(0, (cost - lowerBound) / cost),
    iterations: options.budget.iterations,
    schedules: options.budget.schedules,
    engine: 'ruin-recreate',
  }
}
