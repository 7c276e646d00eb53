import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { alertQueries } from '../../api/queries/alerts.ts'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { useShopScope } from '../../lib/shop-scope.ts'
import { Page, Section } from '../../ui/page.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { AlertRow } from '../../features/alerts/alert-row.tsx'
import { WatchNotice } from '../../features/alerts/watch-notice.tsx'
import { findingsOf } from './findings.ts'
import { FindingList } from './finding-list.tsx'
import { mostUrgentOf } from './most-urgent.ts'
import styles from './overview.module.css'
import { ShopTable } from './shop-table.tsx'
import { t } from '../../lib/reader.ts'

const ALERTS_SHOWN = 6

/** What needs a person now, in every shop or in one. */
export function OverviewScreen() {
  const { shop, shops: all } = useShopScope()
  const overview = useQuery(alertQueries.overview())
  const clashes = useInfiniteQuery(alertQueries.list({ kind: 'bayClash', shopId: shop?.id }))
  if (all.length === 0) return <NoShop title={t('overview.overview')} />
  return (
    <Page
      title={shop === undefined ? t('overview.allShops') : shop.name}
      lede={t('overview.needsAttentionMostUrgentFirst')}
    >
      <WatchNotice />
      <Answered query={overview} what={t('overview.theOverview')}>
        {(data) => {
          const shops = data.shops.filter((entry) => shop === undefined || entry.shop.id === shop.id)
          const clashAlerts = clashes.data?.pages.flatMap((page) => page.items) ?? []
          const alerts = mostUrgentOf(
            shops.flatMap((entry) => entry.alerts),
            ALERTS_SHOWN,
          )
          return (
            <>
              <FindingList findings={findingsOf(shops, clashAlerts)} showShops={shops.length > 1} />
              <Section title={shops.length > 1 ? t('overview.shops') : t('overview.inTheShop')}>
                <ShopTable shops={shops} />
              </Section>
              {alerts.length > 0 && (
                <Section title={t('overview.mostUrgentAlerts')}>
                  <ul className={styles['alerts']}>
                    {alerts.map((alert) => (
                      <AlertRow key={alert.id} alert={alert} />
                    ))}
                  </ul>
                  <p>
                    <Link to="/alerts">{t('overview.allOpenAlerts')}</Link>
                  </p>
                </Section>
              )}
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
