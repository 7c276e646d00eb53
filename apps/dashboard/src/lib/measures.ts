import {
  differenceText,
  lengthText,
  numberText,
  plainNumber,
  shareText,
  temperatureText,
  volumeText,
  type Rounding,
} from '@clampclock/messages'
import { formatMinutes as minutesText, formatMoney as moneyText } from '@clampclock/quantities'
import { reader, together } from './reader.ts'

/** A temperature in degC as the reader writes numbers, `unit` beside it: '23.0 °C', '73,4 °F'. */
export function formatTemperature(c: number, unit: 'C' | 'F', digits = 1): string {
  return together(temperatureText({ ...reader(), temperature: unit }, c, digits))
}

/** A difference of temperatures in degC: no offset. */
export function formatTemperatureDifference(differenceC: number, unit: 'C' | 'F', digits = 1): string {
  return together(differenceText({ ...reader(), temperature: unit }, differenceC, digits))
}

/** A volume in mL in the reader's unit: whole mL, or tenths of a US fluid ounce. What is needed is rounded up. */
export function formatVolume(ml: number, round?: Rounding): string {
  return together(volumeText(reader(), ml, undefined, round))
}

/** A volume in mL as exactly as it was recorded: tenths of a mL, hundredths of a US fluid ounce. */
export function formatRecordedVolume(ml: number): string {
  return together(volumeText(reader(), ml, Number.isInteger(Number(ml.toFixed(1))) ? undefined : 1))
}

/** A length in mm in the reader's unit, as exactly as it was recorded. */
export function formatLength(mm: number): string {
  return together(lengthText(reader(), mm, 'recorded'))
}

/** A duration in minutes, as the packages divide it. */
export function formatMinutes(minutes: number, round?: Rounding): string {
  return together(minutesText(minutes, round))
}

/** A share of one as a percentage. */
export function formatShare(share: number, digits?: number, round?: Rounding): string {
  return together(shareText(reader(), share, digits, round))
}

/** Whole hundredths of a currency, as the reader writes it. */
export function formatMoney(cents: number, currency: string): string {
  return moneyText(cents, currency, reader().language)
}

/** A number as the reader writes it: with `digits` decimals, or as many as it has. */
export function formatNumber(value: number, digits?: number): string {
  const { language } = reader()
  return digits === undefined ? plainNumber(language, value) : numberText(language, value, digits)
}
