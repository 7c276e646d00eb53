import { Ledger } from '../../features/stock/ledger.tsx'
import { useShopScope } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'
import { StockNav } from './stock-nav.tsx'
import { t } from '../../lib/reader.ts'

export function MovementsScreen() {
  const { shop } = useShopScope()
  return (
    <Page
      title={t('stock.stockMovements')}
      lede={t('stock.everyMovementWithWhoWhenAndWhy', { name: shop?.name ?? t('stock.allShops') })}
    >
      <StockNav />
      <Ledger filter={{ shopId: shop?.id }} />
    </Page>
  )
}
