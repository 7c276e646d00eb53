import { useQuery } from '@tanstack/react-query'
import { Navigate, useParams } from '@tanstack/react-router'
import { stockQueries } from '../../../api/queries/stock.ts'
import type { Shop } from '../../../api/types.ts'
import { NoShop } from '../../../features/shops/no-shop.tsx'
import { useOneShop } from '../../../lib/shop-scope.ts'
import { Page } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { Loading } from '../../../ui/waiting.tsx'
import { t } from '../../../lib/reader.ts'

/** Where the QR code on a cartridge leads, from any phone's camera: to the cartridge, in whatever state it is. */
export function ByLabelScreen() {
  const { shop } = useOneShop()
  return shop === undefined ? <NoShop title={t('stock.cartridge2')} /> : <ByLabel shop={shop} />
}

function ByLabel({ shop }: { readonly shop: Shop }) {
  const { code } = useParams({ from: '/in/c/$code' })
  const { data, error } = useQuery(stockQueries.byLabel(shop.id, code))
  if (data?.kind === 'cartridge') {
    return (
      <Navigate to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: data.cartridge.id }} replace />
    )
  }
  if (error === null) return <Loading what={t('stock.theCartridge')} />
  return (
    <Page title={t('stock.cartridge3', { code })} narrow>
      <ProblemPanel error={error} />
    </Page>
  )
}
