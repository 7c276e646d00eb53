import { Switch } from '@mantine/core'
import { useInfiniteQuery } from '@tanstack/react-query'
import { useNavigate, useSearch } from '@tanstack/react-router'
import { stockQueries } from '../../../api/queries/stock.ts'
import { useShopScope } from '../../../lib/shop-scope.ts'
import { FilterBar } from '../../../ui/fields/filter-bar.tsx'
import { MoreButton } from '../../../ui/more-button.tsx'
import { Page } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { ShipmentCard } from './shipment-card.tsx'
import { StockNav } from '../stock-nav.tsx'

/** What is on its way between shops, and what was. */
export function ShipmentsScreen() {
  const { all } = useSearch({ from: '/in/stock/shipments' })
  const navigate = useNavigate({ from: '/stock/shipments' })
  const { shop } = useShopScope()
  const shipments = useInfiniteQuery(
    stockQueries.shipments({ shopId: shop?.id, onTheWay: all === 'yes' ? undefined : 'true' }),
  )
  return (
    <Page title="Shipments" lede={`${shop?.name ?? 'All shops'}: from shop to shop`}>
      <StockNav />
      <FilterBar>
        <Switch
          label="Show completed"
          checked={all === 'yes'}
          onChange={(event) => {
            const next = event.currentTarget.checked ? ('yes' as const) : undefined
            void navigate({ search: (old) => ({ ...old, all: next }), replace: true })
          }}
        />
      </FilterBar>
      <Answered query={shipments} what="shipments">
        {({ pages }) => {
          const items = pages.flatMap((page) => page.items)
          if (items.length === 0)
            return <Empty title={all === 'yes' ? 'No shipment yet.' : 'Nothing is on its way.'} />
          return (
            <>
              {items.map((shipment) => (
                <ShipmentCard key={shipment.id} shipment={shipment} />
              ))}
              <MoreButton query={shipments} />
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
