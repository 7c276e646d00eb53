import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { windowOf } from './windowed.ts'

it('draws what is on the screen and a little more', () => {
  expect(windowOf({ count: 5000, rowHeightPx: 40, scrolledPx: 4000, screenPx: 800, overscan: 5 })).toEqual({
    first: 95,
    end: 125,
  })
})

it('covers every visible row of any list at any scroll position', () => {
  fc.assert(
    fc.property(
      fc.nat(5000),
      fc.integer({ min: 20, max: 120 }),
      fc.integer({ min: -2000, max: 600_000 }),
      (count, rowHeightPx, scrolledPx) => {
        const { first, end } = windowOf({ count, rowHeightPx, scrolledPx, screenPx: 900, overscan: 0 })
        for (let row = 0; row < count; row += 1) {
          const top = row * rowHeightPx - scrolledPx
          const isVisible = top < 900 && top + rowHeightPx > 0
          expect(!isVisible || (row >= first && row < end)).toBe(true)
        }
        expect(first).toBeLessThanOrEqual(end)
        expect(end - first).toBeLessThanOrEqual(900 / rowHeightPx + 2)
      },
    ),
    { numRuns: 30 },
  )
})
