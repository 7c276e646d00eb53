import { describe, expect, it } from 'vitest'
import { defineProblem } from '../model/define-problem.ts'
import type { Plan } from '../model/plan.ts'
import { check } from './check.ts'
import { brokenFurther } from './worse.ts'

/** Four tasks of their own, each with a bay to choose, and one bay that is closed for a while. */
const problem = defineProblem({
  horizonMinutes: 1000,
  resources: [{ id: 'bay' }, { id: 'other', unavailable: [[500, 600]] }],
  jobs: ['a', 'b', 'c', 'd'].map((id) => ({ id, releaseAt: id === 'd' ? 50 : 0 })),
  tasks: ['a', 'b', 'c', 'd'].map((id) => ({
    id,
    jobId: id,
    breaks: 'ignore',
    modes: [{ work: 100, demands: [{ anyOf: ['bay', 'other'] }] }],
  })),
})
type Place = readonly [start: number, resource?: string]
const planOf = (places: Readonly<Record<string, Place>>): Plan => ({
  tasks: Object.entries(places).map(([taskId, [start, resource = 'bay']]) => ({
    taskId,
    start,
    end: start + 100,
    mode: 0,
    resources: [resource],
    overtime: false,
  })),
  holds: [],
  unplannedJobs: [],
})
const further = (before: Record<string, Place>, after: Record<string, Place>) =>
  brokenFurther(check(problem, planOf(before)).violations, check(problem, planOf(after)).violations).map(
    ({ rule, taskIds }) => `${rule} ${taskIds.toSorted().join(' ')}`,
  )

/** Two that lie over each other for 60 minutes already. */
const BEFORE = { a: [100], b: [140], c: [700], d: [800, 'other'] } as const satisfies Record<string, Place>

describe('what a change breaks further', () => {
  it.each([
    ['something else moved', { ...BEFORE, c: [760] as const }],
    ['one of two taken away from the other', { ...BEFORE, b: [180] as const }],
    ['one of two taken elsewhere', { ...BEFORE, b: [140, 'other'] as const }],
  ])('is nothing with %s', (_, after) => {
    expect(further(BEFORE, after)).toEqual([])
  })

  it('is nothing for the two that stay where a third has left', () => {
    const three = { ...BEFORE, c: [150] as const }
    expect(further(three, BEFORE)).toEqual([])
    expect(further(BEFORE, three)).toContain('capacity a b c')
  })

  it('is a longer overlap, and another one that was not there', () => {
    expect(further(BEFORE, { ...BEFORE, b: [120] })).toEqual(['capacity a b'])
    // Shorter for b on the whole, but c stood alone.
    expect(further(BEFORE, { ...BEFORE, b: [650] })).toEqual(['capacity b c'])
  })

  it('is a longer stay where it is closed, and a start sooner before its release', () => {
    const closed = { ...BEFORE, a: [450, 'other'] as const }
    expect(further(closed, { ...closed, a: [430, 'other'] })).toEqual([])
    expect(further(closed, { ...closed, a: [470, 'other'] })).toEqual(['unavailable a'])
    const early = { ...BEFORE, d: [40, 'other'] as const }
    expect(further(early, { ...early, d: [45, 'other'] })).toEqual([])
    expect(further(early, { ...early, d: [35, 'other'] })).toEqual(['window d'])
  })
})
