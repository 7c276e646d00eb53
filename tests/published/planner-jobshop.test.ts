import { describe, expect, it } from 'vitest'
import { check, defineProblem, solve, type Plan } from '../../packages/planner/src/index.ts'
import { readFlexibleJobShop, readJobShop } from '../bench/planner/read-instance.ts'
import { taillardShops } from '../bench/planner/taillard.ts'
import { ft06, ft10, la01, la02, la03, la04, la05 } from './planner-tables.ts'

const tables = { ft06, ft10, la01, la02, la03, la04, la05 }

const problemOf = (text: string): ReturnType<typeof defineProblem> => defineProblem(readJobShop(text))

/** Starts of every operation, job by job, as a plan of the problem. */
function planOf(problem: ReturnType<typeof defineProblem>, starts: readonly (readonly number[])[]): Plan {
  const flat = starts.flat()
  return {
    tasks: problem.tasks.map((task, i) => ({
      taskId: task.id,
      start: flat[i]!,
      end: flat[i]! + task.modes[0]!.work,
      mode: 0,
      resources: [task.modes[0]!.demands[0]!.anyOf[0]!],
      overtime: false,
    })),
    holds: [],
    unplannedJobs: [],
  }
}

describe('job shops with published optima', () => {
  it.each([
    // Optima proved by many; Carlier & Pinson 1989 for FT10 (doi 10.1287/mnsc.35.2.164), Lawrence's as in Applegate & Cook 1991.
    ['ft06', 55, 20_000],
    ['la01', 666, 20_000],
    ['la02', 655, 60_000],
    ['la03', 597, 60_000],
    ['la04', 590, 60_000],
    ['la05', 593, 20_000],
    ['ft10', 930, 900_000],
  ] as const)('%s is planned in %i minutes', (name, optimum, iterations) => {
    const problem = problemOf(tables[name])
    const result = solve(problem, { seed: 1, stop: { iterations, target: optimum } })
    const verdict = check(problem, result.plan)
    expect(verdict.violations).toEqual([])
    expect(verdict.values.makespan).toBe(optimum)
    expect(result.lowerBound).toBeLessThanOrEqual(optimum)
  })

  it.each([
    // Longest job, busiest machine, and the machine with least head and tail, as listed beside the instances at
    // github.com/ScheduleOpt/benchmarks (jobshop/README.md, read 2026). Jackson's preemptive bound is at least that.
    ['ft06', 52],
    ['ft10', 796],
    ['la01', 666],
    ['la05', 593],
  ] as const)('the bound of %s is at least the classical %i', (name, classical) => {
    const result = solve(problemOf(tables[name]), { stop: { iterations: 1 } })
    expect(result.lowerBound).toBeGreaterThanOrEqual(classical)
  })

  // One of the optimal schedules of FT06, found with a constraint solver.
  const optimal = [
    [0, 1, 16, 30, 38, 42],
    [0, 8, 13, 28, 38, 48],
    [1, 6, 10, 18, 27, 48],
    [8, 13, 22, 27, 30, 45],
    [13, 22, 25, 41, 48, 52],
    [13, 16, 19, 28, 38, 42],
  ]
  it('the checker accepts a known optimal schedule of FT06', () => {
    const problem = problemOf(tables.ft06)
    const verdict = check(problem, planOf(problem, optimal))
    expect(verdict.violations).toEqual([])
    expect(verdict.values.makespan).toBe(55)
  })

  it('and finds both faults when one start of it is moved from 0 to 5', () => {
    const problem = problemOf(tables.ft06)
    const moved = optimal.map((row, j) => (j === 1 ? [5, ...row.slice(1)] : row))
    const { violations } = check(problem, planOf(problem, moved))
    expect(violations.map((violation) => violation.rule).sort()).toEqual(['capacity', 'lag'])
    expect(violations.find((violation) => violation.rule === 'capacity')!.taskIds.toSorted()).toEqual([
      'J2.1',
      'J4.1',
    ])
  })

  it("Taillard's generator gives the first rows that his files print for TA01", () => {
    // TA01 in the OR-Library form: times 94 66 10 53 26 ..., machines 7 13 5 8 4 ... (from 1).
    const [, first] = taillardShops('15x15')[0]!.text.split('\n')
    const pairs = first!.split(' ').map(Number)
    expect(pairs.filter((_, i) => i % 2 === 1).slice(0, 5)).toEqual([94, 66, 10, 53, 26])
    expect(
      pairs
        .filter((_, i) => i % 2 === 0)
        .slice(0, 5)
        .map((machine) => machine + 1),
    ).toEqual([7, 13, 5, 8, 4])
  })

  // The seeds are from memory: a wrong one would not give a bound that meets the optimum known from the literature.
  it.each([
    ['30x15', 'ta31', 1764],
    ['50x15', 'ta51', 2760],
    ['50x15', 'ta52', 2756],
  ])('%s %s has the bound that the literature proves optimal', (size, name, optimum) => {
    const shop = taillardShops(size).find((entry) => entry.name === name)!
    expect(solve(problemOf(shop.text), { stop: { iterations: 1 } }).lowerBound).toBe(optimum)
    expect(shop.best).toBe(optimum)
  })

  it('a flexible shop with one choice each is the job shop it comes from', () => {
    const [header, ...rows] = tables.ft06.split('\n')
    const flexible = [
      header,
      ...rows.map((row) => {
        const values = row.split(' ').map(Number)
        return [
          6,
          ...Array.from({ length: 6 }, (_, k) => [1, values[2 * k]! + 1, values[2 * k + 1]!]).flat(),
        ].join(' ')
      }),
    ].join('\n')
    expect(readFlexibleJobShop(flexible)).toEqual(readJobShop(tables.ft06))
  })
})
