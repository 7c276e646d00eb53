import { applicationFaults, dewPointC, relativeHumidityPercent, type DataSheet } from '@clampclock/cure'
import { fahrenheitToCelsius } from '@clampclock/quantities'
import { describe, expect, it } from 'vitest'
import { psychrolib } from './outside.ts'

describe('dew point by the Magnus form of Alduchov and Eskridge (1996)', () => {
  // Computed from the published coefficients; WMO (Sonntag 1990) and Bolton (1980) give the same to 0.02
  // degC.
  it.each([
    [20, 50, 9.26],
    [25, 60, 16.7],
    [25, 50, 13.86],
    [15, 80, 11.58],
    [10, 70, 4.78],
    [30, 70, 23.93],
    [35, 40, 19.39],
  ])('%d degC and %d %%: %d degC', (air, humidity, dewPoint) => {
    expect(Math.abs(dewPointC(air, humidity) - dewPoint)).toBeLessThan(0.02)
  })

  // Unidata/MetPy, tests/calc/test_thermo.py: rounded values.
  it.each([
    [30, 30, 11],
    [25, 45, 12],
    [10, 55, 1],
    [20, 80, 16],
    [25, 85, 22],
  ])('%d degC and %d %%: rounds to %d degC', (air, humidity, dewPoint) => {
    expect(Math.abs(dewPointC(air, humidity) - dewPoint)).toBeLessThan(0.5)
  })

  // Unidata/MetPy, tests/calc/test_thermo.py: 53.80 % and 58.935 % by Bolton's coefficients.
  it('gives humidity back from dew point', () => {
    expect(Math.abs(relativeHumidityPercent(25, 15) - 53.8)).toBeLessThan(0.1)
    const [air, dewPoint] = [fahrenheitToCelsius(70), fahrenheitToCelsius(55)]
    expect(Math.abs(relativeHumidityPercent(air, dewPoint) - 58.935)).toBeLessThan(0.1)
  })
})

describe('dew point against ASHRAE Fundamentals 2017, chapter 1, by psychrolib', () => {
  it('knows ASHRAE’s saturation pressures: 872.6, 3169.7 and 12351.3 Pa at 5, 25 and 50 degC', () => {
    // Table 3 of that chapter, as psychrolib's own tests have it: this checks the checker.
    expect(Math.abs(psychrolib.GetSatVapPres(5) - 872.6)).toBeLessThan(872.6 * 3e-4)
    expect(Math.abs(psychrolib.GetSatVapPres(25) - 3169.7)).toBeLessThan(3169.7 * 3e-4)
    expect(Math.abs(psychrolib.GetSatVapPres(50) - 12_351.3)).toBeLessThan(12_351.3 * 3e-4)
  })

  it('is within 0.05 degC wherever a shop works: 5 to 40 degC, dew point above freezing', () => {
    let worst = 0
    for (let air = 5; air <= 40; air += 1) {
      for (let humidity = 20; humidity <= 100; humidity += 5) {
        const ashrae = psychrolib.GetTDewPointFromRelHum(air, humidity / 100)
        if (ashrae > 0) worst = Math.max(worst, Math.abs(dewPointC(air, humidity) - ashrae))
      }
    }
    expect(worst).toBeLessThan(0.05)
  })

  it('is the frost-free side below freezing: a dew point never above the frost point, by 1.5 degC at most', () => {
    for (let air = 1; air <= 20; air += 1) {
      for (let humidity = 20; humidity <= 60; humidity += 5) {
        const ashrae = psychrolib.GetTDewPointFromRelHum(air, humidity / 100)
        if (ashrae > 0 || ashrae < -12) continue
        expect(dewPointC(air, humidity)).toBeLessThan(ashrae + 0.05)
        expect(dewPointC(air, humidity)).toBeGreaterThan(ashrae - 1.5)
      }
    }
  })
})

describe('the 3 degC rule (ISO 8502-4: surface at least 3 degC above the dew point)', () => {
  const sheet: Pick<DataSheet, 'applicationRangeC'> = { applicationRangeC: { min: 5, max: 40 } }

  // A published inspection example: air 16 degC, 71 %, surface 13 degC: dew point 11 by chart, margin 2: not
  // allowed.
  it('does not allow 13 degC metal in air of 16 degC and 71 %', () => {
    const faults = applicationFaults({ sheet, panelC: 13, airC: 16, relativeHumidityPercent: 71 })
    expect(faults).toEqual([expect.objectContaining({ kind: 'nearDewPoint', requiredMarginC: 3 })])
    expect(faults[0]).toHaveProperty('marginC', expect.closeTo(2.26, 2))
  })

  it('allows it at 14 degC', () => {
    expect(applicationFaults({ sheet, panelC: 14, airC: 16, relativeHumidityPercent: 71 })).toEqual([])
  })
})
