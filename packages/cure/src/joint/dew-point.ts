import { requireInRange } from '@clampclock/quantities'

/** Metal must be this much warmer than the dew point at application, degC (ISO 8502-4 and ISO 12944-7). */
export const DEW_POINT_MARGIN_C = 3

/** Magnus coefficients over water, Alduchov and Eskridge, J. Appl. Meteorol. 35 (1996) 601-609. */
const MAGNUS_B = 17.625
const MAGNUS_C = 243.04

/**
 * Dew point of air, degC, by the Magnus form; within 0.1 degC of ASHRAE's tables from 0 to 50 degC
 * (tests/published).
 *
 * @param airC -40 to 60 degC.
 * @param relativeHumidityPercent above 0, up to 100.
 * @throws RangeError outside those ranges; air of 0 % has no dew point.
 */
export function dewPointC(airC: number, relativeHumidityPercent: number): number {
  requireInRange('airC', airC, { min: -40, max: 60 }, 'degC', 'measure the air of the bay')
  if (!(relativeHumidityPercent > 0)) {
    throw new RangeError(
      `relativeHumidityPercent is ${relativeHumidityPercent}, but must be above 0, up to 100 %: check the hygrometer`,
    )
  }
  requireInRange(
    'relativeHumidityPercent',
    relativeHumidityPercent,
    { min: 0, max: 100 },
    '%',
    'check the hygrometer',
  )
  const gamma = Math.log(relativeHumidityPercent / 100) + (MAGNUS_B * airC) / (MAGNUS_C + airC)
  return (MAGNUS_C * gamma) / (MAGNUS_B - gamma)
}

/** Relative humidity, %, of air with a given dew point; the inverse of `dewPointC`. @throws RangeError */
export function relativeHumidityPercent(airC: number, dewPoint: number): number {
  requireInRange('airC', airC, { min: -40, max: 60 }, 'degC', 'measure the air of the bay')
  requireInRange('dewPoint', dewPoint, { min: -100, max: airC }, 'degC', 'a dew point is never above the air')
  const part = (c: number): number => (MAGNUS_B * c) / (MAGNUS_C + c)
  return 100 * Math.exp(part(dewPoint) - part(airC))
}
