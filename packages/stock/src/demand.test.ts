import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { demandProbability } from './demand.ts'

const days = fc.array(fc.constantFrom(0, 0, 0, 40, 90), { minLength: 1, maxLength: 400 })

describe('demandProbability', () => {
  it('is the share of the days that had a demand, while there are few', () => {
    expect(demandProbability([0, 0, 40, 0], 0.1)).toBeCloseTo(0.25, 12)
    expect(demandProbability([], 0.1)).toBe(0)
    fc.assert(
      fc.property(days, (demands) => {
        const share = demands.filter((ml) => ml > 0).length / demands.length
        expect(demandProbability(demands, 1 / 400)).toBeCloseTo(share, 9)
      }),
    )
  })

  it('falls day by day by the constant while nothing is asked for, and rises when something is', () => {
    fc.assert(
      fc.property(days, (demands) => {
        const long = [...demands, ...demands.map(() => 0), ...Array.from({ length: 20 }, () => 0)]
        const before = demandProbability(long, 0.1)
        expect(demandProbability([...long, 0], 0.1)).toBeCloseTo(0.9 * before, 12)
        expect(demandProbability([...long, 40], 0.1)).toBeGreaterThan(before)
      }),
    )
  })

  it('refuses what cannot be', () => {
    expect(() => demandProbability([3, -1], 0.1)).toThrow('demands[1]')
    expect(() => demandProbability([3], 0)).toThrow('smoothing')
  })
})
