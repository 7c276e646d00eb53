import { Button } from '@mantine/core'
import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { Settings2 } from 'lucide-react'
import { replenishmentQueries } from '../../api/queries/replenishment.ts'
import { useMay } from '../../api/use-me.ts'
import { useOneShop, zoneOf } from '../../lib/shop-scope.ts'
import { MoreButton } from '../../ui/more-button.tsx'
import { Page, Section } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { bySupplier } from './by-supplier.ts'
import { NothingToOrder } from './nothing-to-order.tsx'
import { OrderList } from './order-list.tsx'
import { SupplierLines } from './supplier-lines.tsx'

/** What to order for the shop in view, supplier by supplier, and the orders that are out. */
export function OrderingScreen() {
  const { shop } = useOneShop()
  const may = useMay()
  const lines = useQuery({ ...replenishmentQueries.ofShop(shop?.id ?? ''), enabled: shop !== undefined })
  const orders = useInfiniteQuery(replenishmentQueries.orders(shop?.id))
  if (shop === undefined) return <Page title="Ordering">Add a shop first.</Page>
  return (
    <Page
      title="Ordering"
      lede={`${shop.name}: from what was used in the last year, and what is planned`}
      actions={
        may('manageCatalogue', null) && (
          <Button
            variant="default"
            leftSection={<Settings2 size={16} aria-hidden />}
            renderRoot={(props) => <Link {...props} to="/admin/ordering" />}
          >
            Suppliers and prices
          </Button>
        )
      }
    >
      <Answered query={lines} what="what to order">
        {({ items, currency }) => {
          if (items.length === 0)
            return <Empty title="Nothing is stocked here yet.">Receive a lot, and it will be watched.</Empty>
          const { suppliers, without } = bySupplier(items)
          return (
            <>
              {suppliers.map((group) => (
                <SupplierLines
                  key={`${group.supplierId} ${group.key}`}
                  group={group}
                  shop={shop}
                  currency={currency}
                  mayOrder={may('handleStock', shop.id)}
                />
              ))}
              <NothingToOrder lines={without} />
            </>
          )
        }}
      </Answered>
      <Section title="Orders">
        <Answered query={orders} what="orders">
          {({ pages }) => {
            const rows = pages.flatMap((page) => page.items)
            if (rows.length === 0) return <Empty title="No orders yet." />
            return (
              <>
                <OrderList orders={rows} zone={zoneOf(shop)} />
                <MoreButton query={orders} />
              </>
            )
          }}
        </Answered>
      </Section>
    </Page>
  )
}
