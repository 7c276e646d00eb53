import { DateTime } from 'luxon'

/**
 * Until when something counts, as a person says it. An expiry is the first instant that no longer counts: at a shop's
 * midnight it is 'the end of' the day before, since '00:00' of the next day is read as one day more.
 */
export function formatUntil(expiryAt: string, zone: string): string {
  const at = DateTime.fromISO(expiryAt, { zone }).setLocale('en')
  const isMidnight = at.equals(at.startOf('day'))
  return isMidnight
    ? `the end of ${at.minus({ days: 1 }).toFormat('d LLL yyyy')}`
    : at.toFormat('d LLL yyyy, HH:mm')
}

/** The last day on which it counts, at least in part. */
export function lastDay(expiryAt: string, zone: string): string {
  return DateTime.fromISO(expiryAt, { zone }).minus(1).setLocale('en').toFormat('d LLL yyyy')
}
