import { describe, expect, it } from 'vitest'
import { formatDate, formatInstant, formatNear, fromWallClock, todayIn, toWallClock } from './instants.ts'

const zone = 'America/Denver'
const now = Date.parse('2031-05-04T18:00:00Z') // 12:00 in Denver

describe('formatNear', () => {
  it('gives the clock alone today, and the day otherwise', () => {
    expect(formatNear('2031-05-04T20:30:00Z', zone, now)).toBe('14:30')
    expect(formatNear('2031-05-05T14:05:00Z', zone, now)).toBe('tomorrow 08:05')
    expect(formatNear('2031-05-03T14:05:00Z', zone, now)).toBe('yesterday 08:05')
    expect(formatNear('2031-05-07T14:05:00Z', zone, now)).toBe('Wed 7 May, 08:05')
    expect(formatNear('2032-01-07T15:05:00Z', zone, now)).toBe('7 Jan 2032, 08:05')
  })
})

describe('fromWallClock', () => {
  it("reads the shop's wall clock and writes it back", () => {
    const read = fromWallClock('2031-05-04T12:00', zone)
    expect(read).toEqual({ iso: '2031-05-04T18:00:00.000Z' })
    expect(toWallClock('2031-05-04T18:00:00.000Z', zone)).toBe('2031-05-04T12:00')
  })
  it('refuses an hour that the spring change skips', () => {
    // Denver goes from 02:00 to 03:00 on the second Sunday of March (US Energy Policy Act of 2005).
    expect(fromWallClock('2031-03-09T02:30', zone)).toHaveProperty('fault')
  })
  it('refuses an empty field', () => {
    expect(fromWallClock('', zone)).toHaveProperty('fault')
  })
})

it('writes a calendar day without a zone', () => {
  expect(formatDate('2031-05-31')).toBe('31 May 2031')
})

it("knows the shop's day", () => {
  expect(todayIn('Pacific/Auckland', now)).toBe('2031-05-05')
  expect(formatInstant('2031-05-04T18:00:00Z', zone)).toBe('Sun 4 May, 12:00')
})
