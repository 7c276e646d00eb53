import { expect, it } from 'vitest'
import { urlOf } from './url.ts'

it('fills and escapes parameters', () => {
  expect(urlOf('/v1/lots/:lotId/hold', { lotId: 'a/b' }, undefined)).toBe('/v1/lots/a%2Fb/hold')
})

it('leaves out of the query what is not given', () => {
  expect(urlOf('/v1/cartridges', undefined, { shopId: undefined, code: '', urgency: 'soon', limit: 5 })).toBe(
    '/v1/cartridges?urgency=soon&limit=5',
  )
})

it('refuses a path with a parameter missing', () => {
  expect(() => urlOf('/v1/lots/:lotId', {}, undefined)).toThrow(/lotId/)
})
