import type { Booking } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { NEVER } from '../../lib/words.ts'
import { t } from '../../lib/reader.ts'

/** What of the cure is still to come on a booking, drawn apart from the work. */
export type CureOverlay =
  | { readonly kind: 'none' }
  /** The vehicle must stay until `untilMs`; past the end of the booking from `overrunFromMs`, if so. */
  | {
      readonly kind: 'until'
      readonly fromMs: number
      readonly untilMs: number
      readonly overrunFromMs: number | null
    }
  | { readonly kind: 'open' }

export function cureOverlay(
  booking: Pick<Booking, 'startsAt' | 'endsAt' | 'curingUntil'>,
  nowMs: number,
): CureOverlay {
  const { curingUntil } = booking
  if (curingUntil === null) return { kind: 'none' }
  if (curingUntil.kind === 'never') return { kind: 'open' }
  const untilMs = Date.parse(curingUntil.at)
  const endMs = Date.parse(booking.endsAt)
  const fromMs = Math.min(Math.max(nowMs, Date.parse(booking.startsAt)), untilMs)
  return { kind: 'until', fromMs, untilMs, overrunFromMs: untilMs > endMs ? endMs : null }
}

/** The same in words; empty where nothing cures. */
export function cureText(
  { curingUntil, endsAt }: Pick<Booking, 'curingUntil' | 'endsAt'>,
  zone: string,
  nowMs: number,
): string {
  if (curingUntil === null) return ''
  if (curingUntil.kind === 'never') return t('schedule.curesNever', { why: NEVER[curingUntil.reason] })
  const at = formatInstant(curingUntil.at, zone)
  const untilMs = Date.parse(curingUntil.at)
  if (untilMs <= nowMs) return t('schedule.handlingStrengthSince', { at })
  return t(untilMs > Date.parse(endsAt) ? 'schedule.curesUntilPastItsBooking' : 'schedule.curesUntil', { at })
}
