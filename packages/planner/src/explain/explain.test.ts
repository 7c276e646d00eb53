import { describe, expect, it } from 'vitest'
import { defineProblem } from '../model/define-problem.ts'
import { solve } from '../solve.ts'
import { dayAndTime, explain } from './explain.ts'
import { explainInfeasible } from './infeasible.ts'

const one = (id: string, work: number, resource: string, more: object = {}): object => ({
  id,
  jobId: 'job',
  modes: [{ work, demands: [{ anyOf: [resource] }] }],
  ...more,
})
const base = {
  horizonMinutes: 3000,
  calendars: [
    {
      id: 'day',
      shifts: [
        [480, 960],
        [1920, 2400],
      ],
    },
  ],
  resources: [{ id: 'tech', calendarId: 'day' }, { id: 'bay' }, { id: 'booth', unavailable: [[0, 700]] }],
  jobs: [{ id: 'job', releaseAt: 500, dueAt: 0 }],
}

describe('explain', () => {
  const problem = defineProblem({
    ...base,
    tasks: [
      one('prepare', 60, 'tech'),
      one('bond', 30, 'tech'),
      one('paint', 20, 'booth'),
      one('long', 400, 'tech', { breaks: 'forbid' }),
    ],
    lags: [
      { from: 'prepare', to: 'bond', minMinutes: 15 },
      { from: 'bond', to: 'paint' },
      { from: 'paint', to: 'long' },
    ],
  })
  const { plan } = solve(problem, { stop: { iterations: 20 } })
  const first = (taskId: string): string => explain(problem, plan, taskId).reasons[0]!.kind

  it('names what binds: release, predecessor with its lag, absence, calendar', () => {
    expect(first('prepare')).toBe('release')
    expect(first('bond')).toBe('predecessor')
    expect(first('paint')).toBe('unavailable')
    expect(first('long')).toBe('calendar')
    expect(explain(problem, plan, 'bond').text).toBe(
      'bond starts at day 1 09:35 because prepare ends at day 1 09:20 and 15 min must pass.',
    )
    expect(explain(problem, plan, 'long').text).toContain(
      'tech works again, where it fits without a break, from day 2 08:00',
    )
  })

  it('follows the chain back to its root', () => {
    expect(explain(problem, plan, 'bond').chain.map((link) => link.taskId)).toEqual(['bond', 'prepare'])
  })

  it('names the task that has the resource', () => {
    const two = defineProblem({ ...base, tasks: [one('a', 50, 'bay'), one('b', 50, 'bay')] })
    const made = solve(two, { stop: { iterations: 5 } }).plan
    const later = made.tasks.toSorted((a, b) => b.start - a.start)[0]!
    expect(explain(two, made, later.taskId).text).toMatch(/bay is taken by [ab] until day 1 09:10/)
  })

  it('says when a task waits for one that must follow soon', () => {
    const pulled = defineProblem({
      ...base,
      tasks: [one('a', 10, 'bay'), one('b', 10, 'booth')],
      lags: [{ from: 'a', to: 'b', maxMinutes: 5 }],
    })
    const made = solve(pulled, { stop: { iterations: 5 } }).plan
    expect(explain(pulled, made, 'a').reasons[0]!.kind).toBe('maximumLag')
  })

  it('refuses a task that is not planned', () => {
    expect(() => explain(problem, plan, 'none')).toThrow('no task none')
  })

  it('counts days from one', () => {
    expect(dayAndTime(1440 + 65)).toBe('day 2 01:05')
  })
})

describe('explainInfeasible', () => {
  it('proves a clash of times and names its chain', () => {
    const problem = defineProblem({
      ...base,
      jobs: [{ id: 'job', releaseAt: 500, deadlineAt: 600 }],
      tasks: [one('prepare', 60, 'tech'), one('bond', 50, 'tech')],
      lags: [{ from: 'prepare', to: 'bond' }],
    })
    const conflict = explainInfeasible(problem)!
    expect(conflict.certainty).toBe('proved')
    expect(conflict.items.map((item) => item.kind)).toEqual(['release', 'precedence', 'deadline'])
    expect(conflict.text).toContain('bond ends at day 1 10:10 at the earliest')
    expect(solve(problem, { stop: { iterations: 5 } }).status).toBe('infeasible')
  })

  it('finds the few requirements that clash over a resource', () => {
    const problem = defineProblem({
      ...base,
      jobs: [
        { id: 'job' },
        { id: 'x', deadlineAt: 50 },
        { id: 'y', deadlineAt: 55 },
        { id: 'z', deadlineAt: 900 },
      ],
      tasks: ['x', 'y', 'z'].map((id) => ({ ...one(id, 40, 'bay'), jobId: id })),
    })
    const conflict = explainInfeasible(problem)!
    expect(conflict.certainty).toBe('notFound')
    expect(conflict.items.map((item) => item.id).sort()).toEqual(['x', 'y'])
  })

  it('is null when there is a plan', () => {
    expect(explainInfeasible(defineProblem({ ...base, tasks: [one('a', 10, 'bay')] }))).toBeNull()
  })
})
