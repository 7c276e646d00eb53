import { formatMinutes, readDay, wallTime, type WallTime } from '@clampclock/quantities'
import { fill } from './patterns.ts'
import type { InstantStyle, Rounding } from './param.ts'
import type { Reader } from './reader.ts'

type Language = Reader['language']

const two = (value: number) => String(value).padStart(2, '0')

/** A month's name, 1 to 12. */
export function monthText(language: Language, month: number): string {
  return fill(language, `calendar.month.${month}`, {})
}

/** A month's short name, 1 to 12. */
export function shortMonthText(language: Language, month: number): string {
  return fill(language, `calendar.month.short.${month}`, {})
}

/** A weekday's short name, 1 (Monday) to 7. */
export function weekdayText(language: Language, weekday: number): string {
  return fill(language, `calendar.weekday.${weekday}`, {})
}

/** A time of the day, on 24 hours or with a.m. and p.m. */
export function clockText(reader: Pick<Reader, 'clock' | 'language'>, hour: number, minute: number): string {
  if (reader.clock === '24h') return `${two(hour)}:${two(minute)}`
  const key = hour < 12 ? 'calendar.am' : 'calendar.pm'
  return fill(reader.language, key, { time: `${((hour + 11) % 12) + 1}:${two(minute)}` })
}

function dateText(
  language: Language,
  { year, month, day }: Pick<WallTime, 'year' | 'month' | 'day'>,
): string {
  return fill(language, 'calendar.date', {
    day: String(day),
    month: shortMonthText(language, month),
    year: String(year),
  })
}

function dayAndMonth(language: Language, { weekday, month, day }: WallTime): string {
  return fill(language, 'calendar.day', {
    weekday: weekdayText(language, weekday),
    day: String(day),
    month: shortMonthText(language, month),
  })
}

/** A day of the calendar, YYYY-MM-DD. What is none is said to be none, and the rest still shows. */
export function dayText(language: Language, isoDate: string): string {
  const day = readDay(isoDate)
  return day === undefined ? fill(language, 'calendar.none', {}) : dateText(language, day)
}

/** An instant in ms on the clock of the reader's zone. */
export function instantText(reader: Reader, atMs: number, style: InstantStyle = 'dayClock'): string {
  const { language } = reader
  if (!Number.isFinite(atMs)) return fill(language, 'calendar.none', {})
  const wall = wallTime(atMs, reader.zone)
  const clock = clockText(reader, wall.hour, wall.minute)
  if (style === 'clock') return clock
  if (style === 'day') return dayAndMonth(language, wall)
  if (style === 'date') return dateText(language, wall)
  if (style === 'weekdayClock')
    return fill(language, 'calendar.weekdayClock', { weekday: weekdayText(language, wall.weekday), clock })
  const day = style === 'full' ? dateText(language, wall) : dayAndMonth(language, wall)
  return fill(language, 'calendar.dayClock', { day, clock })
}

/** A duration, as `formatMinutes` rounds and divides it. */
export function minutesText(language: Language, minutes: number, round?: Rounding): string {
  if (minutes === Infinity) return fill(language, 'calendar.never', {})
  return formatMinutes(minutes, round)
}
