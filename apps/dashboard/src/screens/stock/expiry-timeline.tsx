import { useQuery } from '@tanstack/react-query'
import { stockQueries } from '../../api/queries/stock.ts'
import { barsOf } from './expiry-bars.ts'
import styles from './expiry-timeline.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly shopId: string | undefined
  readonly productId: string | undefined
}

/** How much dies in which month: what is dead already, a year ahead, and all that is later in one bar. */
export function ExpiryTimeline({ shopId, productId }: Props) {
  const { data } = useQuery(stockQueries.expiries({ shopId, productId }))
  if (data === undefined) return <Space />
  if (data.items.length === 0) return null
  const bars = barsOf(data)
  const most = Math.max(1, ...bars.map(({ cartridges }) => cartridges))
  return (
    <section className={styles['timeline']} aria-label={t('stock.expiryByMonth')}>
      <p className={styles['title']}>
        {t('stock.cartridgesOnHandByTheMonthInWhich', { soonDays: data.soonDays })}
      </p>
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

/** As high as the bars will be, so that the list below them stays where it is. */
function Space() {
  return (
    <div className={styles['timeline']} style={{ visibility: 'hidden' }} aria-hidden>
      <p className={styles['title']}>{t('stock.cartridgesOnHandByTheMonthInWhich2')}</p>
      <ul />
    </div>
  )
}
