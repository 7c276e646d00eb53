import { Ledger } from '../../features/stock/ledger.tsx'
import { useShopScope } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'
import { StockNav } from './stock-nav.tsx'

export function MovementsScreen() {
  const { shop } = useShopScope()
  return (
    <Page
      title="Stock movements"
      lede={`${shop?.name ?? 'All shops'}: every movement with who, when and why`}
    >
      <StockNav />
      <Ledger filter={{ shopId: shop?.id }} />
    </Page>
  )
}
