import { expect, it } from 'vitest'
import { percentOf } from './percent.ts'

it('never shows 100 % before it is reached', () => {
  expect(percentOf(0.9999)).toBe(99)
  expect(percentOf(1)).toBe(100)
  expect(percentOf(1.7)).toBe(100)
  expect(percentOf(-0.1)).toBe(0)
  expect(percentOf(0.29)).toBe(29)
})
