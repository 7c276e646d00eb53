import {
  celsiusDifferenceToFahrenheit,
  celsiusToFahrenheit,
  celsiusToKelvin,
  fahrenheitToCelsius,
  inchesToMm,
  usFluidOuncesToMl,
} from '@clampclock/quantities'
import { describe, expect, it } from 'vitest'

describe('temperature anchors', () => {
  // Fahrenheit's scale by its definition since ITS-90: 0 degC = 32 degF, 100 degC = 212 degF; 0 degC = 273.15
  // K (SI brochure).
  it.each([
    [-40, -40, 233.15],
    [0, -17.7778, 255.3722],
    [32, 0, 273.15],
    [68, 20, 293.15],
    [73, 22.7778, 295.9278],
    [77, 25, 298.15],
    [140, 60, 333.15],
    [160, 71.1111, 344.2611],
    [212, 100, 373.15],
    [250, 121.1111, 394.2611],
    [300, 148.8889, 422.0389],
    [350, 176.6667, 449.8167],
  ])('%d degF is %d degC and %d K', (f, c, k) => {
    expect(fahrenheitToCelsius(f)).toBeCloseTo(c, 4)
    expect(celsiusToKelvin(fahrenheitToCelsius(f))).toBeCloseTo(k, 4)
    expect(celsiusToFahrenheit(fahrenheitToCelsius(f))).toBeCloseTo(f, 10)
  })

  it.each([
    [5, 41],
    [10, 50],
    [23, 73.4],
    [30, 86],
    [80, 176],
    [180, 356],
  ])('%d degC is %d degF', (c, f) => {
    expect(celsiusToFahrenheit(c)).toBeCloseTo(f, 10)
  })

  it('a difference has no offset: 10 degC is 18 degF, the dew-point margin of 3 degC is 5.4 degF', () => {
    expect(celsiusDifferenceToFahrenheit(10)).toBeCloseTo(18, 12)
    expect(celsiusDifferenceToFahrenheit(3)).toBeCloseTo(5.4, 12)
  })

  // Common practice, no source: structural adhesives are rated for service from -40 to 350 degF.
  it('the usual rated range of -40 to 350 degF is -40 to 176.7 degC', () => {
    expect(fahrenheitToCelsius(-40)).toBe(-40)
    expect(fahrenheitToCelsius(350)).toBeCloseTo(176.7, 1)
  })
})

describe('lengths and volumes', () => {
  // International yard and pound agreement, 1959; NIST Handbook 44, appendix C.
  it('a glass bead of 0.010 in is 0.254 mm, a bond line of 0.030 in 0.762 mm', () => {
    expect(inchesToMm(0.01)).toBeCloseTo(0.254, 12)
    expect(inchesToMm(0.03)).toBeCloseTo(0.762, 12)
  })

  it('a US fluid ounce is 29.5735 mL', () => {
    expect(usFluidOuncesToMl(1)).toBeCloseTo(29.573_529_562_5, 10)
  })
})
