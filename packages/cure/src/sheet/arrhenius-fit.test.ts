import { describe, expect, it } from 'vitest'
import { fitArrhenius, fittedTime, GAS_CONSTANT } from './arrhenius-fit.ts'
import { studentT } from '../numerics/student-t.ts'

const along = (energyJPerMol: number, temperatures: readonly number[], off: readonly number[] = []) =>
  temperatures.map((temperatureC, i) => ({
    temperatureC,
    minutes:
      240 *
      Math.exp((energyJPerMol / GAS_CONSTANT) * (1 / (temperatureC + 273.15) - 1 / 296.15) + (off[i] ?? 0)),
  }))

describe('fitArrhenius', () => {
  it('finds the activation energy of points that have one', () => {
    const fit = fitArrhenius(along(52_000, [5, 15, 23, 40, 60]))
    expect(fit.activationEnergyJPerMol).toBeCloseTo(52_000, 5)
    expect(fit.rSquared).toBeCloseTo(1, 12)
    expect(fittedTime(fit, 23).minutes).toBeCloseTo(240, 8)
  })

  it('gives a band that is narrowest amid the points and holds the fitted time', () => {
    const fit = fitArrhenius(along(52_000, [5, 15, 23, 40, 60], [0.1, -0.1, 0.05, -0.08, 0.03]))
    expect(fit.rSquared).toBeLessThan(1)
    const width = (c: number): number => {
      const { band, minutes } = fittedTime(fit, c)
      expect(band!.lowMinutes).toBeLessThan(minutes)
      expect(band!.highMinutes).toBeGreaterThan(minutes)
      return Math.log(band!.highMinutes / band!.lowMinutes)
    }
    expect(width(25)).toBeLessThan(width(5))
    expect(width(80)).toBeGreaterThan(width(60))
  })

  it('has no band and no R2 from two points', () => {
    const fit = fitArrhenius(along(52_000, [10, 30]))
    expect(fit).toMatchObject({ rSquared: null, residualLn: null, activationEnergyErrorJPerMol: null })
    expect(fittedTime(fit, 20).band).toBeNull()
  })

  it('refuses by name what has no slope', () => {
    expect(() => fitArrhenius([{ temperatureC: 20, minutes: 5 }])).toThrow(/two temperatures/)
    expect(() => fitArrhenius(along(-20_000, [10, 20, 30]))).toThrow(/rise with temperature/)
    expect(() => fitArrhenius([{ temperatureC: 20, minutes: -5 }])).toThrow(/points\[0\]\.minutes is -5/)
  })
})

describe('studentT', () => {
  // Two-sided 95 % and 99 %: any printed table, e.g. NIST/SEMATECH e-Handbook 1.3.6.7.2.
  it.each([
    [0.95, 1, 12.706],
    [0.95, 2, 4.303],
    [0.95, 5, 2.571],
    [0.95, 30, 2.042],
    [0.99, 4, 4.604],
    [0.99, 9, 3.25],
  ])('is as printed for %d and %d degrees of freedom', (confidence, degrees, t) => {
    expect(studentT(confidence, degrees)).toBeCloseTo(t, 3)
  })

  it('refuses certainty', () => {
    expect(() => studentT(1, 5)).toThrow(/confidence is 1/)
    expect(() => studentT(0.9, 0)).toThrow(/degreesOfFreedom is 0/)
  })
})
