import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { apartOnAverage } from './apart-on-average.ts'
import { between } from '../testing.ts'

const MINUTE = 60_000
const log = (temperatures: readonly number[], every = 15, from = 0) =>
  temperatures.map((temperatureC, i) => ({ atMs: (from + i * every) * MINUTE, temperatureC, accuracyC: 1 }))
const flicker = fc.array(between(-0.4, 0.4), { minLength: 7, maxLength: 24 })

describe('two thermometers of one bay, over hours', () => {
  it('are never told apart where both keep their accuracy, and always where one is off by three', () => {
    fc.assert(
      fc.property(flicker, flicker, between(-0.6, 0.6), between(-0.6, 0.6), (one, two, biasA, biasB) => {
        const air = (i: number) => 18 - i / 10
        const a = log(one.map((c, i) => air(i) + c + biasA))
        const b = log(
          two.map((c, i) => air(i) + c + biasB),
          15,
          3,
        )
        const warm = b.map((each) => ({ ...each, temperatureC: each.temperatureC + 4.05 }))
        expect(apartOnAverage(a, b)).toBeNull()
        if (Math.min(a.length, b.length) < 8) return
        expect(apartOnAverage(warm, a)).toBeGreaterThan(2)
        expect(apartOnAverage(a, warm)).toBeLessThan(-2)
      }),
    )
  })

  it('are not held against one another by a moment, or by hours in which only one read', () => {
    const [warm, cold] = [
      [22, 22, 22, 22, 22, 22, 22],
      [18, 18, 18, 18, 18, 18, 18],
    ]
    expect(apartOnAverage(log(warm), log(cold))).toBe(4)
    expect(apartOnAverage(log(warm.slice(2)), log(cold.slice(2)))).toBeNull()
    expect(apartOnAverage(log(warm, 5), log(cold, 5))).toBeNull()
    expect(apartOnAverage(log(warm), log(cold, 15, 200))).toBeNull()
    expect(apartOnAverage([], log(cold))).toBeNull()
  })
})
