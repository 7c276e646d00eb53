import { expect, it } from 'vitest'
import { isUnwatched } from './unwatched.ts'

const at = '2031-05-07T16:00:00.000Z'
const after = (minutes: number) => Date.parse(at) + minutes * 60_000

it('says that nobody looks when looking fails, or has not come to its end for minutes', () => {
  expect(isUnwatched({ at, failing: false }, after(1))).toBe(false)
  expect(isUnwatched({ at, failing: true }, after(1))).toBe(true)
  expect(isUnwatched({ at, failing: false }, after(6))).toBe(true)
  // Nobody has looked yet in the first moments of a new chain.
  expect(isUnwatched({ at: null, failing: false }, after(6))).toBe(false)
  expect(isUnwatched({ at: null, failing: true }, after(0))).toBe(true)
})
