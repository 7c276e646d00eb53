import { DateTime, IANAZone } from 'luxon'

const ISO_DATE = /^\d{4}-\d{2}-\d{2}$/

/** @throws RangeError when the zone is not an IANA time zone that the runtime knows. */
export function requireTimeZone(timeZone: string): string {
  // create() keeps its zones; isValidZone() would build a formatter each time, 0.1 ms a call.
  if (IANAZone.create(timeZone).isValid) return timeZone
  throw new RangeError(`timeZone is '${timeZone}': give an IANA zone such as 'Europe/London'`)
}

function dayIn(isoDate: string, timeZone: string): DateTime {
  const day = ISO_DATE.test(isoDate)
    ? DateTime.fromISO(isoDate, { zone: requireTimeZone(timeZone) })
    : undefined
  if (day?.isValid) return day
  throw new RangeError(`isoDate is '${isoDate}': give a day of the calendar as YYYY-MM-DD`)
}

/**
 * End of a calendar day in a shop's zone: the first instant after it, so that days are half-open [start,
 * end). A day is 23 or 25 h long when clocks change; where midnight does not exist, the next day starts with
 * its first instant that does.
 *
 * @throws RangeError for a date that is not on the calendar or a zone that is not known.
 */
export function endOfDayMs(isoDate: string, timeZone: string): number {
  return dayIn(isoDate, timeZone).plus({ days: 1 }).startOf('day').toMillis()
}

/** First instant of a calendar day in a shop's zone. @throws RangeError as `endOfDayMs`. */
export function startOfDayMs(isoDate: string, timeZone: string): number {
  return dayIn(isoDate, timeZone).startOf('day').toMillis()
}

/** The calendar day, YYYY-MM-DD, that an instant falls on in a shop's zone. @throws RangeError */
export function dateOf(atMs: number, timeZone: string): string {
  const day = DateTime.fromMillis(atMs, { zone: requireTimeZone(timeZone) }).toISODate()
  if (day !== null) return day
  throw new RangeError(`atMs is ${atMs}: give milliseconds since 1970-01-01T00:00Z`)
}

/** A calendar day as people write it: `2031-05-31` to '31 May 2031'. It belongs to no zone. */
export function formatDate(isoDate: string): string {
  return DateTime.fromISO(isoDate, { zone: 'utc' }).setLocale('en').toFormat('d LLL yyyy')
}

/**
 * Last day of a month, YYYY-MM-DD: what a date printed without a day means.
 *
 * @param month 1 to 12.
 * @throws RangeError for a month or year that is not on the calendar (years 1 to 9999).
 */
export function endOfMonthDate(year: number, month: number): string {
  if (!Number.isInteger(year) || year < 1 || year > 9999) {
    throw new RangeError(`year is ${year}: give a whole year from 1 to 9999`)
  }
  if (!Number.isInteger(month) || month < 1 || month > 12) {
    throw new RangeError(`month is ${month}: give a whole month from 1 to 12`)
  }
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const days = month === 2 ? (leap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${days}`
}

/** Minutes that a zone's clocks are ahead of UTC at an instant. @throws RangeError */
export function zoneOffsetMinutes(atMs: number, timeZone: string): number {
  return IANAZone.create(requireTimeZone(timeZone)).offset(atMs)
}
