import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { croston, demandProbability } from './demand.ts'

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
    for (const smoothing of [0, -1, 1.01, Number.NaN])
      expect(() => demandProbability([3], smoothing)).toThrow(
        `smoothing is ${smoothing}: give a share above 0 and at most 1`,
      )
    expect(demandProbability([0, 3], 1)).toBe(1)
  })
})

describe('croston', () => {
  it.each(['size', 'interval'] as const)(
    'refuses a smoothing of the %s outside 0 to 1, and takes 1',
    (name) => {
      for (const value of [0, -0.1, 1.1, Number.NaN])
        expect(() => croston([1], { size: 0.1, interval: 0.1, [name]: value })).toThrow(
          `smoothing.${name} is ${value}: give a share above 0 and at most 1`,
        )
      expect(croston([4, 0, 8], { size: 1, interval: 1 }, false)).toEqual({
        size: 8,
        interval: 2,
        perPeriod: 4,
      })
    },
  )

  it('names the period whose demand cannot be, and knows no rate while nothing was asked for', () => {
    expect(() => croston([0, 5, -2])).toThrow('demands[2] is -2: give 0 or more')
    expect(() => croston([Number.NaN])).toThrow('demands[0] is NaN: give 0 or more')
    expect(croston([0, 0, 0])).toBeNull()
    expect(croston([])).toBeNull()
  })
})
