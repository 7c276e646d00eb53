import { endOfDayMs } from '@clampclock/quantities'
import { DateTime } from 'luxon'

export type ExpiryLimit = 'printedExpiry' | 'openLife' | 'warmStorage'

export interface CartridgeLife {
  /** Last day that counts, `2031-05-31`, in the shop's own time zone. */
  readonly printedExpiry: string
  readonly timeZone: string
  readonly openedAtMs: number | null
  /** Days that an opened cartridge counts, by the calendar of the shop. */
  readonly openLifeDays: number
  /** From `warmStorageLossMs`; 0 where nothing was measured. */
  readonly warmStorageLossMs: number
}

export interface EffectiveExpiry {
  /** The first instant at which the cartridge no longer counts. */
  readonly atMs: number
  readonly limit: ExpiryLimit
  /** One sentence for a person. */
  readonly reason: string
}

/** Less warm storage than this is not worth a sentence. */
const WORTH_TELLING_MS = 3_600_000
const DAY_MS = 86_400_000

/**
 * The earliest of printed expiry, printed expiry less what warm storage took, and opened time plus open life.
 * A printed day counts to its end in the shop's time zone; open life runs from the instant of opening.
 *
 * @throws {RangeError} For a date or zone that does not exist.
 */
export function effectiveExpiry(life: CartridgeLife): EffectiveExpiry {
  const printedMs = endOfDayMs(life.printedExpiry, life.timeZone)
  const warm = life.warmStorageLossMs >= WORTH_TELLING_MS
  const shelf: EffectiveExpiry = warm
    ? {
        atMs: printedMs - life.warmStorageLossMs,
        limit: 'warmStorage',
        reason: `Warm storage took ${spell(life.warmStorageLossMs)} off the printed expiry of ${life.printedExpiry}`,
      }
    : { atMs: printedMs, limit: 'printedExpiry', reason: `Printed expiry: the end of ${life.printedExpiry}` }
  if (life.openedAtMs === null) return shelf

  const opened = DateTime.fromMillis(life.openedAtMs, { zone: life.timeZone })
  const openEndsMs = opened.plus({ days: life.openLifeDays }).toMillis()
  if (openEndsMs >= shelf.atMs) return shelf
  return {
    atMs: openEndsMs,
    limit: 'openLife',
    reason: `Opened on ${opened.toISODate()}, and counts for ${life.openLifeDays} ${life.openLifeDays === 1 ? 'day' : 'days'} once opened`,
  }
}

function spell(ms: number): string {
  const days = ms / DAY_MS
  if (days >= 1.95) return `${Math.round(days)} days`
  return `${Math.round(ms / 3_600_000)} h`
}

export type Urgency = 'expired' | 'soon' | 'good'

/** What `soon` means: time to use it up, move it to another shop, or order. Common practice, no source. */
export const SOON_DAYS = 30

export function urgency(effectiveExpiryMs: number, nowMs: number): Urgency {
  if (effectiveExpiryMs <= nowMs) return 'expired'
  return effectiveExpiryMs <= nowMs + SOON_DAYS * DAY_MS ? 'soon' : 'good'
}
