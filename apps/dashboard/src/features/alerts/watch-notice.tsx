import { useQuery } from '@tanstack/react-query'
import { OctagonAlert } from 'lucide-react'
import { alertQueries } from '../../api/queries/alerts.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useShopScope } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import styles from '../../ui/answers/reasons.module.css'
import { isUnwatched } from './unwatched.ts'
import { t } from '../../lib/reader.ts'

/** Said where alerts are read: while nobody looks, no alert does not mean that nothing needs a person. */
export function WatchNotice() {
  const { shop, shops } = useShopScope()
  const { data } = useQuery(alertQueries.overview())
  const nowMs = useNow(60_000)
  if (data === undefined || !isUnwatched(data.watched, nowMs)) return null
  const zone = (shop ?? shops[0])?.timeZone ?? 'UTC'
  return (
    <div className={styles['panel']} role="alert">
      <p className={styles['title']}>
        <OctagonAlert size={18} aria-hidden />
        {data.watched.at === null
          ? t('features.notWatchedYet')
          : t('features.notWatchedSince', { at: formatInstant(data.watched.at, zone, 'dayClock') })}
      </p>
      <p className={styles['fix']}>{t('features.checkStockBaysAndJointsByHandAndTell')}</p>
    </div>
  )
}
