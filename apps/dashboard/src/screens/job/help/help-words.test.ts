import { expect, it } from 'vitest'
import { atLeast, savedPerDegree } from './help-words.ts'

it('never shows less heat than is needed', () => {
  expect(atLeast(29.5, 'C')).toBe('29.5 °C')
  expect(atLeast(29.5, 'F')).toBe('85.1 °F')
  expect(atLeast(29.53, 'F')).toBe('85.2 °F')
})

it('tells what a degree saves in the degrees of the reader', () => {
  expect(savedPerDegree(18, 'C')).toBe('18 min for each °C')
  expect(savedPerDegree(18, 'F')).toBe('10 min for each °F')
  expect(savedPerDegree(6.44, 'C')).toBe('6.4 min for each °C')
})
