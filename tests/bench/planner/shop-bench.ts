import { check, defineProblem, solve, type Problem, type Stop } from '../../../packages/planner/src/index.ts'
import { repairShop } from './repair-shop.ts'

/** Plans one synthetic shop, prints what was reached when, and returns the line for the summary. */
export function benchShop(
  vehicles: number,
  seed: number,
  load: number,
  stop: Stop,
  nowMs: () => number,
): Record<string, unknown> {
  const problem = defineProblem(repairShop(vehicles, seed, load))
  const begun = nowMs()
  const reached: [ms: number, cost: number][] = []
  const result = solve(problem, {
    seed,
    stop,
    nowMs,
    onImprovement: (_, cost) => reached.push([nowMs() - begun, cost]),
  })
  const verdict = check(problem, result.plan)
  const at = (ms: number): number => reached.findLast(([when]) => when <= ms)?.[1] ?? Infinity
  console.log(
    `shop ${vehicles}: first plan ${reached[0]![0].toFixed(1)} ms at ${reached[0]![1].toFixed(0)}; ` +
      [0.1, 0.5, 1, 2, 5, 10, 20, 60]
        .filter((s) => s * 1000 <= (stop.milliseconds ?? 0))
        .map((s) => `${s} s ${at(s * 1000).toFixed(0)}`)
        .join(', ') +
      `; bound ${result.lowerBound}; ${result.iterations} it; unplanned ${result.plan.unplannedJobs.length}; ${verdict.feasible ? 'checked' : 'NOT FEASIBLE'}`,
  )
  for (const violation of verdict.violations.slice(0, 5)) console.log(`  ${violation.message}`)
  const isSame = Math.abs(verdict.values.weightedTardiness - result.values.weightedTardiness) < 1e-6
  if (!isSame)
    console.log(
      `  checker's tardiness ${verdict.values.weightedTardiness}, solver's ${result.values.weightedTardiness}`,
    )
  const warmFirstPlanMs = warmFirstPlan(problem, seed, nowMs)
  console.log(`  first plan when warm: ${warmFirstPlanMs.toFixed(1)} ms`)
  return {
    suite: `shop-${vehicles}`,
    instances: 1,
    firstPlanMs: reached[0]![0],
    warmFirstPlanMs,
    cost: result.cost,
    lowerBound: result.lowerBound,
    meanGap: null,
    meanOverCriticalPath: null,
    optimal: result.status === 'optimal' ? 1 : 0,
    infeasible: verdict.feasible && isSame ? 0 : 1,
  }
}

/** Median time of a first plan in a process that has planned before, as a service has. */
function warmFirstPlan(problem: Problem, seed: number, nowMs: () => number): number {
  const times = Array.from({ length: 21 }, () => {
    const begun = nowMs()
    let first = Infinity
    solve(problem, {
      seed,
      stop: { iterations: 1 },
      onImprovement: () => (first = Math.min(first, nowMs() - begun)),
    })
    return first
  })
  return times.toSorted((a, b) => a - b)[times.length >> 1]!
}
