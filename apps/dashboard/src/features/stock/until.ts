import { formatMs, isMidnight } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'

/**
 * Until when something counts, as a person says it. An expiry is the first instant that no longer counts: at a shop's
 * midnight it is 'the end of' the day before, since '00:00' of the next day is read as one day more.
 */
export function formatUntil(expiryAt: string, zone: string): string {
  const atMs = Date.parse(expiryAt)
  return Number.isFinite(atMs) && isMidnight(atMs, zone)
    ? t('features.theEndOf', { expiryAt: lastDay(expiryAt, zone) })
    : formatMs(atMs, zone, 'full')
}

/** The last day on which it counts, at least in part. */
export function lastDay(expiryAt: string, zone: string): string {
  return formatMs(Date.parse(expiryAt) - 1, zone, 'date')
}
