import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { stockQueries } from '../../../api/queries/stock.ts'
import { useMay } from '../../../api/use-me.ts'
import type { Shop } from '../../../api/types.ts'
import { useOneShop } from '../../../lib/shop-scope.ts'
import { Page } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { MoveForm } from './move-form.tsx'
import { t } from '../../../lib/reader.ts'

/** To another shelf, or to another shop. */
export function MoveScreen() {
  const { cartridge: first } = useSearch({ from: '/in/stock/move' })
  const { shop, shops } = useOneShop()
  const may = useMay()
  const mine = shops.filter(({ id }) => may('useStock', id))
  const from = mine.find(({ id }) => id === shop?.id) ?? mine[0]
  return (
    <Page
      title={t('stock.moveCartridges')}
      narrow
      actions={<Link to="/stock">{t('stock.backToStock')}</Link>}
    >
      {from === undefined ? (
        <Empty title={t('stock.youMayNotMoveStockInAnyShop')} />
      ) : first === undefined ? (
        <MoveForm shops={mine} allShops={shops} firstShop={from} />
      ) : (
        <MoveOne cartridgeId={first} shops={mine} allShops={shops} from={from} />
      )}
    </Page>
  )
}

interface Props {
  readonly cartridgeId: string
  readonly shops: readonly Shop[]
  readonly allShops: readonly Shop[]
  readonly from: Shop
}

/** As from a cartridge's own page: it lies in the basket already. */
function MoveOne({ cartridgeId, shops, allShops, from }: Props) {
  const cartridge = useQuery(stockQueries.cartridge(cartridgeId))
  return (
    <Answered query={cartridge} what={t('stock.theCartridge')}>
      {(data) => (
        <MoveForm
          shops={shops}
          allShops={allShops}
          firstShop={shops.find(({ id }) => id === data.shopId) ?? from}
          first={data}
        />
      )}
    </Answered>
  )
}
