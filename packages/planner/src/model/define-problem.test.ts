import { describe, expect, it } from 'vitest'
import { randomProblem } from '../testing/random-problem.ts'
import { definePlan } from './define-plan.ts'
import { defineProblem } from './define-problem.ts'
import { ProblemError } from './problem-error.ts'

const task = (id: string, more: object = {}): object => ({
  id,
  jobId: 'job',
  modes: [{ work: 5, demands: [{ anyOf: ['bay'] }] }],
  ...more,
})
const small = {
  horizonMinutes: 100,
  resources: [{ id: 'bay' }],
  jobs: [{ id: 'job' }],
  tasks: [task('a'), task('b')],
}

function issuesOf(input: unknown): string[] {
  try {
    defineProblem(input)
  } catch (error) {
    if (error instanceof ProblemError) return error.issues.map((issue) => issue.field)
    throw error
  }
  return []
}

describe('defineProblem', () => {
  it('accepts its own result and leaves it as it is', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const problem = defineProblem(randomProblem(seed, { tasks: 12, horizonMinutes: 500, isTiny: false }))
      expect(defineProblem(JSON.parse(JSON.stringify(problem)))).toEqual(problem)
    }
  })

  it.each([
    ['an unknown key', { ...small, task: [] }, 'problem.task'],
    ['a missing horizon', { ...small, horizonMinutes: undefined }, 'horizonMinutes'],
    [
      'a fraction of a minute',
      { ...small, tasks: [task('a', { earliestStart: 1.5 })] },
      'tasks[0].earliestStart',
    ],
    ['an id used twice', { ...small, tasks: [task('a'), task('a')] }, 'tasks[1].id'],
    ['a task of no job', { ...small, tasks: [task('a', { jobId: 'none' })] }, 'tasks[0].jobId'],
    [
      'a resource that is not there',
      { ...small, tasks: [task('a', { modes: [{ work: 1, demands: [{ anyOf: ['lift'] }] }] })] },
      'tasks[0].modes[0].demands[0].anyOf',
    ],
    [
      'more units than there are',
      { ...small, tasks: [task('a', { modes: [{ work: 1, demands: [{ anyOf: ['bay'], units: 2 }] }] })] },
      'tasks[0].modes[0].demands[0].units',
    ],
    ['no mode', { ...small, tasks: [task('a', { modes: [] })] }, 'tasks[0].modes'],
    [
      'precedence in a circle',
      {
        ...small,
        lags: [
          { from: 'a', to: 'b' },
          { from: 'b', to: 'a' },
        ],
      },
      'lags',
    ],
    [
      'a maximum lag below the minimum',
      { ...small, lags: [{ from: 'a', to: 'b', minMinutes: 3, maxMinutes: 2 }] },
      'lags[0].maxMinutes',
    ],
    [
      'a hold against precedence',
      { ...small, holds: [{ id: 'h', anyOf: ['bay'], fromTask: 'a', untilTask: 'b' }] },
      'holds[0].untilTask',
    ],
    [
      'shifts that overlap',
      {
        ...small,
        calendars: [
          {
            id: 'c',
            shifts: [
              [0, 10],
              [5, 20],
            ],
          },
        ],
      },
      'calendars[0].shifts[1]',
    ],
    [
      'overtime inside a shift',
      { ...small, calendars: [{ id: 'c', shifts: [[0, 10]], overtime: [[5, 20]] }] },
      'calendars[0].overtime',
    ],
    [
      'a profile that starts late',
      { ...small, profiles: [{ id: 'p', points: [{ atMinute: 5, ratePerMinute: 1 }] }] },
      'profiles[0].points',
    ],
    [
      'set-up on a counted resource',
      {
        ...small,
        resources: [{ id: 'bay', capacity: 2, setups: [{ fromFamily: 'x', toFamily: 'y', minutes: 1 }] }],
      },
      'resources[0].setups',
    ],
    [
      'a deadline before the release',
      { ...small, jobs: [{ id: 'job', releaseAt: 9, deadlineAt: 8 }] },
      'jobs[0].deadlineAt',
    ],
    [
      'an objective without weight',
      { ...small, objective: { kind: 'weighted', weights: { makespan: 0 } } },
      'objective.weights',
    ],
    [
      'a lexicographic term twice',
      { ...small, objective: { kind: 'lexicographic', order: ['makespan', 'makespan'] } },
      'objective.order',
    ],
    [
      'a lock without its resource',
      { ...small, tasks: [task('a', { fixed: { state: 'locked', start: 0, resources: [] } })] },
      'tasks[0].fixed.resources',
    ],
  ])('refuses %s and names the field', (_, input, field) => {
    expect(issuesOf(input)).toContain(field)
  })

  it('names value and fix in the message, and lists every fault', () => {
    expect(() => defineProblem({ ...small, horizonMinutes: 0, jobs: [{ id: 'job', weight: -1 }] })).toThrow(
      /horizonMinutes: 0; give a whole number from 1[^]*jobs\[0\]\.weight: -1; give a whole number from 0/,
    )
  })
})

describe('definePlan', () => {
  it('refuses what is no plan', () => {
    expect(() => definePlan({ tasks: [{ taskId: 'a', start: 1, end: '2' }] })).toThrow('tasks[0].end')
  })
})
