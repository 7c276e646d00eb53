import { NativeSelect, Switch } from '@mantine/core'
import { useInfiniteQuery } from '@tanstack/react-query'
import { useNavigate, useSearch } from '@tanstack/react-router'
import { alertQueries } from '../../api/queries/alerts.ts'
import { useShopScope } from '../../lib/shop-scope.ts'
import { ALERT, choicesOf } from '../../lib/words.ts'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { MoreButton } from '../../ui/more-button.tsx'
import { Page } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import styles from './alert-list.module.css'
import { AlertRow } from '../../features/alerts/alert-row.tsx'
import { WatchNotice } from '../../features/alerts/watch-notice.tsx'
import { DigestChoice } from './digest-choice.tsx'
import { readAlertSearch } from './search.ts'
import { t } from '../../lib/reader.ts'

export function AlertsScreen() {
  const search = useSearch({ from: '/in/alerts' })
  const { shop } = useShopScope()
  const navigate = useNavigate({ from: '/alerts' })
  const showsClosed = search.closed === 'yes'
  const alerts = useInfiniteQuery(
    alertQueries.list({
      shopId: shop?.id,
      kind: search.kind,
      open: showsClosed ? 'false' : 'true',
      mine: search.mine === 'yes' ? 'true' : undefined,
      snoozed: showsClosed || search.snoozed === 'yes' ? 'true' : undefined,
    }),
  )
  return (
    <Page title={t('alerts.alerts')} lede={shop?.name ?? t('alerts.allShops')} actions={<DigestChoice />}>
      <WatchNotice />
      <FilterBar>
        <NativeSelect
          label={t('alerts.kind')}
          value={search.kind ?? ''}
          data={[{ value: '', label: t('alerts.everyKind') }, ...choicesOf(ALERT)]}
          onChange={(event) => {
            const { kind } = readAlertSearch({ kind: event.currentTarget.value })
            void navigate({ search: (old) => ({ ...old, kind }), replace: true })
          }}
        />
        <Switch
          label={t('alerts.mine')}
          checked={search.mine === 'yes'}
          onChange={(event) => {
            const mine = event.currentTarget.checked ? ('yes' as const) : undefined
            void navigate({ search: (old) => ({ ...old, mine }), replace: true })
          }}
        />
        <Switch
          label={t('alerts.showSnoozed')}
          checked={search.snoozed === 'yes'}
          onChange={(event) => {
            const snoozed = event.currentTarget.checked ? ('yes' as const) : undefined
            void navigate({ search: (old) => ({ ...old, snoozed }), replace: true })
          }}
        />
        <Switch
          label={t('alerts.closedOnes')}
          checked={showsClosed}
          onChange={(event) => {
            const closed = event.currentTarget.checked ? ('yes' as const) : undefined
            void navigate({ search: (old) => ({ ...old, closed }), replace: true })
          }}
        />
      </FilterBar>
      <Answered query={alerts} what={t('alerts.alerts2')}>
        {({ pages }) => {
          const items = pages.flatMap((page) => page.items)
          if (items.length === 0) {
            return (
              <Empty title={showsClosed ? t('alerts.noClosedAlerts') : t('alerts.noOpenAlerts')}>
                {t('alerts.nothingNeedsAPersonHere')}
              </Empty>
            )
          }
          return (
            <>
              <ul className={styles['alerts']} aria-label={t('alerts.alerts')}>
                {items.map((alert) => (
                  <AlertRow key={alert.id} alert={alert} />
                ))}
              </ul>
              <MoreButton query={alerts} />
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
