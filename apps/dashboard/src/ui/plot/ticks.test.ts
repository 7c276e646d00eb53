import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { roundTicks } from './ticks.ts'

it('gives round figures that hold the whole span', () => {
  expect(roundTicks(66, 358)).toEqual([0, 100, 200, 300, 400])
  expect(roundTicks(-3, 47)).toEqual([-10, 0, 10, 20, 30, 40, 50])
  fc.assert(
    fc.property(fc.integer({ min: -100, max: 700 }), fc.integer({ min: 1, max: 800 }), (min, span) => {
      const ticks = roundTicks(min, min + span)
      expect(ticks[0]).toBeLessThanOrEqual(min)
      expect(ticks.at(-1)).toBeGreaterThanOrEqual(min + span)
      expect(ticks.length).toBeLessThanOrEqual(7)
    }),
  )
})
