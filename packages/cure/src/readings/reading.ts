import { isWithin, requireInRange, type Range } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C } from '../sheet/data-sheet.ts'

/** What was measured: the metal itself by a probe or an infrared spot, or the air of the bay. */
export type ReadingSource = 'metalProbe' | 'infrared' | 'bayAir'

export interface Reading {
  readonly atMs: number
  readonly temperatureC: number
  /** The true value lies within this much of the reading, degC, 0 to 20. */
  readonly accuracyC: number
  readonly source: ReadingSource
  /** In doubt: it never helps and may only delay. It pulls the cold line down and the warm line up, no other way. */
  readonly suspect?: true | undefined
  /**
   * The band that holds the true value, degC, where it is not `temperatureC` give or take `accuracyC`: of two
   * sensors that disagree the low of the colder and the high of the warmer.
   */
  readonly lowC?: number | undefined
  readonly highC?: number | undefined
}

/** One instant of a forecast of the bay's air, with a band that holds about nine times out of ten. */
export interface ForecastPoint {
  readonly atMs: number
  readonly expectedC: number
  readonly lowC: number
  readonly highC: number
}

/**
 * How long a reading speaks for the time around it, minutes. Common practice, no source; docs/decisions/0112.
 */
export const STALE_LIMIT_MINUTES: Readonly<Record<ReadingSource, number>> = {
  metalProbe: 30,
  infrared: 30,
  bayAir: 60,
}

const ACCURACY_C: Range = { min: 0, max: 20 }

/**
 * @throws RangeError naming field, value and fix: an instant that is no number, a probe at 900 degC, a
 * negative accuracy, a reading that is not later than the one before.
 */
export function requireReading(reading: Reading, field: string, previous: Reading | undefined): Reading {
  requireInstant(`${field}.atMs`, reading.atMs)
  const check = 'check the probe, and leave the reading out if it is broken'
  requireInRange(`${field}.temperatureC`, reading.temperatureC, PLAUSIBLE_TEMPERATURE_C, 'degC', check)
  requireInRange(
    `${field}.accuracyC`,
    reading.accuracyC,
    ACCURACY_C,
    'degC',
    'give the accuracy of the sensor',
  )
  requireBand(reading, field)
  if (!(reading.source in STALE_LIMIT_MINUTES)) {
    throw new RangeError(`${field}.source is '${reading.source}': give metalProbe, infrared or bayAir`)
  }
  if (previous !== undefined && reading.atMs <= previous.atMs) {
    const fault = reading.atMs === previous.atMs ? 'the same instant as' : 'before'
    throw new RangeError(
      `${field}.atMs is ${reading.atMs}, ${fault} the reading before it (${previous.atMs}): sort readings by time and keep one for an instant`,
    )
  }
  return reading
}

function requireBand(reading: Reading, field: string): void {
  const { temperatureC, lowC = temperatureC, highC = temperatureC } = reading
  requireInRange(`${field}.lowC`, lowC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'check the sensors')
  requireInRange(`${field}.highC`, highC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'check the sensors')
  if (lowC <= temperatureC && temperatureC <= highC) return
  throw new RangeError(
    `${field} has lowC ${lowC}, temperatureC ${temperatureC}, highC ${highC}: they must not fall in that order`,
  )
}

/** Whether `requireReading` would let it pass, without putting names together. */
export function isGoodReading(reading: Reading, previous: Reading | undefined): boolean {
  const { atMs, temperatureC, accuracyC, source, lowC, highC } = reading
  return (
    Number.isFinite(atMs) &&
    isWithin(PLAUSIBLE_TEMPERATURE_C, temperatureC) &&
    isWithin(ACCURACY_C, accuracyC) &&
    STALE_LIMIT_MINUTES[source] > 0 &&
    (lowC === undefined || (lowC <= temperatureC && isWithin(PLAUSIBLE_TEMPERATURE_C, lowC))) &&
    (highC === undefined || (highC >= temperatureC && isWithin(PLAUSIBLE_TEMPERATURE_C, highC))) &&
    (previous === undefined || atMs > previous.atMs)
  )
}

/** @throws RangeError when `value` is no finite number. */
export function requireInstant(field: string, value: number): number {
  if (Number.isFinite(value)) return value
  throw new RangeError(`${field} is ${value}: give milliseconds since 1970-01-01T00:00Z`)
}

/**
 * @throws RangeError naming the first point that is out of order, outside all reason or has its band upside
 * down.
 */
export function requireForecast(forecast: readonly ForecastPoint[]): void {
  forecast.forEach((point, i) => {
    const field = `forecast[${i}]`
    requireInstant(`${field}.atMs`, point.atMs)
    for (const name of ['lowC', 'expectedC', 'highC'] as const) {
      requireInRange(`${field}.${name}`, point[name], PLAUSIBLE_TEMPERATURE_C, 'degC', 'check the forecast')
    }
    if (point.lowC > point.expectedC || point.expectedC > point.highC) {
      throw new RangeError(
        `${field} has lowC ${point.lowC}, expectedC ${point.expectedC}, highC ${point.highC}: they must not fall in that order`,
      )
    }
    const before = forecast[i - 1]
    if (before !== undefined && point.atMs <= before.atMs) {
      throw new RangeError(
        `${field}.atMs is ${point.atMs}, not after the point before it (${before.atMs}): sort the forecast by time`,
      )
    }
  })
}
