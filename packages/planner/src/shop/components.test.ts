import { describe, expect, it } from 'vitest'
import { defineProblem } from '../model/define-problem.ts'
import { compile } from './compile.ts'

/** a -> b -> c -> d and b -> e; a hold from b until d, another over c; d and e take as long anywhere. */
const compiled = compile(
  defineProblem({
    horizonMinutes: 100,
    profiles: [{ id: 'slow', points: [{ atMinute: 0, ratePerMinute: 1 }] }],
    resources: [{ id: 'bay' }, { id: 'clamp' }],
    jobs: [{ id: 'j' }, { id: 'k' }],
    tasks: ['a', 'b', 'c', 'd', 'e', 'f'].map((id) => ({
      id,
      jobId: id === 'f' ? 'k' : 'j',
      modes: [{ work: 1, ...('de'.includes(id) ? {} : { profileByResource: { bay: 'slow' } }) }],
    })),
    lags: ['ab', 'bc', 'cd', 'be'].map(([from, to]) => ({ from, to })),
    holds: [
      { id: 'stay', anyOf: ['bay'], fromTask: 'b', untilTask: 'd', until: 'start' },
      { id: 'one', anyOf: ['clamp'], fromTask: 'c', untilTask: 'c' },
    ],
  }),
)

describe('components', () => {
  it('ties what a hold spans, and nothing else', () => {
    const parts = compiled.groups[0]!.components.map((component) => [...component.tasks].join(''))
    expect(parts.toSorted()).toEqual(['0', '123', '4'])
  })

  it('orders components by precedence and separates jobs without ties', () => {
    const parts = compiled.groups[0]!.components.map((component) => component.tasks[0])
    expect(parts.indexOf(0)).toBe(0)
    expect(parts.indexOf(1)).toBeLessThan(parts.indexOf(4))
    expect(compiled.groups).toHaveLength(2)
  })

  it('knows which holds lie over a task whose length depends on the resource', () => {
    expect(compiled.holdsOver.map((list) => [...list])).toEqual([[], [0], [0, 1], [], [], []])
  })
})
