import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { strengthShare, type StrengthPoint } from './strength-picture.ts'
import { between } from '../testing.ts'

const table: readonly StrengthPoint[] = [
  { fullCureProgress: 0.1, strengthShare: 0.1 },
  { fullCureProgress: 0.3, strengthShare: 0.7 },
  { fullCureProgress: 1, strengthShare: 1 },
]
const anyTable = fc
  .array(fc.record({ wide: between(0.02, 1), rise: between(0, 1) }), { minLength: 1, maxLength: 6 })
  .map((steps) => {
    const all = steps.reduce((sum, step) => sum + step.rise, 1e-9)
    let [fullCureProgress, share] = [0, 0]
    return steps.map(({ wide, rise }) => {
      fullCureProgress += wide
      share = Math.min(1, share + rise / all)
      return { fullCureProgress, strengthShare: share }
    })
  })

describe('strengthShare', () => {
  it('passes through its points and stays at the last', () => {
    for (const point of table)
      expect(strengthShare(table, point.fullCureProgress)).toBeCloseTo(point.strengthShare, 12)
    expect(strengthShare(table, 0)).toBe(0)
    expect(strengthShare(table, 4)).toBe(1)
  })

  it('never falls as cure goes on, and stays between nothing and all', () => {
    fc.assert(
      fc.property(anyTable, between(0, 3), between(0, 1), (points, progress, more) => {
        const [before, after] = [strengthShare(points, progress), strengthShare(points, progress + more)]
        expect(after).toBeGreaterThanOrEqual(before - 1e-12)
        expect(before).toBeGreaterThanOrEqual(0)
        expect(after).toBeLessThanOrEqual(1 + 1e-12)
      }),
    )
  })

  it('refuses a table that cannot be', () => {
    expect(() => strengthShare([], 0.5)).toThrow(/points is empty/)
    expect(() => strengthShare([table[1]!, table[0]!], 0.5)).toThrow(/points\[1\]\.fullCureProgress is 0.1/)
    expect(() => strengthShare([{ fullCureProgress: 1, strengthShare: 1.2 }], 0.5)).toThrow(
      /strengthShare is 1.2/,
    )
    const falls = [table[1]!, { fullCureProgress: 1, strengthShare: 0.5 }]
    expect(() => strengthShare(falls, 0.5)).toThrow(/less than before/)
    expect(() => strengthShare(table, -1)).toThrow(/fullCureProgress is -1/)
  })
})
