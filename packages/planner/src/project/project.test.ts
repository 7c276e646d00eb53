import { describe, expect, it } from 'vitest'
import { check } from '../check/check.ts'
import { defineProblem } from '../model/define-problem.ts'
import type { Problem } from '../model/problem.ts'
import { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { projectBound } from './bounds.ts'
import { solveProject } from './genetic.ts'
import { asProject } from './instance.ts'
import { projectPlan } from './plan.ts'
import { SerialScheme } from './scheme.ts'

function randomProject(seed: number, n: number): Problem {
  const random = new Random(seed)
  return defineProblem({
    horizonMinutes: 5000,
    resources: [
      { id: 'r', capacity: 4 },
      { id: 's', capacity: 3 },
    ],
    jobs: [{ id: 'p' }],
    tasks: Array.from({ length: n }, (_, i) => ({
      id: `a${i}`,
      jobId: 'p',
      modes: [
        {
          work: random.below(8),
          demands: [
            { anyOf: ['r'], units: 1 + random.below(4) },
            { anyOf: ['s'], units: 1 + random.below(3) },
          ].slice(0, 1 + random.below(2)),
        },
      ],
    })),
    lags: Array.from({ length: n * 2 }, () => [random.below(n), random.below(n)] as const)
      .filter(([a, b]) => a < b)
      .map(([a, b]) => ({ from: `a${a}`, to: `a${b}` })),
    objective: { kind: 'weighted', weights: { makespan: 1 } },
  })
}

describe('project search', () => {
  it('justifies to schedules that are feasible and never longer', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const problem = randomProject(seed, 25)
      const project = asProject(problem)!
      const scheme = new SerialScheme(project)
      const list = Int32Array.from(project.topological)
      const start = new Int32Array(project.n)
      const before = scheme.forward(list, start)
      scheme.sort(list, before, (i) => start[i]!)
      const after = scheme.justify(list, start, before)
      expect(after).toBeLessThanOrEqual(before)
      expect(check(problem, projectPlan(problem, start)).violations).toEqual([])
      expect(scheme.passes).toBe(3)
    }
  })

  it('keeps to the schedule limit and the bound, and repeats itself for a seed', () => {
    for (let seed = 1; seed <= 15; seed++) {
      const problem = randomProject(seed, 20)
      const project = asProject(problem)!
      const run = (): ReturnType<typeof solveProject> & { spent: number } => {
        const budget = new Budget({ schedules: 600 }, null, null)
        return { ...solveProject(project, seed, budget, () => undefined), spent: budget.schedules }
      }
      const once = run()
      expect(once.spent).toBeLessThanOrEqual(603)
      expect(once.makespan).toBeGreaterThanOrEqual(projectBound(project))
      expect(check(problem, projectPlan(problem, once.start)).feasible).toBe(true)
      expect(run()).toEqual(once)
    }
  })

  it('is only for single-mode projects', () => {
    const problem = randomProject(1, 5)
    const [first, ...rest] = problem.tasks
    expect(
      asProject({ ...problem, tasks: [{ ...first!, modes: [first!.modes[0]!, first!.modes[0]!] }, ...rest] }),
    ).toBeNull()
  })
})
