import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { combinedMeanKineticC, meanKineticTemperatureC } from './mean-kinetic-temperature.ts'

describe('the mean kinetic temperature of several stretches', () => {
  it('is that of the whole, however it is cut', () => {
    const series = fc.array(fc.double({ min: -20, max: 60, noNaN: true }), { minLength: 3, maxLength: 30 })
    fc.assert(
      fc.property(series, fc.nat(), (temperatures, seed) => {
        const readings = temperatures.map((temperatureC, i) => ({ atMs: i * 3_600_000, temperatureC }))
        const cut = 1 + (seed % (readings.length - 2))
        const parts = [readings.slice(0, cut + 1), readings.slice(cut)].map((part) => ({
          meanKineticC: meanKineticTemperatureC(part),
          weight: part.length - 1,
        }))
        expect(combinedMeanKineticC(parts)).toBeCloseTo(meanKineticTemperatureC(readings), 8)
      }),
    )
  })

  it('refuses nothing, and a stretch that weighs nothing', () => {
    expect(() => combinedMeanKineticC([])).toThrow(RangeError)
    expect(() => combinedMeanKineticC([{ meanKineticC: 20, weight: 0 }])).toThrow(RangeError)
  })
})
