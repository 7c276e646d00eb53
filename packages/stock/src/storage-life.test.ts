import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { warmStorageLossMs } from './storage-life.ts'

const HOUR = 3_600_000
const rule = { labelStorageC: 20, q10: 2 }
const steady = (temperatureC: number, hours: number) => [
  { atMs: 0, temperatureC },
  { atMs: hours * HOUR, temperatureC },
]

describe('warmStorageLossMs', () => {
  it('takes an hour an hour at 10 degC above the label, and three at 20', () => {
    expect(warmStorageLossMs(steady(30, 24), rule, 0, 24 * HOUR)).toBeCloseTo(24 * HOUR, 3)
    expect(warmStorageLossMs(steady(40, 24), rule, 0, 24 * HOUR)).toBeCloseTo(72 * HOUR, 3)
  })

  it('takes nothing by a rule under which warmth does no harm', () => {
    expect(warmStorageLossMs(steady(40, 24), { ...rule, q10: 1 }, 0, 24 * HOUR)).toBe(0)
  })

  it('keeps its digits over a ramp that hardly rises', () => {
    // A hundred-thousandth of a degree above ten: the factor is 2 (1 + ln 2 / 2 x 1e-6) by its series.
    const ramp = [
      { atMs: 0, temperatureC: 30 },
      { atMs: 1e9 * HOUR, temperatureC: 30.00001 },
    ]
    const share = warmStorageLossMs(ramp, rule, 0, 1e9 * HOUR) / (1e9 * HOUR)
    expect((share - 1) / (Math.LN2 * 1e-6)).toBeCloseTo(1, 4)
  })

  it('gives no credit for cold storage', () => {
    expect(warmStorageLossMs(steady(5, 1000), rule, 0, 1000 * HOUR)).toBe(0)
  })

  it('counts only the part of a ramp above the label temperature', () => {
    const up = [
      { atMs: 0, temperatureC: 10 },
      { atMs: 20 * HOUR, temperatureC: 30 },
    ]
    // Closed form: the mean of 2^(x/10) over 0..10 is 1/ln 2.
    expect(warmStorageLossMs(up, rule, 0, 20 * HOUR) / HOUR).toBeCloseTo(10 * (1 / Math.LN2 - 1), 9)
  })

  it('refuses readings out of order and a Q10 below 1', () => {
    expect(() => warmStorageLossMs([...steady(30, 1)].toReversed(), rule, 0, HOUR)).toThrow(
      'readings[1].atMs',
    )
    expect(() => warmStorageLossMs([], { ...rule, q10: 0.5 }, 0, HOUR)).toThrow('q10')
  })

  const history = fc
    .array(
      fc.record({
        gapMs: fc.integer({ min: 1, max: 100 * HOUR }),
        temperatureC: fc.double({ min: -20, max: 50, noNaN: true }),
      }),
      { minLength: 2, maxLength: 30 },
    )
    .map((steps) => {
      let atMs = 0
      return steps.map(({ gapMs, temperatureC }) => ({ atMs: (atMs += gapMs), temperatureC }))
    })

  it('is the same split anywhere, and never falls when it is warmer', () => {
    fc.assert(
      fc.property(
        history,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (readings, share, warmer) => {
          const end = readings.at(-1)!.atMs
          const middle = end * share
          const whole = warmStorageLossMs(readings, rule, 0, end)
          const parts =
            warmStorageLossMs(readings, rule, 0, middle) + warmStorageLossMs(readings, rule, middle, end)
          expect(Math.abs(whole - parts)).toBeLessThanOrEqual(1e-9 * end + 1e-3)
          const hot = readings.map((r) => ({ ...r, temperatureC: r.temperatureC + warmer }))
          expect(warmStorageLossMs(hot, rule, 0, end)).toBeGreaterThanOrEqual(whole - 1e-6)
        },
      ),
    )
  })
})
