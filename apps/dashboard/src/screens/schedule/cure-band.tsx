import type { Booking } from '../../api/types.ts'
import { cureOverlay, cureText } from './cure-overlay.ts'
import { percent, placeIn, type Span } from '../../features/timeline/time-scale.ts'
import styles from './timeline.module.css'

interface Props {
  readonly booking: Booking
  readonly span: Span
  readonly nowMs: number
  readonly zone: string
}

/** The cure still to come, hatched beneath its booking, which says it in words; red where it runs past the end. */
export function CureBand({ booking, span, nowMs, zone }: Props) {
  const overlay = cureOverlay(booking, nowMs)
  if (overlay.kind === 'none') return null
  const isOpen = overlay.kind === 'open'
  const endMs = isOpen ? span.endMs : overlay.untilMs
  const fromMs = isOpen ? Math.max(nowMs, Date.parse(booking.startsAt)) : overlay.fromMs
  const overMs = isOpen ? Date.parse(booking.endsAt) : overlay.overrunFromMs
  const within = placeIn(span, fromMs, overMs === null ? endMs : Math.min(endMs, overMs))
  const over = overMs === null ? undefined : placeIn(span, Math.max(overMs, fromMs), endMs)
  const text = cureText(booking, zone, nowMs)
  return (
    <>
      {within !== undefined && (
        <span
          className={styles['cure']}
          style={{ left: percent(within.left), width: percent(within.width) }}
          aria-hidden
          title={text}
        />
      )}
      {over !== undefined && (
        <span
          className={`${styles['cure']} ${styles['over']}`}
          style={{ left: percent(over.left), width: percent(over.width) }}
          aria-hidden
          title={text}
        />
      )}
    </>
  )
}
