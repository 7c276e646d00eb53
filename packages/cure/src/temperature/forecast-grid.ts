import { zoneOffsetMinutes } from '@clampclock/quantities'

export const MS_PER_HOUR = 3_600_000
const MS_PER_DAY = 24 * MS_PER_HOUR

export interface PastTemperature {
  readonly atMs: number
  readonly temperatureC: number
}

/** Local clock reading of an instant as if it were UTC, ms: a shop's day has its pattern by its own clock. */
export type LocalClock = (atMs: number) => number

/**
 * Clock of a zone, asking the calendar once a day where the offset stays the same all day. Only as fast as it
 * must be: a history has thousands of readings.
 */
export function localClock(timeZone: string): LocalClock {
  const offsets = new Map<number, number>()
  const offsetAtDay = (day: number): number => {
    let offset = offsets.get(day)
    if (offset === undefined) offsets.set(day, (offset = zoneOffsetMinutes(day * MS_PER_DAY, timeZone)))
    return offset
  }
  return (atMs) => {
    const day = Math.floor(atMs / MS_PER_DAY)
    const [before, after] = [offsetAtDay(day), offsetAtDay(day + 1)]
    const offset = before === after ? before : zoneOffsetMinutes(atMs, timeZone)
    return atMs + offset * 60_000
  }
}

/** Readings further apart than this are not joined, hours. */
const LONGEST_JOIN_HOURS = 3

/**
 * Temperatures by the shop's clock, one an hour, ending at the last reading: index `length - 1` is the origin
 * of the forecast. NaN where nothing is known (gaps, and the hour that is skipped when clocks go forward).
 */
export interface HourlyGrid {
  readonly temperaturesC: Float64Array
  /** Local clock of the last entry, ms. */
  readonly originLocalMs: number
}

export function hourlyGrid(past: readonly PastTemperature[], clock: LocalClock, hours: number): HourlyGrid {
  const originLocalMs = clock(past.at(-1)!.atMs)
  const temperaturesC = new Float64Array(hours).fill(NaN)
  const slotOf = (localMs: number): number => hours - 1 + (localMs - originLocalMs) / MS_PER_HOUR
  for (let i = past.length - 1; i >= 0; i--) {
    const right = slotOf(clock(past[i]!.atMs))
    if (right < 0) break
    const nearest = Math.round(right)
    if (Math.abs(nearest - right) < 1e-6 && nearest < hours) temperaturesC[nearest] = past[i]!.temperatureC
    if (i === 0) break
    const left = slotOf(clock(past[i - 1]!.atMs))
    if (!(right > left) || right - left > LONGEST_JOIN_HOURS) continue
    for (let slot = Math.max(0, Math.ceil(left)); slot < right && slot < hours; slot++) {
      const share = (slot - left) / (right - left)
      temperaturesC[slot] =
        past[i - 1]!.temperatureC + share * (past[i]!.temperatureC - past[i - 1]!.temperatureC)
    }
  }
  return { temperaturesC, originLocalMs }
}

/** Monday 1 to Sunday 7, and the hour of the day with its fraction, of a local clock reading. */
export function weekdayAndHour(localMs: number): readonly [weekday: number, hour: number] {
  const days = Math.floor(localMs / MS_PER_DAY)
  // 1970-01-01 was a Thursday.
  const weekday = ((((days + 3) % 7) + 7) % 7) + 1
  return [weekday, (localMs - days * MS_PER_DAY) / MS_PER_HOUR]
}
