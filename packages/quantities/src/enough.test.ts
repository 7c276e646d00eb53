import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { isEnoughMl, takenMl, wholeMl } from './enough.ts'

it('takes 52.97 where 53 is asked of it, and asks on for what is not there', () => {
  expect(takenMl(53, 52.97)).toBe(52.97)
  expect(takenMl(50, 52.97)).toBe(50)
  expect(takenMl(54, 52.97)).toBe(54)
  expect(takenMl(201, 200)).toBe(201)
  expect(takenMl(0.5, 0)).toBe(0.5)
})

it('takes 53 for 52.97, and 52 not', () => {
  expect(isEnoughMl(53, 52.97)).toBe(true)
  expect(isEnoughMl(52.97, 52.97)).toBe(true)
  expect(isEnoughMl(52, 52.97)).toBe(false)
})

const ml = fc.double({ min: 0, max: 5000, noNaN: true })

it('is never off by a millilitre, and what a form writes for a need is enough for it', () => {
  fc.assert(
    fc.property(ml, ml, (asked, held) => {
      const taken = takenMl(asked, held)
      expect(taken).toBeLessThanOrEqual(asked)
      expect(asked - taken).toBeLessThan(1)
      expect(isEnoughMl(wholeMl(asked), asked)).toBe(true)
      if (isEnoughMl(asked, held)) expect(asked).toBeGreaterThan(held - 1.001)
    }),
  )
})
