import { dayText, instantText, monthText, shortMonthText, type InstantStyle } from '@clampclock/messages'
import { atWall, readDay, startOfDay, wallTime, writeDay, type WallTime } from '@clampclock/quantities'
import { reader, t, together } from './reader.ts'

/** A month's name in the reader's language; `month` 1 to 12. */
export function monthName(month: number): string {
  return monthText(reader().language, month)
}

/** The same, short. */
export function shortMonth(month: number): string {
  return shortMonthText(reader().language, month)
}

const two = (value: number) => String(value).padStart(2, '0')
const clock = ({ hour, minute }: WallTime) => `${two(hour)}:${two(minute)}`

/** A calendar day as people write it: `2031-05-31` to '31 May 2031'. It belongs to no zone. */
export function formatDate(isoDate: string): string {
  return dayText(reader().language, isoDate)
}

/** An instant on a shop's clock, in the reader's language and with his hours of the day. */
export function formatInstant(iso: string, zone: string, style: InstantStyle = 'dayClock'): string {
  return formatMs(Date.parse(iso), zone, style)
}

/** The same of an instant in ms. */
export function formatMs(atMs: number, zone: string, style: InstantStyle = 'dayClock'): string {
  return together(instantText({ ...reader(), zone }, atMs, style))
}

/** The clock time alone on the same day, else with the day: what a person needs to hear, and no more. */
export function formatNear(iso: string, zone: string, nowMs: number): string {
  const atMs = Date.parse(iso)
  if (!Number.isFinite(atMs)) return formatMs(atMs, zone)
  const day = todayIn(zone, atMs)
  const today = todayIn(zone, nowMs)
  if (day === today) return formatMs(atMs, zone, 'clock')
  if (day === shiftDay(today, 1)) return t('calendar.tomorrow', { clock: formatMs(atMs, zone, 'clock') })
  if (day === shiftDay(today, -1)) return t('calendar.yesterday', { clock: formatMs(atMs, zone, 'clock') })
  return formatMs(atMs, zone, day.slice(0, 4) === today.slice(0, 4) ? 'dayClock' : 'full')
}

/** When something is ready, to the minute that is shown: never one too early. */
export function toWholeMinute(atMs: number): number {
  return Math.ceil(atMs / 60_000) * 60_000
}

/** From one instant to another, each as `format` says it. */
export function formatSpan(from: string, until: string): string {
  return t('lib.range', { from, until })
}

/** For an input of type datetime-local: the shop's wall clock. */
export function toWallClock(iso: string, zone: string): string {
  const wall = wallTime(Date.parse(iso), zone)
  return `${writeDay(wall)}T${clock(wall)}`
}

export type WallClock = { readonly iso: string } | { readonly fault: string }

/** Reads what a person typed on the shop's wall clock; an hour that the spring change skips does not exist. */
export function fromWallClock(text: string, zone: string): WallClock {
  const [date = '', time = ''] = text.split('T')
  const day = readDay(date)
  const [, hour, minute] = /^(\d{2}):(\d{2})$/.exec(time)?.map(Number) ?? []
  if (day === undefined || hour === undefined || minute === undefined || hour > 23 || minute > 59)
    return { fault: t('calendar.dayAndTime') }
  const iso = new Date(atWall({ ...day, hour, minute }, zone)).toISOString()
  if (toWallClock(iso, zone) !== text) {
    return { fault: t('calendar.skipped', { time }) }
  }
  return { iso }
}

/** Today's date on the shop's calendar. */
export function todayIn(zone: string, nowMs: number): string {
  return writeDay(wallTime(nowMs, zone))
}

/** The day `days` further on, on the calendar. @throws RangeError for what is no day, YYYY-MM-DD. */
export function shiftDay(day: string, days: number): string {
  const from = readDay(day)
  if (from === undefined) throw new RangeError(`day is '${day}': give a day of the calendar as YYYY-MM-DD`)
  return writeDay({ ...from, day: from.day + days })
}

/** The first instant of a day of the calendar on a shop's clock, ms. @throws RangeError as `shiftDay`. */
export function dayStart(day: string, zone: string, laterDays = 0): number {
  const from = readDay(day)
  if (from === undefined) throw new RangeError(`day is '${day}': give a day of the calendar as YYYY-MM-DD`)
  return atWall({ ...from, day: from.day + laterDays }, zone)
}

/** Whether a day begins at an instant on a shop's clock. */
export function isMidnight(atMs: number, zone: string): boolean {
  return startOfDay(atMs, zone) === atMs
}
