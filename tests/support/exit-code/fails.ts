import { expect, it } from 'vitest'

it('fails on purpose, so that the run must too', () => {
  expect('passed').toBe('failed')
})
