import { describe, expect, it } from 'vitest'
import { ProblemError } from '../../api/problem.ts'
import { confirmedOf, meantC, questionsOf, shownIn } from './questions.ts'

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
    expect(meantC([reason('fahrenheit')], 73, 'C')).toBe(22.8)
    expect(meantC([reason('celsius')], -5.56, 'F')).toBe(22)
    expect(meantC([reason('aboveAir')], 73, 'C')).toBeUndefined()
    expect(meantC([reason('fahrenheit')], undefined, 'C')).toBeUndefined()
    // 150 typed as degF is 65.6 degC, which reads like degF as well: but degF is what the field takes.
    expect(meantC([reason('fahrenheit')], 65.6, 'F')).toBeUndefined()
  })

  it('leave out a slip that cannot be in a field of that unit, unless nothing else is asked', () => {
    const both = [reason('fahrenheit'), reason('aboveAir')]
    expect(shownIn(both, 'F')).toEqual([reason('aboveAir')])
    expect(shownIn(both, 'C')).toEqual(both)
    expect(shownIn([reason('fahrenheit')], 'F')).toEqual([reason('fahrenheit')])
  })
})
