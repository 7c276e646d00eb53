import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { LONGEST_MEASURED_GAP_MS, measuredMs } from './measured-share.ts'

const HOUR = 3_600_000
const day = { fromMs: 0, toMs: 24 * HOUR }

it('counts the time between neighbouring readings, and no gap', () => {
  expect(measuredMs([0, HOUR, 2 * HOUR], day)).toBe(2 * HOUR)
  expect(measuredMs([0, HOUR, 9 * HOUR, 10 * HOUR], day)).toBe(2 * HOUR)
  expect(measuredMs([0, LONGEST_MEASURED_GAP_MS], day)).toBe(LONGEST_MEASURED_GAP_MS)
  expect(measuredMs([0, LONGEST_MEASURED_GAP_MS + 1], day)).toBe(0)
})

it('takes one reading, or none, for no measurement', () => {
  expect(measuredMs([], day)).toBe(0)
  expect(measuredMs([3 * HOUR], day)).toBe(0)
})

it('counts within the stretch alone', () => {
  expect(measuredMs([-HOUR, HOUR, 2 * HOUR], { fromMs: 0, toMs: 1.5 * HOUR })).toBe(1.5 * HOUR)
  expect(measuredMs([-2 * HOUR, -HOUR], day)).toBe(0)
})

it('is at most the stretch, and never less for one more reading between two that are measured', () => {
  const instants = fc.array(fc.integer({ min: -24 * HOUR, max: 48 * HOUR }), { maxLength: 30 })
  fc.assert(
    fc.property(instants, (list) => {
      const sorted = [...new Set(list)].sort((a, b) => a - b)
      const whole = measuredMs(sorted, day)
      expect(whole).toBeGreaterThanOrEqual(0)
      expect(whole).toBeLessThanOrEqual(day.toMs)
    }),
  )
})
