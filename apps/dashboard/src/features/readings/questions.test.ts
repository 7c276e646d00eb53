import { describe, expect, it } from 'vitest'
import { ProblemError } from '../../api/problem.ts'
import { confirmedOf, meantC, questionsOf } from './questions.ts'

const reason = (code: string) => ({ code, message: 'Is it?' })

describe('questions about a reading', () => {
  it('are those of the answer that asks, and of no other', () => {
    const asked = new ProblemError('reading-questioned', 409, 'Is it?', [reason('aboveAir')])
    expect(questionsOf(asked)).toEqual([reason('aboveAir')])
    expect(questionsOf(new ProblemError('wrong-state', 409, 'No', [reason('aboveAir')]))).toEqual([])
    expect(questionsOf(null)).toEqual([])
  })

  it('are confirmed by their kinds', () => {
    expect(confirmedOf([reason('aboveAir'), reason('something-new')])).toEqual(['aboveAir'])
  })

  it('say what was meant where only the unit slipped', () => {
    expect(meantC([reason('fahrenheit')], 73)).toBe(22.8)
    expect(meantC([reason('celsius')], -5.56)).toBe(22)
    expect(meantC([reason('aboveAir')], 73)).toBeUndefined()
    expect(meantC([reason('fahrenheit')], undefined)).toBeUndefined()
  })
})
