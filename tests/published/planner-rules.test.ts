import { describe, expect, it } from 'vitest'
import { check, defineProblem, solve } from '../../packages/planner/src/index.ts'
import { readPatterson, readPsplib } from '../bench/planner/read-instance.ts'

const machine = (work: number, id: string, jobId: string, anyOf = ['machine']): object => ({
  id,
  jobId,
  modes: [{ work, demands: [{ anyOf }] }],
})

function best(input: unknown, iterations = 3000): ReturnType<typeof check>['values'] & { order: string[] } {
  const problem = defineProblem(input)
  const result = solve(problem, { seed: 1, stop: { iterations } })
  const verdict = check(problem, result.plan)
  expect(verdict.violations).toEqual([])
  expect(result.lowerBound).toBeLessThanOrEqual(result.cost)
  return {
    ...verdict.values,
    order: result.plan.tasks.toSorted((a, b) => a.start - b.start).map((task) => task.taskId),
  }
}

describe('exact rules of scheduling theory', () => {
  it("Johnson's rule: two machines in a row, makespan 28", () => {
    // Johnson 1954 (doi 10.1002/nav.3800010110); the five jobs are ours, 28 is the optimum over all 120 orders.
    const times = [
      [3, 6],
      [7, 2],
      [4, 7],
      [5, 3],
      [7, 4],
    ] as const
    const values = best({
      horizonMinutes: 100,
      resources: [{ id: 'first' }, { id: 'second' }],
      jobs: times.map((_, j) => ({ id: `j${j}` })),
      tasks: times.flatMap(([a, b], j) => [
        machine(a, `${j}a`, `j${j}`, ['first']),
        machine(b, `${j}b`, `j${j}`, ['second']),
      ]),
      lags: times.map((_, j) => ({ from: `${j}a`, to: `${j}b` })),
      objective: { kind: 'weighted', weights: { makespan: 1 } },
    })
    expect(values.makespan).toBe(28)
  })

  it('weighted shortest processing time first: weighted completion 36', () => {
    // Smith 1956 (doi 10.1002/nav.3800030106). Due at 0, tardiness is completion.
    const jobs = [
      [4, 1],
      [1, 2],
      [3, 3],
      [2, 2],
    ] as const
    const values = best({
      horizonMinutes: 100,
      resources: [{ id: 'machine' }],
      jobs: jobs.map(([, weight], j) => ({ id: `j${j}`, dueAt: 0, weight })),
      tasks: jobs.map(([work], j) => machine(work, `${j}`, `j${j}`)),
    })
    expect(values.weightedTardiness).toBe(36)
    expect(values.order[0]).toBe('1')
    expect(values.order.at(-1)).toBe('0')
  })

  it('four like bays: the longest job first rule gives 15, the optimum is 12', () => {
    // The worst case of Graham 1969 (doi 10.1137/0117039) for four machines: 4/3 - 1/12.
    const bays = ['b1', 'b2', 'b3', 'b4']
    const values = best({
      horizonMinutes: 100,
      resources: bays.map((id) => ({ id })),
      jobs: [{ id: 'j' }],
      tasks: [7, 7, 6, 6, 5, 5, 4, 4, 4].map((work, i) => machine(work, `${i}`, 'j', bays)),
      objective: { kind: 'weighted', weights: { makespan: 1 } },
    })
    expect(values.makespan).toBe(12)
  })
})

/** A project of six activities in both text forms, typed in by us; its optimum follows by hand (see the test). */
const sm = `PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           4
   4        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     5       2    1
  3      1     4       2    0
  4      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    3    1
************************************************************************`
const rcp = `4 2
3 1
0 0 0 2 2 3
5 2 1 1 4
4 2 0 1 4
0 0 0 0`

describe('project text forms', () => {
  it('the .sm and the .rcp form read to the same project', () => {
    expect(readPatterson(rcp)).toEqual(readPsplib(sm))
  })

  it('whose two activities need 4 of 3 units and so go one after the other', () => {
    expect(best(readPsplib(sm), 50).makespan).toBe(9)
  })
})
