import { beforeAll, describe, expect, it } from 'vitest'
import { check } from '../check/check.ts'
import { defineProblem } from '../model/define-problem.ts'
import type { Plan } from '../model/plan.ts'
import type { Problem } from '../model/problem.ts'
import { solve } from '../solve.ts'
import type { RepairEvent } from './event.ts'
import { repair, type Repair } from './repair.ts'

const day = 1440
/** Twelve cars, three bays, two technicians; each car is bonded, cures in its bay, and is dressed. */
const cars = Array.from({ length: 12 }, (_, c) => `car-${c}`)
const input = {
  horizonMinutes: 20 * day,
  calendars: [{ id: 'day', shifts: Array.from({ length: 20 }, (_, d) => [d * day + 480, d * day + 960]) }],
  profiles: [{ id: 'air', points: [{ atMinute: 0, ratePerMinute: 10 }] }],
  resources: [
    { id: 'bay-1' },
    { id: 'bay-2' },
    { id: 'bay-3' },
    { id: 'ann', calendarId: 'day' },
    { id: 'bob', calendarId: 'day' },
  ],
  jobs: cars.map((id, c) => ({
    id,
    releaseAt: Math.floor(c / 3) * day,
    dueAt: Math.floor(c / 3) * day + 3 * day,
    weight: 1 + (c % 3),
  })),
  tasks: cars.flatMap((id) => [
    {
      id: `${id}/bond`,
      jobId: id,
      breaks: 'forbid',
      modes: [{ work: 120, demands: [{ anyOf: ['ann', 'bob'] }] }],
    },
    { id: `${id}/cure`, jobId: id, breaks: 'ignore', modes: [{ work: 3000, profileId: 'air', demands: [] }] },
    { id: `${id}/dress`, jobId: id, modes: [{ work: 90, demands: [{ anyOf: ['ann', 'bob'] }] }] },
  ]),
  lags: cars.flatMap((id) => [
    { from: `${id}/bond`, to: `${id}/cure`, maxMinutes: 0 },
    { from: `${id}/cure`, to: `${id}/dress` },
  ]),
  holds: cars.map((id) => ({
    id: `${id}/stay`,
    anyOf: ['bay-1', 'bay-2', 'bay-3'],
    fromTask: `${id}/bond`,
    untilTask: `${id}/dress`,
  })),
}

describe('repair', () => {
  let problem: Problem
  let plan: Plan
  beforeAll(() => {
    problem = defineProblem(input)
    plan = solve(problem, { stop: { iterations: 300 } }).plan
  })
  const after = (event: RepairEvent): Repair => {
    const repaired = repair(problem, plan, event, { stop: { iterations: 150 } })
    expect(check(repaired.problem, repaired.result.plan, plan).violations).toEqual([])
    return repaired
  }
  const of = (which: Plan, taskId: string): Plan['tasks'][number] =>
    which.tasks.find((entry) => entry.taskId === taskId)!

  it('leaves the plan as it is when the event touches nothing', () => {
    const repaired = after({
      kind: 'resourceUnavailable',
      at: 100,
      resourceId: 'bay-1',
      from: 19 * day,
      until: 20 * day,
    })
    expect(repaired.moved).toEqual([])
    expect(repaired.result.values.change).toBe(0)
  })

  it('shifts what waits for a late cure, leaves the past alone and says why', () => {
    const cure = of(plan, 'car-4/cure')
    const end = of(plan, 'car-4/dress').start + 200
    const repaired = after({ kind: 'taskEnds', at: cure.start + 10, taskId: 'car-4/cure', end })
    expect(of(repaired.result.plan, 'car-4/cure')).toEqual({ ...cure, end })
    expect(of(repaired.result.plan, 'car-4/dress').start).toBeGreaterThanOrEqual(end)
    expect(repaired.moved.every((entry) => entry.before.start >= cure.start + 10)).toBe(true)
    const dress = repaired.moved.find((entry) => entry.taskId === 'car-4/dress')!
    expect(dress.minutesLater).toBeGreaterThan(0)
    expect(dress.because).toContain('car-4/dress starts at')
    expect(repaired.moved.length).toBeLessThan(plan.tasks.length / 3)
  })

  it('keeps a failed bay empty', () => {
    const at = 2 * day
    const repaired = after({
      kind: 'resourceUnavailable',
      at,
      resourceId: 'bay-2',
      from: at,
      until: at + 2 * day,
    })
    const stays = repaired.result.plan.holds.filter((hold) => hold.resourceId === 'bay-2' && hold.from >= at)
    expect(stays.every((hold) => hold.from >= at + 2 * day)).toBe(true)
  })

  it('gives the work of a technician who is ill to another', () => {
    const at = day
    const repaired = after({ kind: 'resourceUnavailable', at, resourceId: 'ann', from: at, until: at + day })
    const own = repaired.result.plan.tasks.filter(
      (entry) => entry.resources.includes('ann') && entry.start >= at && entry.start < at + day,
    )
    expect(own).toEqual([])
  })

  it('works out anew how long a cure lasts when the forecast changes', () => {
    const cure = of(plan, 'car-4/cure')
    const repaired = after({
      kind: 'ratesChange',
      at: cure.start + 10,
      profileId: 'air',
      points: [
        { atMinute: 0, ratePerMinute: 10 },
        { atMinute: cure.start + 100, ratePerMinute: 5 },
      ],
    })
    expect(of(repaired.result.plan, 'car-4/cure').end).toBe(cure.start + 100 + 400)
  })

  it('fits a rush job in', () => {
    const repaired = after({
      kind: 'jobArrives',
      at: day,
      job: { id: 'rush', releaseAt: day, dueAt: 2 * day, weight: 50 },
      tasks: [
        {
          id: 'rush/bond',
          jobId: 'rush',
          breaks: 'forbid',
          modes: [{ work: 60, demands: [{ anyOf: ['ann', 'bob'] }] }],
        },
      ],
      lags: [],
      holds: [
        {
          id: 'rush/stay',
          anyOf: ['bay-1', 'bay-2', 'bay-3'],
          fromTask: 'rush/bond',
          untilTask: 'rush/bond',
        },
      ],
    })
    expect(of(repaired.result.plan, 'rush/bond').end).toBeLessThanOrEqual(2 * day)
  })

  it('moves fewer tasks than planning anew does', () => {
    const event: RepairEvent = {
      kind: 'resourceUnavailable',
      at: day,
      resourceId: 'ann',
      from: day,
      until: 2 * day,
    }
    const repaired = after(event)
    const anew = solve(repaired.problem, { seed: 5, stop: { iterations: 150 } })
    const moved = anew.plan.tasks.filter((entry) => of(plan, entry.taskId).start !== entry.start).length
    expect(repaired.moved.length).toBeLessThan(moved)
  })

  it('refuses an event about what is not there', () => {
    expect(() => after({ kind: 'taskEnds', at: 0, taskId: 'none', end: 5 })).toThrow('event.taskId: "none"')
    expect(() => after({ kind: 'resourceUnavailable', at: 0, resourceId: 'ann', from: 5, until: 5 })).toThrow(
      'event.until',
    )
  })
})
