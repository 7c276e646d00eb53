import { expect, it } from 'vitest'
import { ProblemError } from '../../../api/problem.ts'
import { confirmedOf, questionsOf } from './sheet-questions.ts'

const reason = (code: string) => ({ code, message: 'Is it?' })

it('asks what the answer asks, and confirms each kind once', () => {
  const reasons = [reason('muchFaster'), reason('muchFaster'), reason('something-new'), reason('celsius')]
  const asked = new ProblemError('sheet-questioned', 409, 'Is it?', reasons)
  expect(questionsOf(asked)).toEqual(reasons)
  expect(confirmedOf(questionsOf(asked))).toEqual(['muchFaster', 'celsius'])
  expect(questionsOf(new ProblemError('wrong-state', 409, 'No', reasons))).toEqual([])
  expect(questionsOf(null)).toEqual([])
})
