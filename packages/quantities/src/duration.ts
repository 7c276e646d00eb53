export const MS_PER_MINUTE = 60_000
export const MINUTES_PER_HOUR = 60
export const MINUTES_PER_DAY = 1440

/**
 * Minutes for a reader: '45 min', '3 h 05 min', '2 d 4 h' (whole hours from one day up), 'never' for
 * Infinity. `rounding` 'up' never shows a wait shorter than it is, 'down' never shows more time left than
 * there is.
 *
 * @throws RangeError for NaN.
 */
export function formatMinutes(minutes: number, rounding: 'nearest' | 'up' | 'down' = 'nearest'): string {
  if (Number.isNaN(minutes)) throw new RangeError('minutes is NaN: give a number of minutes')
  if (minutes === Infinity) return 'never'
  if (minutes < 0) return `-${formatMinutes(-minutes, opposite[rounding])}`
  const round = rounders[rounding]
  const whole = round(minutes)
  if (whole < MINUTES_PER_HOUR) return `${whole} min`
  if (whole < MINUTES_PER_DAY) {
    return `${Math.floor(whole / MINUTES_PER_HOUR)} h ${String(whole % MINUTES_PER_HOUR).padStart(2, '0')} min`
  }
  const hours = round(minutes / MINUTES_PER_HOUR)
  return `${Math.floor(hours / 24)} d ${hours % 24} h`
}

const rounders = { nearest: Math.round, up: Math.ceil, down: Math.floor } as const
const opposite = { nearest: 'nearest', up: 'down', down: 'up' } as const
