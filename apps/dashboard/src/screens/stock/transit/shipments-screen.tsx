import { Switch } from '@mantine/core'
import { useInfiniteQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useNavigate, useSearch } from '@tanstack/react-router'
import { stockQueries } from '../../../api/queries/stock.ts'
import type { Shipment } from '../../../api/types.ts'
import { useShopScope } from '../../../lib/shop-scope.ts'
import { FilterBar } from '../../../ui/fields/filter-bar.tsx'
import { MoreButton } from '../../../ui/more-button.tsx'
import { Page } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { ShipmentCard } from './shipment-card.tsx'
import { StockNav } from '../stock-nav.tsx'
import { t } from '../../../lib/reader.ts'

/** What is on its way between shops, and what was. */
export function ShipmentsScreen() {
  const { all } = useSearch({ from: '/in/stock/shipments' })
  const navigate = useNavigate({ from: '/stock/shipments' })
  const { shop } = useShopScope()
  const shipments = useInfiniteQuery(
    stockQueries.shipments({ shopId: shop?.id, onTheWay: all === 'yes' ? undefined : 'true' }),
  )
  // What has just come stays where it stood: else the button of the next one lies under the same thumb.
  const [arrived, setArrived] = useState<readonly Shipment[]>([])
  return (
    <Page
      title={t('stock.shipments')}
      lede={t('stock.fromShopToShop', { name: shop?.name ?? t('stock.allShops') })}
    >
      <StockNav />
      <FilterBar>
        <Switch
          label={t('stock.showCompleted')}
          checked={all === 'yes'}
          onChange={(event) => {
            const next = event.currentTarget.checked ? ('yes' as const) : undefined
            void navigate({ search: (old) => ({ ...old, all: next }), replace: true })
          }}
        />
      </FilterBar>
      <Answered query={shipments} what={t('stock.shipments2')}>
        {({ pages }) => {
          const items = withArrived(
            pages.flatMap((page) => page.items),
            arrived,
          )
          if (items.length === 0)
            return <Empty title={all === 'yes' ? t('stock.noShipmentYet') : t('stock.nothingIsOnItsWay')} />
          return (
            <>
              {items.map((shipment) => (
                <ShipmentCard
                  key={shipment.id}
                  shipment={shipment}
                  onArrived={(come) => setArrived((old) => [...old, come])}
                />
              ))}
              <MoreButton query={shipments} />
            </>
          )
        }}
      </Answered>
    </Page>
  )
}

/** In the order of the list: the latest first. */
function withArrived(items: readonly Shipment[], arrived: readonly Shipment[]): readonly Shipment[] {
  const gone = arrived.filter(({ id }) => !items.some((item) => item.id === id))
  return [...items, ...gone].toSorted((a, b) => b.sentAt.localeCompare(a.sentAt) || a.id.localeCompare(b.id))
}
