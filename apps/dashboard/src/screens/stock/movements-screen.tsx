import { Link } from '@tanstack/react-router'
import { Ledger } from '../../features/stock/ledger.tsx'
import { useShopScope } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'

export function MovementsScreen() {
  const { shop } = useShopScope()
  return (
    <Page
      title="Stock movements"
      lede={`${shop?.name ?? 'All shops'}: every movement with who, when and why`}
      actions={<Link to="/stock">Back to stock</Link>}
    >
      <Ledger filter={{ shopId: shop?.id }} />
    </Page>
  )
}
