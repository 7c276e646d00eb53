import { describe, expect, it } from 'vitest'
import { dateOf, endOfDayMs, endOfMonthDate, startOfDayMs, zoneOffsetMinutes } from './calendar.ts'

const hours = (ms: number): number => ms / 3_600_000

describe('endOfDayMs', () => {
  it('is the first instant of the next day', () => {
    expect(new Date(endOfDayMs('2026-11-25', 'America/Chicago')).toISOString()).toBe(
      '2026-11-26T06:00:00.000Z',
    )
  })

  it.each([
    ['2026-03-08', 'America/New_York', 23],
    ['2026-11-01', 'America/New_York', 25],
    ['2026-03-29', 'Europe/London', 23],
    ['2026-10-25', 'Europe/London', 25],
    ['2026-07-01', 'America/Phoenix', 24],
  ])('makes %s in %s last %d h', (day, zone, length) => {
    expect(hours(endOfDayMs(day, zone) - startOfDayMs(day, zone))).toBe(length)
  })

  it('ends a day at the first instant that exists where midnight is skipped', () => {
    // Lebanon goes forward at 00:00 on the last Sunday of March (tz database): 2025-03-30 starts at 01:00.
    expect(new Date(endOfDayMs('2025-03-29', 'Asia/Beirut')).toISOString()).toBe('2025-03-29T22:00:00.000Z')
  })

  it.each(['2026-02-29', '2026-13-01', '2026-1-1', '', '2026-11-25T00:00'])('refuses the date %j', (day) => {
    expect(() => endOfDayMs(day, 'UTC')).toThrow(RangeError)
  })

  it('refuses a zone that nobody knows', () => {
    expect(() => endOfDayMs('2026-11-25', 'Mars/Olympus')).toThrow(/timeZone is 'Mars\/Olympus'/)
  })
})

describe('endOfMonthDate', () => {
  it.each([
    [2027, 2, '2027-02-28'],
    [2028, 2, '2028-02-29'],
    [2100, 2, '2100-02-28'],
    [2000, 2, '2000-02-29'],
    [2026, 11, '2026-11-30'],
    [2026, 12, '2026-12-31'],
  ])('gives the last day of %d-%d', (year, month, date) => {
    expect(endOfMonthDate(year, month)).toBe(date)
  })

  it('refuses month 0 and 13', () => {
    expect(() => endOfMonthDate(2026, 0)).toThrow(/month is 0/)
    expect(() => endOfMonthDate(2026, 13)).toThrow(/month is 13/)
  })
})

describe('dateOf', () => {
  it('follows the shop, not the server', () => {
    const lateEvening = Date.parse('2026-11-26T03:00:00Z')
    expect(dateOf(lateEvening, 'America/Denver')).toBe('2026-11-25')
    expect(dateOf(lateEvening, 'Europe/Berlin')).toBe('2026-11-26')
  })
})

describe('zoneOffsetMinutes', () => {
  it('changes with daylight saving', () => {
    expect(zoneOffsetMinutes(Date.parse('2026-01-15T12:00Z'), 'America/New_York')).toBe(-300)
    expect(zoneOffsetMinutes(Date.parse('2026-07-15T12:00Z'), 'America/New_York')).toBe(-240)
  })
})
