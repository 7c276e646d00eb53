import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { requireInRange, requireNotNegative, requirePositive } from './check.ts'
import { inchesToMm, mmToInches } from './length.ts'
import { isWithin } from './range.ts'
import * as temperature from './temperature.ts'
import { formatVolume, mlToUsFluidOunces, usFluidOuncesToMl } from './volume.ts'

const amount = fc
  .integer({ min: -1_000_000_000, max: 1_000_000_000 })
  .map((thousandths) => thousandths / 1000)

describe('conversions', () => {
  const pairs: readonly [string, (value: number) => number, (value: number) => number][] = [
    ['degC and degF', temperature.celsiusToFahrenheit, temperature.fahrenheitToCelsius],
    ['degC and K', temperature.celsiusToKelvin, temperature.kelvinToCelsius],
    ['differences', temperature.celsiusDifferenceToFahrenheit, temperature.fahrenheitDifferenceToCelsius],
    ['mm and in', mmToInches, inchesToMm],
    ['mL and fl oz', mlToUsFluidOunces, usFluidOuncesToMl],
  ]

  it.each(pairs)('go there and back: %s', (_, there, back) => {
    fc.assert(
      fc.property(amount, (value) => {
        expect(Math.abs(back(there(value)) - value)).toBeLessThanOrEqual(1e-9 * (1 + Math.abs(value)))
      }),
    )
  })

  it('give a difference no offset', () => {
    expect(temperature.celsiusDifferenceToFahrenheit(0)).toBe(0)
    expect(temperature.celsiusDifferenceToFahrenheit(3)).toBeCloseTo(5.4, 12)
  })
})

describe('formatting', () => {
  it('shows the unit of the reader', () => {
    expect(temperature.formatTemperature(23, 'C')).toBe('23.0 °C')
    expect(temperature.formatTemperature(23, 'F')).toBe('73.4 °F')
    expect(temperature.formatTemperature(-0.01, 'C')).toBe('0.0 °C')
    expect(temperature.formatTemperatureDifference(3, 'F')).toBe('5.4 °F')
    expect(formatVolume(220, 'mL')).toBe('220 mL')
    expect(formatVolume(220, 'flOz')).toBe('7.4 fl oz')
  })
})

describe('refusals', () => {
  it('name the field, the value and the fix', () => {
    expect(() => requireInRange('panelC', 900, { min: -60, max: 300 }, 'degC', 'check the probe')).toThrow(
      'panelC is 900, but must be -60 to 300 degC: check the probe',
    )
    expect(() => requirePositive('thicknessMm', -1, 'mm', 'measure the sheet')).toThrow(/thicknessMm is -1/)
    expect(() => requireNotNegative('wasteShare', NaN, 'parts of one', 'give 0.1 for 10 %')).toThrow(/is NaN/)
  })

  it('let through what is allowed, ends included', () => {
    expect(requireInRange('x', 5, { min: 5, max: 6 }, '', '')).toBe(5)
    expect(isWithin({ min: 5, max: 6 }, 6)).toBe(true)
    expect(isWithin({ min: 5, max: 6 }, NaN)).toBe(false)
  })
})
