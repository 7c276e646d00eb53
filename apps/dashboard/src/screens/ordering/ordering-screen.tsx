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
import { t } from '../../lib/reader.ts'

/** What to order for the shop in view, supplier by supplier, and the orders that are out. */
export function OrderingScreen() {
  const { shop } = useOneShop()
  const may = useMay()
  const lines = useQuery({ ...replenishmentQueries.ofShop(shop?.id ?? ''), enabled: shop !== undefined })
  const orders = useInfiniteQuery(replenishmentQueries.orders(shop?.id))
  if (shop === undefined) return <Page title={t('ordering.ordering')}>{t('ordering.addAShopFirst')}</Page>
  return (
    <Page
      title={t('ordering.ordering')}
      lede={t('ordering.fromWhatWasUsedInTheLastYearAndWhat', { name: shop.name })}
      actions={
        may('manageCatalogue', null) && (
          <Button
            variant="default"
            leftSection={<Settings2 size={16} aria-hidden />}
            renderRoot={(props) => <Link {...props} to="/admin/ordering" />}
          >
            {t('ordering.suppliersAndPrices2')}
          </Button>
        )
      }
    >
      <Answered query={lines} what={t('ordering.whatToOrder')}>
        {({ items, currency }) => {
          if (items.length === 0)
            return (
              <Empty title={t('ordering.nothingIsStockedHereYet')}>
                {t('ordering.receiveALotAndItWillBeWatched')}
              </Empty>
            )
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
      <Section title={t('ordering.orders')}>
        <Answered query={orders} what={t('ordering.orders2')}>
          {({ pages }) => {
            const rows = pages.flatMap((page) => page.items)
            if (rows.length === 0) return <Empty title={t('ordering.noOrdersYet')} />
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
