import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { linearScale, logScale } from './scale.ts'

const value = fc.double({ min: 0.1, max: 10_000, noNaN: true })

it.each([
  ['linear', linearScale],
  ['logarithmic', logScale],
])('puts the ends of a %s span on the ends of the px, keeps the order, and finds the way back', (_, make) => {
  fc.assert(
    fc.property(value, value, value, (from, length, within) => {
      const to = from + length
      const scale = make([from, to], [300, 20])
      expect(scale(from)).toBeCloseTo(300, 6)
      expect(scale(to)).toBeCloseTo(20, 6)
      const between = from + (within % length)
      expect(scale(between)).toBeLessThanOrEqual(300 + 1e-6)
      expect(scale(between)).toBeGreaterThanOrEqual(20 - 1e-6)
      expect(scale.valueAt(scale(between)) / between).toBeCloseTo(1, 6)
    }),
  )
})

it('makes equal ratios equally long on a logarithmic axis', () => {
  const scale = logScale([1, 1000], [0, 300])
  expect([1, 10, 100, 1000].map((each) => Math.round(scale(each)))).toEqual([0, 100, 200, 300])
  expect(() => logScale([0, 10], [0, 1])).toThrow(RangeError)
})

it('has a place for the only value of an empty span', () => {
  expect(linearScale([5, 5], [0, 100])(5)).toBe(50)
})
