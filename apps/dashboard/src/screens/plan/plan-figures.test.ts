import { expect, it } from 'vitest'
import { hours } from './plan-figures.ts'

it.each([
  [0, '0 min'],
  [59, '59 min'],
  [60, '1 h'],
  [61.4, '1 h 1 min'],
  [3921, '65 h 21 min'],
])('%f min are %s', (minutes, text) => {
  expect(hours(minutes)).toBe(text)
})
