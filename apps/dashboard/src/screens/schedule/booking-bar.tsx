import { Flame, OctagonAlert } from 'lucide-react'
import { t } from '../../lib/reader.ts'
import type { Booking } from '../../api/types.ts'
import { formatInstant, formatSpan } from '../../lib/instants.ts'
import { PURPOSE } from '../../lib/words.ts'
import { cureText } from './cure-overlay.ts'
import { percent, placeIn, type Span } from '../../features/timeline/time-scale.ts'
import shared from '../../ui/over-time.module.css'
import styles from './timeline.module.css'

interface Props {
  readonly booking: Booking
  readonly span: Span
  readonly nowMs: number
  readonly zone: string
  readonly onOpen: (booking: Booking) => void
}

export function BookingBar({ booking, span, nowMs, zone, onOpen }: Props) {
  const place = placeIn(span, Date.parse(booking.startsAt), Date.parse(booking.endsAt))
  if (place === undefined) return null
  const period = formatSpan(formatInstant(booking.startsAt, zone), formatInstant(booking.endsAt, zone))
  const label = [
    `${PURPOSE[booking.purpose]}: ${booking.vehicle}, ${booking.repairOrderNumber}, ${period}`,
    cureText(booking, zone, nowMs),
    booking.clash === null ? '' : t('schedule.clashOf', { message: booking.clash.message }),
  ]
    .filter((part) => part !== '')
    .join('. ')
  const look = [
    shared['bar'],
    styles['bar'],
    booking.purpose === 'bake' ? styles['bake'] : '',
    booking.clash === null ? '' : styles['clashing'],
  ].join(' ')
  return (
    <button
      type="button"
      data-drawn-to-scale=""
      className={look}
      style={{ left: percent(place.left), width: percent(place.width) }}
      aria-label={label}
      title={label}
      onClick={() => onOpen(booking)}
    >
      {booking.clash !== null && <OctagonAlert size={14} aria-hidden />}
      {booking.purpose === 'bake' && <Flame size={14} aria-hidden />}
      <span>
        <b>{booking.vehicle}</b> {booking.repairOrderNumber}
      </span>
    </button>
  )
}
