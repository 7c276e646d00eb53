import {
  celsiusDifferenceToFahrenheit,
  celsiusToFahrenheit,
  mlToUsFluidOunces,
  mmToInches,
} from '@clampclock/quantities'
import { LANGUAGES, type Language } from './languages.ts'
import type { Rounding } from './param.ts'
import { plainNumber } from './patterns.ts'
import type { Reader } from './reader.ts'

const MODE = { nearest: 'halfExpand', up: 'ceil', down: 'floor' } as const
const numbers = new Map<string, Intl.NumberFormat>()

/** A number as the language writes it, with as many decimals as told, and no '-0'. */
export function numberText(
  language: Language,
  value: number,
  digits: number,
  round: Rounding = 'nearest',
): string {
  const id = `${language} ${digits} ${round}`
  let format = numbers.get(id)
  if (format === undefined) {
    format = new Intl.NumberFormat(LANGUAGES[language].locale, {
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
      useGrouping: false,
      roundingMode: MODE[round],
      signDisplay: 'negative',
    })
    numbers.set(id, format)
  }
  // What floating point leaves behind is not rounded up: 53 mL is no 54.
  return format.format(round === 'nearest' ? value : Number(value.toFixed(9)))
}

const joined = (text: string, unit: string) => `${text} ${unit}`

/** degC in the reader's unit, one decimal unless told: '23.0 °C', '73.4 °F'. */
export function temperatureText(reader: Reader, c: number, digits = 1, round?: Rounding): string {
  const value = reader.temperature === 'F' ? celsiusToFahrenheit(c) : c
  return joined(numberText(reader.language, value, digits, round), `°${reader.temperature}`)
}

/** A difference in degC in the reader's unit: no offset. */
export function differenceText(reader: Reader, c: number, digits = 1, round?: Rounding): string {
  const value = reader.temperature === 'F' ? celsiusDifferenceToFahrenheit(c) : c
  return joined(numberText(reader.language, value, digits, round), `°${reader.temperature}`)
}

/** mL in the reader's unit: whole mL or tenths of a US fluid ounce unless told. */
export function volumeText(reader: Reader, ml: number, digits?: number, round?: Rounding): string {
  return reader.volume === 'mL'
    ? joined(numberText(reader.language, ml, digits ?? 0, round), 'mL')
    : joined(numberText(reader.language, mlToUsFluidOunces(ml), (digits ?? 0) + 1, round), 'fl oz')
}

/**
 * mm in the reader's unit: tenths of a millimetre or thousandths of an inch unless told. As it was `recorded`: what the
 * number has of hundredths of a millimetre, or four digits of an inch.
 */
export function lengthText(
  reader: Reader,
  mm: number,
  digits: number | 'recorded' = 1,
  round?: Rounding,
): string {
  const isMetric = reader.length === 'mm'
  const value = isMetric ? mm : mmToInches(mm)
  const unit = isMetric ? 'mm' : 'in'
  if (digits !== 'recorded')
    return joined(numberText(reader.language, value, isMetric ? digits : digits + 2, round), unit)
  const rounded = isMetric ? Math.round(value * 100) / 100 : Number(value.toPrecision(4))
  return joined(plainNumber(reader.language, rounded), unit)
}

/** A share of one as a percentage. */
export function shareText(reader: Reader, share: number, digits = 0, round?: Rounding): string {
  return joined(numberText(reader.language, share * 100, digits, round), '%')
}
