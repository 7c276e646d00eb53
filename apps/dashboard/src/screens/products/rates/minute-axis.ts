import type { PlotRow } from './curve-points.ts'
import { t } from '../../../lib/reader.ts'

/** Round times for a logarithmic axis, minutes: 1, 3, 10, 30 min, 1, 3, 8 h, 1, 2, 4, 7, 14 d. */
const ROUND_MINUTES = [1, 3, 10, 30, 60, 180, 480, 1440, 2880, 5760, 10_080, 20_160] as const

export function minuteTicks(min: number, max: number): readonly number[] {
  return ROUND_MINUTES.filter((minutes) => minutes >= min && minutes <= max)
}

/** A round time without its zeros: '30 min', '3 h', '2 d'. */
export function shortMinutes(minutes: number): string {
  if (minutes < 60) return t('products.min', { minutes })
  return minutes < 1440 ? `${minutes / 60} h` : `${minutes / 1440} d`
}

/** The least and greatest time in a plot. */
export function minutesRange(rows: readonly PlotRow[]): { readonly min: number; readonly max: number } {
  const times = rows.flatMap((row) =>
    Object.entries(row).flatMap(([name, value]) => (name === 'temperatureC' ? [] : [value])),
  )
  return { min: Math.min(...times), max: Math.max(...times) }
}
