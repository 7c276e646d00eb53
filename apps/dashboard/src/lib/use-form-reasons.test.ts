import { expect, it } from 'vitest'
import { pathsOf } from './use-form-reasons.ts'

it('names every value of a form, also inside lists', () => {
  expect(pathsOf({ name: 'x', points: [{ temperatureC: 1 }], limit: null })).toEqual([
    'name',
    'points',
    'points.0',
    'points.0.temperatureC',
    'limit',
  ])
})
