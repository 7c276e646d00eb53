import { describe, expect, it } from 'vitest'
import { defineProblem } from '../model/define-problem.ts'
import type { Plan, PlannedHold, PlannedTask } from '../model/plan.ts'
import { check } from './check.ts'

/** Two tasks in a row, by a technician with a lunch break, the first on an oven that batches, held on a bay. */
const problem = defineProblem({
  horizonMinutes: 200,
  calendars: [
    {
      id: 'day',
      shifts: [
        [0, 60],
        [70, 150],
      ],
    },
  ],
  profiles: [
    {
      id: 'cure',
      points: [
        { atMinute: 0, ratePerMinute: 2 },
        { atMinute: 50, ratePerMinute: 1 },
      ],
    },
  ],
  resources: [
    { id: 'tech', calendarId: 'day', setups: [{ fromFamily: 'x', toFamily: 'y', minutes: 5 }] },
    { id: 'bay', unavailable: [[180, 190]] },
    { id: 'oven', capacity: 2, batch: true },
  ],
  jobs: [
    { id: 'job', dueAt: 60, weight: 3 },
    { id: 'other', releaseAt: 10, deadlineAt: 120 },
  ],
  tasks: [
    {
      id: 'bond',
      jobId: 'job',
      family: 'x',
      breaks: 'forbid',
      modes: [{ work: 20, demands: [{ anyOf: ['tech'] }] }],
    },
    { id: 'cure', jobId: 'job', breaks: 'ignore', modes: [{ work: 40, profileId: 'cure', demands: [] }] },
    { id: 'dress', jobId: 'other', family: 'y', modes: [{ work: 30, demands: [{ anyOf: ['tech'] }] }] },
    {
      id: 'bake1',
      jobId: 'job',
      family: 'p',
      breaks: 'ignore',
      modes: [{ work: 10, demands: [{ anyOf: ['oven'] }] }],
    },
    {
      id: 'bake2',
      jobId: 'other',
      family: 'p',
      breaks: 'ignore',
      modes: [{ work: 10, demands: [{ anyOf: ['oven'] }] }],
    },
  ],
  lags: [{ from: 'bond', to: 'cure', maxMinutes: 0 }],
  holds: [{ id: 'stay', anyOf: ['bay'], fromTask: 'bond', untilTask: 'cure' }],
})
const at = (taskId: string, start: number, end: number, resources: string[]): PlannedTask => ({
  taskId,
  start,
  end,
  mode: 0,
  resources,
  overtime: false,
})
const good: Record<string, PlannedTask> = {
  bond: at('bond', 20, 40, ['tech']),
  // 10 minutes at rate 2 make 20, the other 20 take 20 minutes at rate 1.
  cure: at('cure', 40, 70, []),
  dress: at('dress', 45, 85, ['tech']),
  bake1: at('bake1', 100, 110, ['oven']),
  bake2: at('bake2', 100, 110, ['oven']),
}
const stay: PlannedHold = { holdId: 'stay', resourceId: 'bay', from: 20, until: 70 }
const planOf = (
  change: Partial<Record<string, PlannedTask>> = {},
  holds: readonly PlannedHold[] = [stay],
): Plan => ({
  tasks: Object.values({ ...good, ...change }).filter((entry) => entry !== undefined),
  holds,
  unplannedJobs: [],
})
const rulesBroken = (plan: Plan): string[] =>
  [...new Set(check(problem, plan).violations.map((violation) => violation.rule))].sort()

describe('check', () => {
  it('finds nothing wrong with a right plan, and prices it', () => {
    const verdict = check(problem, planOf())
    expect(verdict.violations).toEqual([])
    expect(verdict.values).toMatchObject({ makespan: 110, weightedTardiness: 3 * 50, overtime: 0, change: 0 })
  })

  it.each([
    ['a task left out', planOf({ dress: undefined }), ['unplanned']],
    [
      'a wrong end of a cure',
      planOf({ cure: at('cure', 40, 60, []) }, [{ ...stay, until: 60 }]),
      ['duration'],
    ],
    [
      'a task over a break it may not span',
      planOf(
        {
          bond: at('bond', 50, 70, ['tech']),
          cure: at('cure', 70, 110, []),
          dress: at('dress', 80, 110, ['tech']),
        },
        [{ ...stay, from: 50, until: 110 }],
      ),
      ['calendar'],
    ],
    ['a start in a break', planOf({ dress: at('dress', 60, 100, ['tech']) }), ['calendar']],
    ['two on one technician', planOf({ dress: at('dress', 30, 60, ['tech']) }), ['capacity']],
    ['set-up left out', planOf({ dress: at('dress', 41, 81, ['tech']) }), ['setup']],
    [
      'a wait where none is allowed',
      planOf({ cure: at('cure', 41, 72, []) }, [{ ...stay, until: 72 }]),
      ['maxLag'],
    ],
    ['a hold that ends early', planOf({}, [{ ...stay, until: 60 }]), ['hold']],
    ['a hold left out', planOf({}, []), ['hold']],
    [
      'a stay on a closed bay',
      planOf({ bond: at('bond', 120, 140, ['tech']), cure: at('cure', 140, 180, []) }, [
        { ...stay, from: 120, until: 181 },
      ]),
      ['hold', 'unavailable'],
    ],
    [
      'a start before the release',
      planOf(
        {
          dress: at('dress', 5, 35, ['tech']),
          bond: at('bond', 35, 55, ['tech']),
          cure: at('cure', 55, 95, []),
        },
        [{ ...stay, from: 35, until: 95 }],
      ),
      ['window'],
    ],
    ['a batch that does not start together', planOf({ bake2: at('bake2', 105, 115, ['oven']) }), ['batch']],
    ['an end after the deadline', planOf({ bake2: at('bake2', 112, 122, ['oven']) }), ['window']],
    [
      'a resource the mode does not know',
      planOf({ dress: at('dress', 45, 85, ['bay']) }),
      ['capacity', 'mode'],
    ],
  ])('reports %s', (_, plan, rules) => {
    expect(rulesBroken(plan)).toEqual(expect.arrayContaining(rules))
  })

  it('prices what changed against the published plan', () => {
    const moved = planOf({ dress: at('dress', 70, 100, ['tech']) })
    expect(check(problem, moved, planOf()).values.change).toBeCloseTo(25 * 0.05)
  })
})

describe('the least wait between two tasks', () => {
  const waiting = defineProblem({
    horizonMinutes: 100,
    calendars: [],
    resources: [],
    jobs: [{ id: 'job' }],
    tasks: ['first', 'second'].map((id) => ({
      id,
      jobId: 'job',
      breaks: 'ignore' as const,
      modes: [{ work: 10, demands: [] }],
    })),
    lags: [{ from: 'first', to: 'second', minMinutes: 7 }],
  })
  it.each([
    [16, ['lag']],
    [17, []],
    [18, []],
  ])('is kept to the minute: a start at %i', (start, rules) => {
    const plan = {
      tasks: [at('first', 0, 10, []), at('second', start, start + 10, [])],
      holds: [],
      unplannedJobs: [],
    }
    expect(check(waiting, plan).violations.map(({ rule }) => rule)).toEqual(rules)
  })
})
