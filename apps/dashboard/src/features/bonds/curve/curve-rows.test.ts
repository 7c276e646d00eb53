import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BondCurve } from '../../../api/types.ts'
import { clockTicks, curveRows, rowAt, tickLabel } from './curve-rows.ts'
import { readyTimes, tableRows } from './curve-table-rows.ts'

const NOON_MS = Date.parse('2031-05-04T12:00:00Z')
const at = (hours: number) => new Date(NOON_MS + hours * 3_600_000).toISOString()
const point = (hours: number, expectedC: number, done: number) => ({
  at: at(hours),
  lowC: expectedC - 1,
  expectedC,
  highC: expectedC + 1,
  progress: { earliest: done + 0.1, expected: done, conservative: done - 0.1 },
})
const curve: BondCurve = {
  bondId: 'b',
  asOf: at(1),
  readyAt: {
    earliest: { kind: 'at', at: at(3.6) },
    expected: { kind: 'at', at: at(4) },
    conservative: { kind: 'never', reason: 'beyondForecast' },
  },
  points: [point(0, 20, 0.1), point(2, 20, 0.5), point(2, 30, 0.5), point(4, 30, 1)],
  events: [
    { kind: 'applied', at: at(0), by: 'T', temperatureC: null, detail: '' },
    { kind: 'reading', at: at(2), by: 'T', temperatureC: 30, detail: '' },
  ],
}

describe('rowAt', () => {
  const rows = curveRows(curve, 'C')
  it('lies on the line between its neighbours', () => {
    expect(rowAt(rows, NOON_MS + 3_600_000)).toMatchObject({ metal: 20, progress: { expected: 30 } })
  })
  it('takes what was measured where the line jumps', () => {
    expect(rowAt(rows, Date.parse(at(2)))?.metal).toBe(30)
  })
  it('is undefined before and after', () => {
    expect(rowAt(rows, NOON_MS - 1)).toBeUndefined()
    expect(rowAt(rows, Date.parse(at(4)) + 1)).toBeUndefined()
  })
  it('shows the unit of the shop', () => {
    expect(curveRows(curve, 'F')[0]?.metal).toBe(68)
  })
})

describe('clockTicks', () => {
  it('are round on the clock of the shop, on a day of 23 hours too', () => {
    const from = Date.parse('2031-03-09T06:10:00Z')
    const ticks = clockTicks(from, from + 12 * 3_600_000, 'America/New_York', 4)
    expect(ticks.map((atMs) => tickLabel(atMs, 'America/New_York'))).toEqual([
      '03:00',
      '06:00',
      '09:00',
      '12:00',
    ])
    expect(tickLabel(Date.parse('2031-03-09T05:00:00Z'), 'America/New_York')).toBe('Sun 9')
  })
  it('lie in the span, in order, and are few', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4e11 }),
        fc.integer({ min: 1, max: 40 * 24 * 60 }),
        fc.integer({ min: 3, max: 12 }),
        (offsetMs, minutes, most) => {
          const from = NOON_MS + offsetMs
          const to = from + minutes * 60_000
          const ticks = clockTicks(from, to, 'Europe/Lisbon', most)
          expect(ticks.every((tick) => tick >= from && tick <= to)).toBe(true)
          expect(ticks.toSorted((a, b) => a - b)).toEqual(ticks)
          expect(ticks.length).toBeLessThanOrEqual(most + 2)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('tableRows', () => {
  it('has every instant that the plot marks, in order, with its figures', () => {
    const rows = tableRows(curve, 'C', 'utc', Date.parse(at(1)))
    expect(rows.map(({ what }) => what).filter((what) => what !== '')).toEqual([
      'Applied by T',
      'Now',
      'Panel measured by T',
      'Handling strength, earliest',
      'Handling strength, expected',
    ])
    expect(rows.find(({ what }) => what.startsWith('Panel'))?.row?.metal).toBe(30)
  })
  it('has reached handling strength at its ready time, though the curve is drawn through points', () => {
    const row = tableRows(curve, 'C', 'utc', NOON_MS).find(({ what }) => what.endsWith('earliest'))?.row
    expect(row?.progress.earliest).toBe(100)
  })
  it('names a ready time only where there is one', () => {
    expect(readyTimes(curve).map(({ line }) => line)).toEqual(['earliest', 'expected'])
  })
  it('lists what happened even where no temperature is known', () => {
    const rows = tableRows({ ...curve, points: [] }, 'C', 'utc', NOON_MS)
    expect(rows[0]).toEqual({ atMs: NOON_MS, what: 'Applied by T', row: undefined })
  })
})
