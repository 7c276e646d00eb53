import { expect, it } from 'vitest'
import { formatUntil, lastDay } from './until.ts'

it('calls midnight the end of the day before', () => {
  expect(formatUntil('2031-06-01T06:00:00Z', 'America/Denver')).toBe('the end of 31 May 2031')
  expect(formatUntil('2031-06-01T06:30:00Z', 'America/Denver')).toBe('1 Jun 2031, 00:30')
})

it('gives the last day that counts', () => {
  expect(lastDay('2031-06-01T06:00:00Z', 'America/Denver')).toBe('31 May 2031')
  expect(lastDay('2031-06-01T06:30:00Z', 'America/Denver')).toBe('1 Jun 2031')
})
