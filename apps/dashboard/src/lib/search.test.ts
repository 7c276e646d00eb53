import { expect, it } from 'vitest'
import { dayOf, oneOf, textOf, uuidOf } from './search.ts'

it('reads what makes sense', () => {
  expect(oneOf('soon', ['expired', 'soon'])).toBe('soon')
  expect(textOf(' A 12 ')).toBe('A 12')
  expect(textOf(1234)).toBe('1234')
  expect(uuidOf('3f2504e0-4f89-41d3-9a0c-0305e82c3301')).toBe('3f2504e0-4f89-41d3-9a0c-0305e82c3301')
  expect(dayOf('2031-05-04')).toBe('2031-05-04')
})

it('takes nonsense for absent', () => {
  expect(oneOf('later', ['expired', 'soon'])).toBeUndefined()
  expect(textOf('   ')).toBeUndefined()
  expect(textOf({ a: 1 })).toBeUndefined()
  expect(uuidOf('1 or 1=1')).toBeUndefined()
  expect(dayOf('2031-13-40')).toBeUndefined()
})
