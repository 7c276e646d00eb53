import type { Range } from './range.ts'

/**
 * Temperatures outside this are typing errors or broken probes, not body shops: contract, packages and
 * database refuse them alike. Common practice, no source.
 */
export const PLAUSIBLE_TEMPERATURE_C: Range = { min: -60, max: 300 }

/**
 * The air of a bay, or of a shelf: outside this nobody works, and no thermometer for rooms reads. An oven's
 * air is another matter. Common practice, no source.
 */
export const ROOM_AIR_C: Range = { min: -40, max: 60 }

/** 0 degC in kelvin. Exact by definition (SI brochure, 9th edition, 2019). */
export const ZERO_CELSIUS_K = 273.15

/** Absolute zero in degC. */
export const ABSOLUTE_ZERO_C = -ZERO_CELSIUS_K

export type TemperatureUnit = 'C' | 'F'

/** degC to degF. */
export function celsiusToFahrenheit(c: number): number {
  return c * 1.8 + 32
}

/** degF to degC. */
export function fahrenheitToCelsius(f: number): number {
  return (f - 32) / 1.8
}

/** degC to kelvin. */
export function celsiusToKelvin(c: number): number {
  return c + ZERO_CELSIUS_K
}

/** Kelvin to degC. */
export function kelvinToCelsius(k: number): number {
  return k - ZERO_CELSIUS_K
}

/**
 * A difference of temperatures, degC to degF: no offset. The 3 degC dew-point margin is 5.4 degF, not 37.4.
 */
export function celsiusDifferenceToFahrenheit(differenceC: number): number {
  return differenceC * 1.8
}

/** A difference of temperatures, degF to degC: no offset. */
export function fahrenheitDifferenceToCelsius(differenceF: number): number {
  return differenceF / 1.8
}

// Adding zero turns "-0.0" into "0.0": nobody reads a thermometer as minus nothing.
const fixed = (value: number, digits: number): string => (Number(value.toFixed(digits)) + 0).toFixed(digits)

/** A temperature in degC, shown in the reader's unit with `digits` decimals: '23.0 °C', '73.4 °F'. */
export function formatTemperature(c: number, unit: TemperatureUnit, digits = 1): string {
  return `${fixed(unit === 'F' ? celsiusToFahrenheit(c) : c, digits)} °${unit}`
}

/** A difference in degC, shown in the reader's unit: '3.0 °C', '5.4 °F'. */
export function formatTemperatureDifference(differenceC: number, unit: TemperatureUnit, digits = 1): string {
  return `${fixed(unit === 'F' ? celsiusDifferenceToFahrenheit(differenceC) : differenceC, digits)} °${unit}`
}
