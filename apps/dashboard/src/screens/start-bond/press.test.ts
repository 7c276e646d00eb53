import { describe, expect, it } from 'vitest'
import { ProblemError, toProblemError, UnreachableError } from '../../api/problem.ts'
import { instantOf, pressAfter } from './press.ts'

const FIRST = '2031-05-04T14:02:00.000Z'
const LATER = '2031-05-04T14:09:00.000Z'
const later = () => LATER

const refused = new ProblemError('bond-refused', 409, 'Refused', [{ code: 'surfaces', message: 'No' }])
const asked = new ProblemError('reading-questioned', 409, 'Is it?', [{ code: 'aboveAir', message: 'Is it?' }])

describe('the instant of a press', () => {
  it('is that of the first while nothing is known of it', () => {
    for (const error of [
      new UnreachableError('cut'),
      toProblemError(503, {}),
      toProblemError(429, {}),
      asked,
    ]) {
      const press = pressAfter({}, FIRST, error)
      expect(instantOf(press, false, later)).toBe(FIRST)
      expect(instantOf(press, true, later)).toBe(FIRST)
    }
  })

  it('outlives having to sign in again', () => {
    const over = new ProblemError('not-signed-in', 401, 'Sign in', [])
    expect(instantOf(pressAfter({}, FIRST, over), false, later)).toBe(FIRST)
  })

  it('is a new one after a refusal: what was refused did not happen', () => {
    expect(instantOf(pressAfter({}, FIRST, refused), false, later)).toBe(LATER)
  })

  it('is the first refused one where the adhesive was on all the same', () => {
    const twice = pressAfter(pressAfter({}, FIRST, refused), LATER, refused)
    expect(instantOf(twice, true, () => '2031-05-04T14:20:00.000Z')).toBe(FIRST)
  })
})
