import loadHighs from 'highs'
import { describe, expect, it } from 'vitest'
import { check } from './check/check.ts'
import { defineProblem } from './model/define-problem.ts'
import { solve } from './solve.ts'
import { exhaustiveOptimum } from './testing/exhaustive.ts'
import { disjunctiveMilp } from './testing/milp.ts'
import { randomProblem } from './testing/random-problem.ts'

const highs = await loadHighs()

/** Least cost by mixed-integer linear programming; null when there is no plan, `undefined` when it gave up. */
function milpOptimum(program: string): number | null | undefined {
  const solution = highs.solve(program, {
    output_flag: false,
    mip_rel_gap: 0,
    mip_abs_gap: 1e-6,
    mip_max_nodes: 100,
  })
  if (solution.Status === 'Infeasible') return null
  return solution.Status === 'Optimal' ? solution.ObjectiveValue : undefined
}

describe('solve against a mixed-integer linear program', () => {
  const expectOptimal = (problems: number) => {
    const outcome = {
      compared: 0,
      incomplete: 0,
      proved: 0,
      equal: 0,
      holds: 0,
      maximumLags: 0,
      impossible: 0,
    }
    for (let seed = 1; seed <= problems; seed++) {
      const problem = defineProblem(
        randomProblem(seed, { tasks: 6 + (seed % 3), horizonMinutes: 60, isTiny: true, isLinear: true }),
      )
      const result = solve(problem, { seed, stop: { iterations: 1000 } })
      // Of a complete plan's cost or less, so that windows are tight.
      const isComplete = result.plan.unplannedJobs.length === 0
      const program = disjunctiveMilp(problem, isComplete ? result.cost + 1 : Infinity)
      if (program === null) continue
      const optimum = milpOptimum(program)
      if (optimum === undefined) continue
      if (optimum === null) {
        outcome.impossible++
        expect(result.plan.unplannedJobs.length, `seed ${seed}`).toBeGreaterThan(0)
        continue
      }
      expect(result.status, `seed ${seed}`).not.toBe('infeasible')
      outcome.compared++
      expect(result.lowerBound, `seed ${seed}`).toBeLessThanOrEqual(optimum + 1e-5)
      if (!isComplete) {
        outcome.incomplete++
        continue
      }
      expect(check(problem, result.plan).feasible, `seed ${seed}`).toBe(true)
      expect(result.cost, `seed ${seed}`).toBeGreaterThanOrEqual(optimum - 1e-5)
      if (result.status === 'optimal') {
        outcome.proved++
        expect(result.cost, `seed ${seed}`).toBeCloseTo(optimum, 4)
      }
      if (result.cost <= optimum + 1e-5) outcome.equal++
      if (problem.holds.length > 0) outcome.holds++
      if (problem.lags.some((lag) => lag.maxMinutes !== null)) outcome.maximumLags++
    }
    expect(outcome.compared).toBeGreaterThan(problems * 0.66)
    expect(outcome.proved).toBeGreaterThan(problems / 4)
    expect(outcome.incomplete).toBe(0)
    expect(outcome.equal / (outcome.compared - outcome.incomplete)).toBeGreaterThan(0.95)
    expect(outcome.holds).toBeGreaterThanOrEqual(Math.floor(problems / 6))
    expect(outcome.maximumLags).toBeGreaterThanOrEqual(Math.floor(problems / 6))
  }

  it('is optimal whenever it says so, on 12 problems of up to eight tasks with constant durations', () =>
    expectOptimal(12))
  it('is optimal whenever it says so, on 60 such problems', { tags: ['long'], timeout: 120_000 }, () =>
    expectOptimal(60),
  )

  const expectTheSame = (problems: number) => {
    let compared = 0
    for (let seed = 1; seed <= problems; seed++) {
      const problem = defineProblem(
        randomProblem(seed, { tasks: 3 + (seed % 3), horizonMinutes: 30, isTiny: true, isLinear: true }),
      )
      const program = disjunctiveMilp(problem)
      const optimum = exhaustiveOptimum(problem, { mostNodes: 3000 })
      if (program === null || optimum === undefined) continue
      const other = milpOptimum(program)
      if (other === undefined) continue
      compared++
      if (optimum === null) expect(other, `seed ${seed}`).toBeNull()
      else expect(other, `seed ${seed}`).toBeCloseTo(optimum, 4)
    }
    expect(compared).toBeGreaterThan(problems / 2)
  }

  it('says the same as exhaustive search, so that the two oracles watch each other, on 15 problems', () =>
    expectTheSame(15))
  it('says the same as exhaustive search, on 60', { tags: ['long'], timeout: 120_000 }, () =>
    expectTheSame(60),
  )

  it('proves that nothing is below an optimum by asking only for what costs less', () => {
    const problem = defineProblem({
      horizonMinutes: 20,
      resources: [{ id: 'saw' }],
      jobs: ['a', 'b', 'c'].map((id) => ({ id, dueAt: 4, weight: 2 })),
      tasks: ['a', 'b', 'c'].map((id) => ({
        id,
        jobId: id,
        modes: [{ work: 3, demands: [{ anyOf: ['saw'] }] }],
      })),
    })
    // Done at 3, 6 and 9: 2 and 5 minutes late, at 2 a minute.
    expect(milpOptimum(disjunctiveMilp(problem)!)).toBeCloseTo(14, 4)
    expect(milpOptimum(disjunctiveMilp(problem, 15)!)).toBeCloseTo(14, 4)
    expect(milpOptimum(disjunctiveMilp(problem, 14)!)).toBeNull()
  })
})
