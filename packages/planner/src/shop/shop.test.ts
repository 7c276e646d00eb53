import { describe, expect, it } from 'vitest'
import { check } from '../check/check.ts'
import { defineProblem } from '../model/define-problem.ts'
import { solve } from '../solve.ts'

const one = (work: number, resource: string, more: object = {}): object => ({
  modes: [{ work, demands: [{ anyOf: [resource] }] }],
  ...more,
})
const solved = (input: unknown, iterations = 200): ReturnType<typeof solve> => {
  const problem = defineProblem(input)
  const result = solve(problem, { stop: { iterations } })
  expect(check(problem, result.plan).violations).toEqual([])
  return result
}

describe('shop search', () => {
  it('lets a cure run through the night and has people only in their shifts', () => {
    const result = solved({
      horizonMinutes: 3 * 1440,
      calendars: [
        {
          id: 'day',
          shifts: [
            [480, 960],
            [1920, 2400],
          ],
        },
      ],
      // Warm until 18:00, then half as fast until 06:00.
      profiles: [
        {
          id: 'air',
          points: [
            { atMinute: 0, ratePerMinute: 2 },
            { atMinute: 1080, ratePerMinute: 1 },
            { atMinute: 1800, ratePerMinute: 2 },
          ],
        },
      ],
      resources: [{ id: 'tech', calendarId: 'day' }, { id: 'bay' }],
      jobs: [{ id: 'car', releaseAt: 900, dueAt: 0 }],
      tasks: [
        { id: 'bond', jobId: 'car', ...one(60, 'tech', { breaks: 'forbid' }) },
        { id: 'cure', jobId: 'car', breaks: 'ignore', modes: [{ work: 600, profileId: 'air', demands: [] }] },
        { id: 'dress', jobId: 'car', ...one(30, 'tech') },
      ],
      lags: [
        { from: 'bond', to: 'cure', maxMinutes: 0 },
        { from: 'cure', to: 'dress' },
      ],
      holds: [{ id: 'stay', anyOf: ['bay'], fromTask: 'bond', untilTask: 'dress' }],
    })
    // 960-1080 gives 240 units at 2, the other 360 take until 1440; dress waits for 08:00.
    expect(result.plan.tasks.map((task) => [task.start, task.end])).toEqual([
      [900, 960],
      [960, 1440],
      [1920, 1950],
    ])
    expect(result.status).toBe('optimal')
  })

  it('moves a task on when a maximum lag would break', () => {
    const result = solved({
      horizonMinutes: 500,
      resources: [{ id: 'a' }, { id: 'b', unavailable: [[0, 100]] }],
      jobs: [{ id: 'j', dueAt: 0 }],
      tasks: [
        { id: 'first', jobId: 'j', ...one(10, 'a') },
        { id: 'second', jobId: 'j', ...one(10, 'b') },
      ],
      lags: [{ from: 'first', to: 'second', maxMinutes: 20 }],
    })
    expect(result.plan.tasks[0]!.end).toBeGreaterThanOrEqual(80)
    expect(result.plan.tasks[1]!.start).toBe(100)
  })

  it('blocks a bay until the next place is free', () => {
    const result = solved({
      horizonMinutes: 500,
      resources: [{ id: 'bay' }, { id: 'booth' }],
      jobs: [
        { id: 'j', dueAt: 0 },
        { id: 'k', dueAt: 0 },
      ],
      tasks: ['j', 'k'].flatMap((job) => [
        { id: `${job}1`, jobId: job, ...one(10, 'bay', { modes: [{ work: 10, demands: [] }] }) },
        { id: `${job}2`, jobId: job, ...one(50, 'booth') },
      ]),
      lags: ['j', 'k'].map((job) => ({ from: `${job}1`, to: `${job}2` })),
      holds: ['j', 'k'].map((job) => ({
        id: job,
        anyOf: ['bay'],
        fromTask: `${job}1`,
        untilTask: `${job}2`,
        until: 'start',
      })),
    })
    expect(
      result.plan.holds.map((hold) => [hold.from, hold.until]).toSorted((a, b) => a[0]! - b[0]!),
    ).toEqual([
      [0, 10],
      [10, 60],
    ])
  })

  it('bakes panels of one family together', () => {
    const result = solved({
      horizonMinutes: 500,
      resources: [{ id: 'oven', capacity: 3, batch: true }],
      jobs: [1, 2, 3, 4].map((j) => ({ id: `j${j}`, dueAt: 0 })),
      tasks: [1, 2, 3, 4].map((j) => ({
        id: `t${j}`,
        jobId: `j${j}`,
        family: 'panel',
        breaks: 'ignore',
        ...one(30, 'oven'),
      })),
    })
    expect(result.values.weightedTardiness).toBe(30 * 3 + 60)
  })

  it('works overtime only where it pays', () => {
    const input = (price: number): object => ({
      horizonMinutes: 3000,
      calendars: [
        {
          id: 'day',
          shifts: [
            [0, 60],
            [1440, 1500],
          ],
          overtime: [[60, 120]],
        },
      ],
      resources: [{ id: 'tech', calendarId: 'day', overtimeCostPerMinute: price }],
      jobs: [{ id: 'j', dueAt: 90 }],
      tasks: [{ id: 't', jobId: 'j', ...one(90, 'tech') }],
      objective: { kind: 'weighted', weights: { weightedTardiness: 1, overtime: 1 } },
    })
    expect(solved(input(2)).values).toMatchObject({ overtime: 60, weightedTardiness: 0 })
    expect(solved(input(200)).values).toMatchObject({ overtime: 0, weightedTardiness: 1470 - 90 })
  })

  it('counts adhesive that expires unused', () => {
    const result = solved({
      horizonMinutes: 1000,
      resources: [{ id: 'tech' }],
      jobs: [{ id: 'j' }, { id: 'k', dueAt: 20 }],
      tasks: [
        { id: 'a', jobId: 'j', ...one(20, 'tech'), uses: [{ stockId: 's', amount: 40 }] },
        { id: 'b', jobId: 'k', ...one(20, 'tech') },
      ],
      stocks: [
        {
          id: 's',
          lots: [
            { id: 'old', amount: 50, expiresAt: 15 },
            { id: 'new', amount: 50, expiresAt: null },
          ],
        },
      ],
      objective: { kind: 'weighted', weights: { weightedTardiness: 1, waste: 1 } },
    })
    // a first: 10 wasted and b 20 late; b first: all 50 of the old lot wasted.
    expect(result.values).toMatchObject({ waste: 10, weightedTardiness: 20, shortage: 0 })
  })

  it('keeps locked and running tasks where they are', () => {
    const result = solved({
      horizonMinutes: 500,
      resources: [{ id: 'tech' }],
      jobs: [{ id: 'j' }, { id: 'k', dueAt: 0 }],
      tasks: [
        {
          id: 'run',
          jobId: 'j',
          ...one(20, 'tech'),
          fixed: { state: 'running', start: 0, end: 35, resources: ['tech'] },
        },
        {
          id: 'lock',
          jobId: 'j',
          ...one(20, 'tech'),
          fixed: { state: 'locked', start: 40, resources: ['tech'] },
        },
        { id: 'free', jobId: 'k', ...one(10, 'tech') },
      ],
    })
    expect(result.plan.tasks.find((task) => task.taskId === 'free')!.start).toBe(60)
  })

  it('leaves the only place of one hold or demand to it, whichever is written first', () => {
    for (const [wide, narrow] of [
      [0, 1],
      [1, 0],
    ] as const) {
      const places: string[][] = []
      places[wide] = ['left', 'right']
      places[narrow] = ['left']
      const held = solved({
        horizonMinutes: 10,
        resources: [{ id: 'left' }, { id: 'right' }],
        jobs: [{ id: 'j' }],
        tasks: [{ id: 'a', jobId: 'j', modes: [{ work: 2 }] }],
        holds: places.map((anyOf, h) => ({ id: `hold-${h}`, anyOf, fromTask: 'a', untilTask: 'a' })),
      })
      expect(held.plan.holds.find((hold) => hold.holdId === `hold-${wide}`)!.resourceId).toBe('right')
      const demands = places.map((anyOf) => ({ anyOf }))
      const used = solved({
        horizonMinutes: 10,
        resources: [{ id: 'left' }, { id: 'right' }],
        jobs: [{ id: 'j' }],
        tasks: [{ id: 'a', jobId: 'j', modes: [{ work: 2, demands }] }],
      })
      expect(used.plan.tasks[0]!.resources[wide]).toBe('right')
    }
  })

  it('lets a job wait in the middle for another', () => {
    const saw = (id: string, work: number): object => ({ id, jobId: id.slice(0, 1), ...one(work, 'saw') })
    const result = solved(
      {
        horizonMinutes: 60,
        resources: [{ id: 'saw' }],
        jobs: [
          { id: 'a', deadlineAt: 54 },
          { id: 'b', dueAt: 5, weight: 3 },
          { id: 'c', releaseAt: 3, dueAt: 7, weight: 2 },
        ],
        tasks: [
          saw('a1', 3),
          saw('a2', 4),
          saw('a3', 2),
          saw('b1', 3),
          saw('b2', 3),
          saw('b3', 2),
          saw('c1', 4),
          saw('c2', 3),
        ],
        lags: [
          { from: 'a1', to: 'a2' },
          { from: 'a2', to: 'a3' },
          { from: 'a1', to: 'b3' },
          { from: 'b1', to: 'b2', after: 'start' },
          { from: 'b2', to: 'b3', minMinutes: 3 },
          { from: 'c1', to: 'c2' },
        ],
      },
      3000,
    )
    // b1 b2 a1 b3 c1 c2 a2 a3: b is 6 late, c is 11 late, and a goes before and after c. By linear program the optimum.
    expect(result.cost).toBe(40)
  })

  it('names the jobs it can not place', () => {
    const problem = defineProblem({
      horizonMinutes: 100,
      resources: [{ id: 'tech' }],
      jobs: [
        { id: 'j', deadlineAt: 40 },
        { id: 'k', deadlineAt: 40 },
      ],
      tasks: ['j', 'k'].map((job) => ({ id: job, jobId: job, ...one(30, 'tech') })),
    })
    const result = solve(problem, { stop: { iterations: 50 } })
    expect(result.status).toBe('incomplete')
    expect(result.plan.unplannedJobs).toHaveLength(1)
    expect(result.plan.tasks).toHaveLength(1)
  })
})
