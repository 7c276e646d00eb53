import { readerFrom, say } from '@clampclock/messages'
import { expect, it } from 'vitest'
import { inEnglish } from '../words/words.ts'
import { fieldSentence } from './field-words.ts'

const AMERICAN = readerFrom({}, 'en-US')

it('tells a bound of a length or a volume in the unit of the reader', () => {
  const tooLong = fieldSentence('Too big: expected number to be <=20000', 'joint.lengthMm')
  expect(say(AMERICAN, tooLong)).toBe('must be ≤ 787.402 in')
  expect(inEnglish(tooLong)).toBe('must be ≤ 20000.0 mm')
  expect(say(AMERICAN, fieldSentence('must be at least 10', 'amountMl'))).toContain('0.34 fl oz')
})

it('leaves a bound of anything else the number that it is', () => {
  expect(say(AMERICAN, fieldSentence('Too big: expected number to be <=4', 'technicians'))).toBe(
    'must be ≤ 4',
  )
  expect(fieldSentence('must be above 0', 'lengthMm').code).toBe('field.above')
})
