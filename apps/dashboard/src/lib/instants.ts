import { DateTime } from 'luxon'

export { formatDate } from '@clampclock/quantities'

type Style = 'clock' | 'day' | 'dayClock' | 'date' | 'full'

const FORMATS = {
  clock: 'HH:mm',
  day: 'ccc d LLL',
  dayClock: 'ccc d LLL, HH:mm',
  date: 'd LLL yyyy',
  full: 'd LLL yyyy, HH:mm',
} as const satisfies Record<Style, string>

/** An instant on a shop's clock. Months and days are English, as the screens are. */
export function formatInstant(iso: string, zone: string, style: Style = 'dayClock'): string {
  return DateTime.fromISO(iso, { zone }).setLocale('en').toFormat(FORMATS[style])
}

/** The clock time alone on the same day, else with the day: what a person needs to hear, and no more. */
export function formatNear(iso: string, zone: string, nowMs: number): string {
  const at = DateTime.fromISO(iso, { zone }).setLocale('en')
  const now = DateTime.fromMillis(nowMs, { zone })
  if (at.hasSame(now, 'day')) return at.toFormat('HH:mm')
  if (at.hasSame(now.plus({ days: 1 }), 'day')) return `tomorrow ${at.toFormat('HH:mm')}`
  if (at.hasSame(now.minus({ days: 1 }), 'day')) return `yesterday ${at.toFormat('HH:mm')}`
  return at.toFormat(at.year === now.year ? 'ccc d LLL, HH:mm' : 'd LLL yyyy, HH:mm')
}

/** For an input of type datetime-local: the shop's wall clock. */
export function toWallClock(iso: string, zone: string): string {
  return DateTime.fromISO(iso, { zone }).toFormat("yyyy-MM-dd'T'HH:mm")
}

export type WallClock = { readonly iso: string } | { readonly fault: string }

/** Reads what a person typed on the shop's wall clock; an hour that the spring change skips does not exist. */
export function fromWallClock(text: string, zone: string): WallClock {
  const at = DateTime.fromFormat(text, "yyyy-MM-dd'T'HH:mm", { zone })
  if (!at.isValid) return { fault: 'Give a day and a time.' }
  if (at.toFormat("yyyy-MM-dd'T'HH:mm") !== text) {
    return { fault: `${text.slice(11)} does not exist on that day: the clocks go forward.` }
  }
  return { iso: at.toUTC().toISO() }
}

/** Today's date on the shop's calendar. */
export function todayIn(zone: string, nowMs: number): string {
  return DateTime.fromMillis(nowMs, { zone }).toFormat('yyyy-MM-dd')
}

/** The day `days` further on, on the calendar. */
export function shiftDay(day: string, days: number): string {
  return DateTime.fromISO(day, { zone: 'utc' }).plus({ days }).toFormat('yyyy-MM-dd')
}
