import { expect, it } from 'vitest'
import { isUnwatched } from './unwatched.ts'

const nextAt = '2031-05-07T16:00:00.000Z'
const after = (minutes: number) => Date.parse(nextAt) + minutes * 60_000

it('says that nobody looks when looking fails, or is overdue by minutes', () => {
  expect(isUnwatched({ nextAt, failing: false }, after(-14))).toBe(false)
  expect(isUnwatched({ nextAt, failing: false }, after(2))).toBe(false)
  expect(isUnwatched({ nextAt, failing: true }, after(-14))).toBe(true)
  expect(isUnwatched({ nextAt, failing: false }, after(4))).toBe(true)
  // Nobody has looked yet in the first moments of a new chain.
  expect(isUnwatched({ nextAt: null, failing: false }, after(6))).toBe(false)
  expect(isUnwatched({ nextAt: null, failing: true }, after(0))).toBe(true)
})
