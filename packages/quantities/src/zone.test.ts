import * as fc from 'fast-check'
import { DateTime } from 'luxon'
import { expect, it } from 'vitest'
import { atWall, readDay, startOfDay, wallTime, writeDay } from './zone.ts'

/** With clock changes in both halves of the year, at midnight (Beirut, Santiago), by half an hour, and none. */
const ZONES = [
  'America/Denver',
  'Europe/London',
  'Asia/Beirut',
  'America/Santiago',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'Pacific/Apia',
  'UTC',
]
const zones = fc.constantFrom(...ZONES)
const instants = fc.integer({ min: Date.UTC(2012, 0), max: Date.UTC(2037, 0) })

it('shows what another implementation of time zones shows, and finds the way back', () => {
  fc.assert(
    fc.property(zones, instants, (zone, atMs) => {
      const { year, month, day, hour, minute, second, weekday } = DateTime.fromMillis(atMs, { zone })
      const wall = wallTime(atMs, zone)
      expect(wall).toEqual({ year, month, day, hour, minute, second, weekday })
      // The same clock time, at that instant or at the earlier of two.
      const back = atWall(wall, zone)
      expect(wallTime(back, zone)).toEqual({ ...wall, second: 0 })
      expect(back).toBeLessThanOrEqual(atMs)
    }),
  )
})

it('starts each day with its first instant, also when midnight does not exist', () => {
  fc.assert(
    fc.property(zones, instants, (zone, atMs) => {
      const day = DateTime.fromMillis(atMs, { zone })
      const first = startOfDay(atMs, zone)
      expect(wallTime(first, zone)).toMatchObject({ day: day.day, minute: 0 })
      expect(wallTime(first - 1, zone).day).not.toBe(day.day)
      expect(startOfDay(atMs, zone, 1)).toBe(startOfDay(startOfDay(first, zone, 1), zone))
    }),
  )
})

it('takes the first of two, and jumps with the clocks over what they skip', () => {
  // Denver, 2031: 02:00 to 03:00 on 9 March, 02:00 back to 01:00 on 2 November (US Energy Policy Act of 2005).
  const at = (month: number, day: number, hour: number) =>
    new Date(atWall({ year: 2031, month, day, hour, minute: 30 }, 'America/Denver')).toISOString()
  expect(at(3, 9, 1)).toBe('2031-03-09T08:30:00.000Z')
  expect(at(3, 9, 2)).toBe('2031-03-09T09:30:00.000Z')
  expect(at(3, 9, 3)).toBe('2031-03-09T09:30:00.000Z')
  expect(at(11, 2, 1)).toBe('2031-11-02T07:30:00.000Z')
  expect(at(11, 2, 2)).toBe('2031-11-02T09:30:00.000Z')
})

it('reads days of the calendar and no others', () => {
  expect(readDay('2032-02-29')).toEqual({ year: 2032, month: 2, day: 29 })
  for (const none of ['2031-02-29', '2031-13-01', '2031-5-1', '', 'today'])
    expect(readDay(none)).toBe(undefined)
  expect(writeDay({ year: 2031, month: 2, day: 29 })).toBe('2031-03-01')
})
