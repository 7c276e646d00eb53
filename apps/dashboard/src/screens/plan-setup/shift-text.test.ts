import { expect, it } from 'vitest'
import { readShifts, shiftText } from './shift-text.ts'

it('reads what it writes', () => {
  const shifts = [
    { weekday: 1, from: '07:00', until: '12:00' },
    { weekday: 1, from: '12:30', until: '24:00' },
    { weekday: 2, from: '08:00', until: '09:00' },
  ]
  expect(shiftText(shifts, 1)).toBe('07:00-12:00, 12:30-24:00')
  expect(readShifts(shiftText(shifts, 1), 1)).toEqual({ shifts: shifts.slice(0, 2) })
})

it('takes a short hour, a dash of any kind, and nothing for a day off', () => {
  expect(readShifts(' 7:00 – 12:00 ', 3)).toEqual({ shifts: [{ weekday: 3, from: '07:00', until: '12:00' }] })
  expect(readShifts('  ', 3)).toEqual({ shifts: [] })
})

it('names what is no shift', () => {
  expect(readShifts('07:00-12:00, noon', 1)).toEqual({ fault: 'noon is no shift: write it like 07:00-12:00' })
})
