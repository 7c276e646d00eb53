import { PLAUSIBLE_TEMPERATURE_C } from '../sheet/data-sheet.ts'
import type { ForecastPoint, Reading } from './reading.ts'
import { readingBand } from './temperature-line.ts'

const { min: LEAST_C, max: MOST_C } = PLAUSIBLE_TEMPERATURE_C

/** The reading with one end of its band further out by `byC`, degC. */
export function widened<R extends Reading>(reading: R, side: 'low' | 'high', byC: number): R {
  if (byC === 0) return reading
  const [low, , high] = readingBand(reading)
  return side === 'low'
    ? { ...reading, lowC: Math.max(LEAST_C, low - byC), highC: Math.min(MOST_C, high) }
    : { ...reading, lowC: Math.max(LEAST_C, low), highC: Math.min(MOST_C, high + byC) }
}

/** The same of a forecast. */
export function widenedForecast(
  forecast: readonly ForecastPoint[],
  side: 'low' | 'high',
  byC: number,
): readonly ForecastPoint[] {
  if (byC === 0) return forecast
  return forecast.map((point) =>
    side === 'low'
      ? { ...point, lowC: Math.max(LEAST_C, point.lowC - byC) }
      : { ...point, highC: Math.min(MOST_C, point.highC + byC) },
  )
}
