import { useQuery } from '@tanstack/react-query'
import { DateTime } from 'luxon'
import { stockQueries } from '../../api/queries/stock.ts'
import type { ResultOf } from '../../api/types.ts'
import type { ROUTES } from '@clampclock/contracts'
import { serverNowMs } from '../../api/server-clock.ts'
import styles from './expiry-timeline.module.css'

type Month = ResultOf<typeof ROUTES.listExpiries>['items'][number]

interface Props {
  readonly shopId: string | undefined
  readonly productId: string | undefined
}

const MONTHS = 13

/** How much dies in which month: what is dead already, a year ahead, and all that is later in one bar. */
export function ExpiryTimeline({ shopId, productId }: Props) {
  const { data } = useQuery(stockQueries.expiries({ shopId, productId }))
  if (data === undefined || data.items.length === 0) return null
  const bars = barsOf(data.items, DateTime.fromMillis(serverNowMs()).toFormat('yyyy-MM'))
  const most = Math.max(1, ...bars.map(({ cartridges }) => cartridges))
  return (
    <section className={styles['timeline']} aria-label="When it dies">
      <p className={styles['title']}>Cartridges on hand, by the month in which they die</p>
      <ul>
        {bars.map(({ label, cartridges, tone, spoken }) => (
          <li key={label}>
            <span className={styles['count']}>{cartridges}</span>
            <span
              className={`${styles['bar']} ${styles[tone]}`}
              style={{ height: `${(cartridges / most) * 100}%` }}
              aria-hidden
            />
            <span className={styles['label']} aria-hidden>
              {label}
            </span>
            <span className={styles['spoken']}>{spoken}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

interface Bar {
  readonly label: string
  readonly cartridges: number
  readonly tone: 'dead' | 'soon' | 'good'
  readonly spoken: string
}

function barsOf(items: readonly Month[], thisMonth: string): Bar[] {
  const sum = (months: readonly Month[]) => months.reduce((total, { cartridges }) => total + cartridges, 0)
  const expired = items.reduce((total, each) => total + each.expired, 0)
  const first = DateTime.fromFormat(thisMonth, 'yyyy-MM').setLocale('en')
  const months = Array.from({ length: MONTHS }, (_, i) => first.plus({ months: i }))
  const last = months.at(-1)!.toFormat('yyyy-MM')
  return [
    { label: 'Dead', cartridges: expired, tone: 'dead', spoken: 'expired' },
    ...months.map((month, i): Bar => {
      const key = month.toFormat('yyyy-MM')
      const [found] = items.filter((item) => item.month === key)
      return {
        label: month.toFormat(i === 0 || month.month === 1 ? "LLL ''yy" : 'LLL'),
        cartridges: found === undefined ? 0 : found.cartridges - found.expired,
        tone: i <= 1 ? 'soon' : 'good',
        spoken: `die in ${month.toFormat('LLLL yyyy')}`,
      }
    }),
    {
      label: 'Later',
      cartridges: sum(items.filter(({ month }) => month > last)),
      tone: 'good',
      spoken: 'die later',
    },
  ]
}
