import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { applicationFaults } from './application.ts'
import { DEW_POINT_MARGIN_C, dewPointC, relativeHumidityPercent } from './dew-point.ts'
import { between, SHEET } from '../testing.ts'

const kinds = (conditions: Omit<Parameters<typeof applicationFaults>[0], 'sheet'>): string[] =>
  applicationFaults({ sheet: SHEET, ...conditions }).map((fault) => fault.kind)

describe('applicationFaults', () => {
  it('finds none on a warm, dry panel', () => {
    expect(kinds({ panelC: 22, panelAccuracyC: 1, airC: 22, relativeHumidityPercent: 50 })).toEqual([])
  })

  it('names cold, heat and damp, all at once where it must', () => {
    expect(kinds({ panelC: 8 })).toEqual(['tooCold'])
    expect(kinds({ panelC: 36 })).toEqual(['tooHot'])
    expect(kinds({ panelC: 9, airC: 20, relativeHumidityPercent: 80 })).toEqual(['tooCold', 'nearDewPoint'])
  })

  it('counts the accuracy of the thermometer against us at both ends', () => {
    expect(kinds({ panelC: 10, panelAccuracyC: 0 })).toEqual([])
    expect(kinds({ panelC: 10, panelAccuracyC: 0.1 })).toEqual(['tooCold'])
    expect(kinds({ panelC: 35, panelAccuracyC: 0 })).toEqual([])
    expect(kinds({ panelC: 35, panelAccuracyC: 0.1 })).toEqual(['tooHot'])
    expect(kinds({ panelC: 15, panelAccuracyC: 0.5, dewPointC: 11.8 })).toEqual(['nearDewPoint'])
  })

  it('lets a panel through that is exactly the margin above the dew point', () => {
    expect(kinds({ panelC: 13.3 + DEW_POINT_MARGIN_C, dewPointC: 13.3 })).toEqual([])
  })

  it('gives the numbers of a refusal', () => {
    expect(applicationFaults({ sheet: SHEET, panelC: 13, dewPointC: 11 })).toEqual([
      { kind: 'nearDewPoint', panelC: 13, panelAccuracyC: 0, dewPointC: 11, marginC: 2, requiredMarginC: 3 },
    ])
  })

  it('refuses humidity without air temperature, and figures that no instrument shows', () => {
    expect(() => kinds({ panelC: 20, relativeHumidityPercent: 50 })).toThrow(/airC is missing/)
    expect(() => kinds({ panelC: NaN })).toThrow(/panelC is NaN.*degC.*measure the panel again/)
    expect(() => kinds({ panelC: 20, panelAccuracyC: -1 })).toThrow(
      /panelAccuracyC is -1.*degC.*give the accuracy of the thermometer/,
    )
    expect(() => kinds({ panelC: 20, dewPointC: 900 })).toThrow(
      /dewPointC is 900.*degC.*check the hygrometer/,
    )
    expect(() => kinds({ panelC: 20, airC: 20, relativeHumidityPercent: 0 })).toThrow(
      /relativeHumidityPercent is 0/,
    )
    expect(() => kinds({ panelC: 20, airC: 20, relativeHumidityPercent: 101 })).toThrow(/101/)
    expect(() => dewPointC(900, 50)).toThrow(/airC is 900/)
  })
})

const air = between(-40, 60)
const humidity = between(1, 100)

describe('dewPointC', () => {
  it('is the air itself at 100 %, and never above it', () => {
    fc.assert(
      fc.property(air, humidity, (airC, percent) => {
        expect(dewPointC(airC, 100)).toBeCloseTo(airC, 9)
        expect(dewPointC(airC, percent)).toBeLessThanOrEqual(airC + 1e-9)
      }),
    )
  })

  it('has its inverse', () => {
    fc.assert(
      fc.property(air, humidity, (airC, percent) => {
        expect(relativeHumidityPercent(airC, Math.min(airC, dewPointC(airC, percent)))).toBeCloseTo(
          percent,
          8,
        )
      }),
    )
  })
})
