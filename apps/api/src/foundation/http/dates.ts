import { DateTime } from 'luxon'

/** PostgreSQL's `date` as the driver carries it: midnight UTC of that day. */
export function dateOf(isoDate: string): Date {
  return new Date(`${isoDate}T00:00:00Z`)
}

export function isoDate(date: Date): string {
  return date.toISOString().slice(0, 10)
}

/** The calendar day of an instant on a clock: '2031-05-31'. */
export function dayIn(at: Date, timeZone: string): string {
  return DateTime.fromJSDate(at, { zone: timeZone }).toFormat('yyyy-MM-dd')
}
