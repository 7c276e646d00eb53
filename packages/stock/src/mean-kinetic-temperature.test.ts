import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  combinedMeanKineticC,
  meanKineticTemperatureC,
  meanKineticTemperatureOfC,
} from './mean-kinetic-temperature.ts'

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

  it('weighs each stretch with both its ends, however long it is', () => {
    // By hand: factors at 20 and 40 degC, the mean of both over the first hour, 40 over the three that follow.
    const f = (c: number) => Math.exp(-10_000 / (c + 273.15))
    const mean = ((f(20) + f(40)) / 2 + 3 * f(40)) / 4
    const readings = [
      { atMs: 0, temperatureC: 20 },
      { atMs: 3_600_000, temperatureC: 40 },
      { atMs: 4 * 3_600_000, temperatureC: 40 },
    ]
    expect(meanKineticTemperatureC(readings)).toBeCloseTo(10_000 / -Math.log(mean) - 273.15, 9)
    expect(meanKineticTemperatureC(readings.slice(0, 1))).toBe(20)
    expect(() => meanKineticTemperatureC([])).toThrow(/give at least one/)
    expect(() => meanKineticTemperatureC([readings[1]!, readings[0]!])).toThrow(/sort them/)
  })

  it('refuses nothing, and a stretch that weighs nothing', () => {
    expect(() => combinedMeanKineticC([])).toThrow('parts is empty: give at least one')
    expect(() => combinedMeanKineticC([{ meanKineticC: 20, weight: 0 }])).toThrow(
      'weight is 0: give one above 0',
    )
    expect(() => meanKineticTemperatureOfC([])).toThrow('temperaturesC is empty: give at least one')
    const twice = [
      { atMs: 5, temperatureC: 20 },
      { atMs: 5, temperatureC: 21 },
    ]
    expect(() => meanKineticTemperatureC(twice)).toThrow(
      'readings[1].atMs is 5, not later than the one before',
    )
  })
})
