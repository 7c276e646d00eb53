import type { Booking, Resource, Shop } from '../../api/types.ts'
import { useNow } from '../../lib/use-now.ts'
import { Empty } from '../../ui/waiting.tsx'
import { BookingBar } from './booking-bar.tsx'
import { CureBand } from './cure-band.tsx'
import { percent, placeIn, ticksOf, type Span } from '../../features/timeline/time-scale.ts'
import shared from '../../ui/over-time.module.css'
import styles from './timeline.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bookings: readonly Booking[]
  readonly places: readonly Resource[]
  readonly span: Span
  readonly days: 1 | 3 | 7
  readonly shop: Shop
  readonly mayPlan: boolean
  readonly onOpen: (booking: Booking) => void
  readonly onNew: (resourceId: string) => void
}

const HOURS_PER_TICK = { 1: 2, 3: 6, 7: 12 } as const

/** Rows by bay and oven. Each booking is a button; what of its cure is still to come lies beneath it. */
export function Timeline({ bookings, places, span, days, shop, mayPlan, onOpen, onNew }: Props) {
  const nowMs = useNow(60_000)
  const ticks = ticksOf(span, HOURS_PER_TICK[days], shop.timeZone)
  const now = placeIn(span, nowMs, nowMs + 1)
  const left = (atMs: number) => percent((atMs - span.startMs) / (span.endMs - span.startMs))
  if (places.length === 0) return <Empty title={t('schedule.noBaysOrOvensYet')} />
  return (
    <div className={styles['scroll']}>
      <div className={styles['timeline']}>
        <div className={`${shared['axis']} ${styles['axis']}`} aria-hidden>
          {ticks.map((tick) => (
            <span
              key={tick.atMs}
              className={tick.isDay ? shared['day'] : shared['hour']}
              style={{ left: left(tick.atMs) }}
            >
              {tick.label}
            </span>
          ))}
        </div>
        {places.map((place) => {
          const own = bookings.filter(({ resourceId }) => resourceId === place.id)
          return (
            <section key={place.id} className={`${shared['row']} ${styles['row']}`} aria-label={place.name}>
              <h2 className={styles['place']}>
                {mayPlan ? (
                  <button
                    type="button"
                    onClick={() => onNew(place.id)}
                    title={t('schedule.newBookingIn', { name: place.name })}
                  >
                    {place.name}
                  </button>
                ) : (
                  place.name
                )}
              </h2>
              <div className={`${shared['lane']} ${styles['lane']}`}>
                {ticks.map((tick) => (
                  <i
                    key={tick.atMs}
                    className={tick.isDay ? styles['dayLine'] : styles['hourLine']}
                    style={{ left: left(tick.atMs) }}
                  />
                ))}
                {now !== undefined && <i className={styles['now']} style={{ left: percent(now.left) }} />}
                {own.map((booking) => (
                  <BookingBar
                    nowMs={nowMs}
                    key={booking.id}
                    booking={booking}
                    span={span}
                    zone={shop.timeZone}
                    onOpen={onOpen}
                  />
                ))}
                {own.map((booking) => (
                  <CureBand
                    key={booking.id}
                    booking={booking}
                    span={span}
                    nowMs={nowMs}
                    zone={shop.timeZone}
                  />
                ))}
              </div>
            </section>
          )
        })}
      </div>
      <ul className={`${shared['legend']} ${styles['legend']}`} aria-label={t('schedule.legend')}>
        <li>
          <i className={styles['keyWork']} /> {t('schedule.work')}
        </li>
        <li>
          <i className={styles['keyBake']} /> {t('schedule.bake')}
        </li>
        <li>
          <i className={styles['keyCure']} /> {t('schedule.cureStillToComeOnTheCarefulEstimate')}
        </li>
        <li>
          <i className={styles['keyOver']} /> {t('schedule.cureBeyondTheBooking')}
        </li>
        <li>
          <i className={styles['keyNow']} /> {t('schedule.now')}
        </li>
      </ul>
    </div>
  )
}
