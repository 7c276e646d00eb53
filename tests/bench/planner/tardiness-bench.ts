import loadHighs from 'highs'
import { check, defineProblem, solve, type Problem, type Stop } from '../../../packages/planner/src/index.ts'
import { disjunctiveMilp } from '../../../packages/planner/src/testing/milp.ts'
import { readJobShop } from './read-instance.ts'
import { randomShopText } from './taillard.ts'

/** Weights 4, 2, 1 for the first fifth, the next three fifths and the last fifth; due at 1.3 x work (Singer & Pinedo 1998). */
export function withTardiness(problem: Problem): Problem {
  const count = problem.jobs.length
  const work = (jobId: string): number =>
    problem.tasks.reduce((sum, task) => (task.jobId === jobId ? sum + task.modes[0]!.work : sum), 0)
  return defineProblem({
    ...problem,
    horizonMinutes: problem.horizonMinutes * 2,
    jobs: problem.jobs.map((job, j) => ({
      ...job,
      weight: j < count / 5 ? 4 : j < (4 * count) / 5 ? 2 : 1,
      dueAt: Math.floor(1.3 * work(job.id)),
    })),
    objective: { kind: 'weighted', weights: { weightedTardiness: 1 } },
  })
}

/** Five shops of 5 jobs on 5 machines and five of 6 on 6, by Taillard's generator, seeded by their number. */
const small = [5, 5, 5, 5, 5, 6, 6, 6, 6, 6].map((size, k) => ({
  name: `${size}x${size}-${k + 1}`,
  problem: withTardiness(defineProblem(readJobShop(randomShopText(size, size, 1000 + k, 2000 + k)))),
}))

/**
 * The engine beside an exact method: the disjunctive mixed-integer program by HiGHS, which knows of the engine only the
 * cost that its answer must not exceed. Without a proof in `exactSeconds` an instance has no gap.
 */
export async function benchTardiness(
  seed: number,
  stop: Stop,
  nowMs: () => number,
  exactSeconds: number,
): Promise<Record<string, unknown>> {
  const highs = await loadHighs()
  const gaps: number[] = []
  let infeasible = 0
  for (const { name, problem } of small) {
    const begun = nowMs()
    const result = solve(problem, { seed, stop, nowMs })
    const ms = nowMs() - begun
    const isFeasible = check(problem, result.plan).feasible
    if (!isFeasible) infeasible++
    const exactBegun = nowMs()
    const exact = highs.solve(disjunctiveMilp(problem, result.cost + 1)!, {
      output_flag: false,
      mip_rel_gap: 0,
      time_limit: exactSeconds,
    })
    const exactMs = nowMs() - exactBegun
    const optimum = exact.Status === 'Optimal' ? Math.round(exact.ObjectiveValue) : null
    const gap = optimum === null ? null : (result.cost - optimum) / Math.max(1, optimum)
    if (gap !== null) gaps.push(gap)
    console.log(
      `${name.padEnd(8)} cost ${result.cost} in ${ms.toFixed(0)} ms  optimum ${optimum ?? 'not proved'} in ${exactMs.toFixed(0)} ms  ` +
        `gap ${gap === null ? '-' : `${(100 * gap).toFixed(2)} %`}  ${isFeasible ? 'checked' : 'NOT FEASIBLE'}`,
    )
  }
  return {
    suite: 'tardiness-small',
    instances: small.length,
    proved: gaps.length,
    meanGap: gaps.length === 0 ? null : gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length,
    meanOverCriticalPath: null,
    optimal: gaps.filter((gap) => gap === 0).length,
    infeasible,
  }
}
