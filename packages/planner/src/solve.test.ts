import { describe, expect, it } from 'vitest'
import { check } from './check/check.ts'
import { defineProblem } from './model/define-problem.ts'
import { solve } from './solve.ts'
import { exhaustiveOptimum } from './testing/exhaustive.ts'
import { randomProblem } from './testing/random-problem.ts'

describe('solve', () => {
  const expectAccepted = (problems: number) => {
    let planned = 0
    for (let seed = 1; seed <= problems; seed++) {
      const problem = defineProblem(
        randomProblem(seed, { tasks: 4 + (seed % 17), horizonMinutes: 600, isTiny: false }),
      )
      const result = solve(problem, { seed, stop: { iterations: 40 } })
      const verdict = check(problem, result.plan)
      const faults = verdict.violations.filter((violation) => violation.rule !== 'unplanned')
      expect(faults, `seed ${seed}`).toEqual([])
      if (result.status !== 'feasible' && result.status !== 'optimal') continue
      expect(result.lowerBound, `seed ${seed}`).toBeLessThanOrEqual(result.cost + 1e-9)
      planned++
      expect(verdict.feasible, `seed ${seed}`).toBe(true)
      for (const term of ['weightedTardiness', 'makespan', 'overtime'] as const) {
        expect(result.values[term], `seed ${seed} ${term}`).toBeCloseTo(verdict.values[term], 6)
      }
    }
    expect(planned).toBeGreaterThan(problems * 0.9)
  }

  it('returns only plans the checker accepts, and never a bound above their cost, on 150 random problems', () =>
    expectAccepted(150))
  it('does so on 1,000 random problems', { tags: ['long'], timeout: 120_000 }, () => expectAccepted(1000))

  it('is optimal whenever it says so, by exhaustive search over tiny problems', () => {
    const outcome = { compared: 0, incomplete: 0, proved: 0, equal: 0 }
    for (let seed = 1; seed <= 100; seed++) {
      const problem = defineProblem(
        randomProblem(seed, { tasks: 2 + (seed % 5), horizonMinutes: 26, isTiny: true }),
      )
      const optimum = exhaustiveOptimum(problem, { mostNodes: 4000 })
      if (optimum === undefined) continue
      const result = solve(problem, { seed, stop: { iterations: 300 } })
      if (result.status === 'infeasible') expect(optimum, `seed ${seed}`).toBeNull()
      if (optimum === null) {
        expect(result.plan.unplannedJobs.length, `seed ${seed}`).toBeGreaterThan(0)
        continue
      }
      outcome.compared++
      expect(result.lowerBound, `seed ${seed}`).toBeLessThanOrEqual(optimum + 1e-9)
      if (result.plan.unplannedJobs.length > 0) {
        outcome.incomplete++
        continue
      }
      expect(result.cost, `seed ${seed}`).toBeGreaterThanOrEqual(optimum - 1e-9)
      if (result.status === 'optimal') {
        outcome.proved++
        expect(result.cost, `seed ${seed}`).toBeCloseTo(optimum, 9)
      }
      if (Math.abs(result.cost - optimum) < 1e-9) outcome.equal++
    }
    expect(outcome.compared).toBeGreaterThan(40)
    expect(outcome.proved).toBeGreaterThan(20)
    expect(outcome.incomplete).toBe(0)
    expect(outcome.equal / outcome.compared).toBeGreaterThan(0.95)
  }, 120_000)

  it('is optimal whenever it says so, by exhaustive search over seven and eight tasks', () => {
    const outcome = { compared: 0, proved: 0, equal: 0, calendars: 0, cures: 0, holds: 0, maximumLags: 0 }
    for (let seed = 1; seed <= 150; seed++) {
      const problem = defineProblem(
        randomProblem(seed, { tasks: 7 + (seed % 2), horizonMinutes: 40, isTiny: true }),
      )
      const result = solve(problem, { seed, stop: { iterations: 300 } })
      if (result.plan.unplannedJobs.length > 0) {
        // A job may be left out only where no plan has them all.
        expect(exhaustiveOptimum(problem, { mostNodes: 30_000 }), `seed ${seed}`).toBeNull()
        continue
      }
      // The plan is there and judged; what is left to ask is whether any plan costs less.
      expect(check(problem, result.plan).feasible, `seed ${seed}`).toBe(true)
      const better = exhaustiveOptimum(problem, { mostNodes: 3000, below: result.cost })
      if (better === undefined) continue
      const optimum = better ?? result.cost
      outcome.compared++
      expect(result.lowerBound, `seed ${seed}`).toBeLessThanOrEqual(optimum + 1e-9)
      if (result.status === 'optimal') {
        outcome.proved++
        expect(result.cost, `seed ${seed}`).toBeCloseTo(optimum, 9)
      }
      if (better === null) outcome.equal++
      const calendars = new Set(problem.resources.flatMap(({ id, calendarId }) => (calendarId ? [id] : [])))
      const modes = problem.tasks.flatMap((task) => task.modes)
      if (modes.some((mode) => mode.demands.some(({ anyOf }) => anyOf.some((id) => calendars.has(id)))))
        outcome.calendars++
      if (modes.some((mode) => mode.profileId !== null)) outcome.cures++
      if (problem.holds.length > 0) outcome.holds++
      if (problem.lags.some((lag) => lag.maxMinutes !== null)) outcome.maximumLags++
    }
    expect(outcome.compared).toBeGreaterThan(40)
    expect(outcome.proved).toBeGreaterThan(20)
    expect(outcome.equal / outcome.compared).toBeGreaterThan(0.95)
    for (const kind of ['calendars', 'cures', 'holds', 'maximumLags'] as const)
      expect(outcome[kind], kind).toBeGreaterThan(10)
  }, 120_000)

  it('gives the same plan for the same seed and iterations', () => {
    const problem = defineProblem(randomProblem(7, { tasks: 20, horizonMinutes: 600, isTiny: false }))
    const once = solve(problem, { seed: 3, stop: { iterations: 200 } })
    const again = solve(problem, { seed: 3, stop: { iterations: 200 } })
    expect(again).toEqual(once)
  })

  it('hands out each better plan as it is found', () => {
    const problem = defineProblem(randomProblem(11, { tasks: 20, horizonMinutes: 600, isTiny: false }))
    const costs: number[] = []
    const result = solve(problem, {
      seed: 1,
      stop: { iterations: 300 },
      onImprovement: (_, cost) => costs.push(cost),
    })
    expect(costs.length).toBeGreaterThan(0)
    expect(costs).toEqual(costs.toSorted((a, b) => b - a))
    expect(
      check(problem, result.plan).violations.filter((violation) => violation.rule !== 'unplanned'),
    ).toEqual([])
  })

  it('plans nothing when there is nothing to plan', () => {
    for (const weights of [{ makespan: 1 }, { weightedTardiness: 1 }]) {
      const problem = defineProblem({
        horizonMinutes: 10,
        jobs: [{ id: 'empty', dueAt: 5 }],
        objective: { kind: 'weighted', weights },
      })
      expect(solve(problem, { stop: { iterations: 5 } })).toMatchObject({
        status: 'optimal',
        cost: 0,
        plan: { tasks: [] },
      })
    }
  })

  it('stops when told to', () => {
    const problem = defineProblem(randomProblem(11, { tasks: 20, horizonMinutes: 600, isTiny: false }))
    let asked = 0
    const result = solve(problem, { stop: {}, shouldStop: () => ++asked > 3 })
    expect(result.iterations).toBeLessThan(200)
  })

  it('needs a clock for a limit in milliseconds', () => {
    const problem = defineProblem(randomProblem(1, { tasks: 5, horizonMinutes: 600, isTiny: false }))
    expect(() => solve(problem, { stop: { milliseconds: 5 } })).toThrow('options.nowMs')
  })
})
