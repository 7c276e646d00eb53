import { Button } from '@mantine/core'
import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { ArrowRightLeft, PackagePlus } from 'lucide-react'
import { shopQueries } from '../../api/queries/shops.ts'
import { stockQueries } from '../../api/queries/stock.ts'
import { useMay } from '../../api/use-me.ts'
import { LabelsButton } from '../../features/labels/labels-button.tsx'
import { useShopScope } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { CartridgeList } from './cartridge-list.tsx'
import { ExpiryTimeline } from './expiry-timeline.tsx'
import { StockFilters } from './stock-filters.tsx'
import { StockNav } from './stock-nav.tsx'
import { t } from '../../lib/reader.ts'

/** Cartridges on hand, the soonest to die first. */
export function StockScreen() {
  const { product, code, urgency, state } = useSearch({ from: '/in/stock' })
  const { shop } = useShopScope()
  const may = useMay()
  const cartridges = useInfiniteQuery(
    stockQueries.cartridges({ shopId: shop?.id, productId: product, code, urgency, state }),
  )
  return (
    <Page
      title={t('stock.stock')}
      lede={t('stock.expiresFirstOnTop', { name: shop?.name ?? t('stock.allShops') })}
      actions={
        <>
          {shop !== undefined && may('useStock', shop.id) && <ShelfLabels shopId={shop.id} />}
          {may('useStock', shop?.id) && (
            <Button
              variant="default"
              leftSection={<ArrowRightLeft size={16} aria-hidden />}
              renderRoot={(props) => <Link {...props} to="/stock/move" />}
            >
              {t('stock.move')}
            </Button>
          )}
          {may('handleStock', shop?.id) && (
            <Button
              leftSection={<PackagePlus size={16} aria-hidden />}
              renderRoot={(props) => <Link {...props} to="/stock/receive" />}
            >
              {t('stock.receive')}
            </Button>
          )}
        </>
      }
    >
      <StockNav />
      <ExpiryTimeline shopId={shop?.id} productId={product} />
      <StockFilters />
      <Answered query={cartridges} what={t('stock.cartridges2')} isPage>
        {({ pages }) => {
          const items = pages.flatMap((page) => page.items)
          if (items.length === 0) {
            return (
              <Empty
                title={t('stock.noCartridgeMatches')}
                action={<Link to="/stock">{t('stock.showAllThatIsOnHand')}</Link>}
              >
                {t('stock.nothingHasTheseProperties', { shop: shop?.name ?? t('stock.anyShop') })}
              </Empty>
            )
          }
          return <CartridgeList items={items} query={cartridges} showShop={shop === undefined} />
        }}
      </Answered>
    </Page>
  )
}

/** Labels anew for a whole shelf; those of one delivery, lot or cartridge are printed where these are shown. */
function ShelfLabels({ shopId }: { readonly shopId: string }) {
  const { data } = useQuery(shopQueries.locations(shopId))
  // Its place is kept: the buttons beside it must not move when the shelves are known.
  if (data === undefined) return <span style={{ visibility: 'hidden' }}>{<LabelsButton />}</span>
  return data.items.length > 0 && <LabelsButton shelves={data.items} />
}
