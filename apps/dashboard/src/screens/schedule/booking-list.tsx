import { Flame } from 'lucide-react'
import type { Booking, Resource, Shop } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Empty } from '../../ui/waiting.tsx'
import styles from '../../features/timeline/booking-list.module.css'
import { cureText } from './cure-overlay.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bookings: readonly Booking[]
  readonly places: readonly Resource[]
  readonly shop: Shop
  readonly onOpen: (booking: Booking) => void
}

/** The schedule for a phone: bay by bay, in order of time. */
export function BookingList({ bookings, places, shop, onOpen }: Props) {
  const nowMs = useNow(60_000)
  if (places.length === 0) return <Empty title={t('schedule.noBaysOrOvensYet')} />
  return (
    <>
      {places.map((place) => {
        const own = bookings.filter(({ resourceId }) => resourceId === place.id)
        return (
          <section key={place.id} className={styles['place']} aria-label={place.name}>
            <h2>{place.name}</h2>
            {own.length === 0 && <p className={styles['soft']}>{t('schedule.free')}</p>}
            <ul>
              {own.map((booking) => (
                <li key={booking.id}>
                  <button type="button" onClick={() => onOpen(booking)}>
                    <span>
                      {booking.purpose === 'bake' && <Flame size={16} aria-hidden />}{' '}
                      <strong>{booking.vehicle}</strong> {booking.repairOrderNumber}
                    </span>
                    <span>
                      {t('schedule.to', {
                        startsAt: formatInstant(booking.startsAt, shop.timeZone),
                        endsAt: formatInstant(booking.endsAt, shop.timeZone),
                      })}
                    </span>
                    {booking.curingUntil !== null && (
                      <Mark tone={isDone(booking, nowMs) ? 'ready' : 'curing'}>
                        {cureText(booking, shop.timeZone, nowMs)}
                      </Mark>
                    )}
                    {booking.clash !== null && <Mark tone="danger">{booking.clash.message}</Mark>}
                  </button>
                </li>
              ))}
            </ul>
          </section>
        )
      })}
    </>
  )
}

function isDone({ curingUntil }: Booking, nowMs: number): boolean {
  return curingUntil?.kind === 'at' && Date.parse(curingUntil.at) <= nowMs
}
