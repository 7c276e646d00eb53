import { expect, it } from 'vitest'
import { pathsOf } from './use-form-reasons.ts'

it('names every field of a form, also inside lists of things', () => {
  expect(pathsOf({ name: 'x', points: [{ temperatureC: 1 }], limit: null })).toEqual([
    'name',
    'points.0.temperatureC',
    'limit',
  ])
})

it('takes a list of words for one field, since one input holds it', () => {
  expect(pathsOf({ forms: ['round', 'flat'], none: [] })).toEqual(['forms', 'none'])
})
