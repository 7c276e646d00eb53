import { expect, it } from 'vitest'
import { readingReasons } from './enough-readings.ts'

const NOON = Date.parse('2031-05-07T12:00:00Z')
const reading = (minutes: number, changes: object = {}) => ({
  at: new Date(NOON + minutes * 60_000),
  calibratedUntil: new Date('2031-12-31'),
  quality: 'good',
  ...changes,
})
const reasons = (panelReadings: ReturnType<typeof reading>[], safetyClass = 'S1') =>
  readingReasons({ joint: { name: 'Roof', safetyClass }, panelReadings }, 'Etc/UTC').map(({ message }) =>
    typeof message === 'string' ? message : message.params,
  )

// Common practice, no source: two looks at the metal, at least ten minutes apart.
it('a joint of class S1 asks for two looks at the metal, ten minutes apart and more, in any order', () => {
  expect(reasons([])).toMatchObject([{ joint: 'Roof', good: 0, needed: 2 }])
  expect(reasons([reading(0)])).toMatchObject([{ good: 1 }])
  expect(reasons([reading(0), reading(0)])).toMatchObject([{ good: 1 }])
  expect(reasons([reading(0), reading(9.99)])).toMatchObject([{ good: 1 }])
  expect(reasons([reading(0), reading(10)])).toEqual([])
  expect(reasons([reading(10), reading(0)])).toEqual([])
  expect(reasons([reading(18), reading(9), reading(0)])).toEqual([])
  // Each is counted from the last that counted: nine and nine is eighteen, and no third look.
  expect(reasons([reading(0), reading(5), reading(9)])).toMatchObject([{ good: 1 }])
})

it('what is in doubt or was read with an instrument out of calibration is no look', () => {
  expect(reasons([reading(0), reading(30, { quality: 'suspect' })])).toMatchObject([{ good: 1 }])
  expect(reasons([reading(0), reading(30, { calibratedUntil: null })])).toMatchObject([{ good: 1 }])
  expect(reasons([reading(0), reading(30, { calibratedUntil: new Date('2031-05-06') })])).toMatchObject([
    { good: 1 },
  ])
})

it('other joints ask for none', () => {
  expect(reasons([], 'S2')).toEqual([])
  expect(reasons([], 'S3')).toEqual([])
})
