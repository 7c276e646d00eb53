import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { check } from './check/check.ts'
import { definePlan } from './model/define-plan.ts'
import { defineProblem } from './model/define-problem.ts'
import { objectiveTerms } from './model/problem.ts'
import { solve } from './solve.ts'

const guide = readFileSync(new URL('../../../docs/planner.md', import.meta.url), 'utf8')
const blocks = [...guide.matchAll(/```json\n([^]*?)```/g)].map((match): unknown => JSON.parse(match[1]!))

describe('docs/planner.md', () => {
  it('shows a problem and a piece of its best plan', () => {
    const problem = defineProblem(blocks[0])
    const result = solve(problem, { stop: { iterations: 50 } })
    const shown = definePlan(blocks[1])
    expect(check(problem, result.plan).violations).toEqual([])
    expect(result.plan.tasks).toEqual(expect.arrayContaining([...shown.tasks]))
    expect(result.plan.holds).toEqual(expect.arrayContaining([...shown.holds]))
  })

  it('names every objective term', () => {
    for (const term of objectiveTerms) expect(guide).toContain(`\`${term}\``)
  })
})
