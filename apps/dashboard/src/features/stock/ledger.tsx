import { useInfiniteQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { stockQueries, type MovementFilter } from '../../api/queries/stock.ts'
import { useShops } from '../../api/use-me.ts'
import type { StockMovement } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { MOVEMENT } from '../../lib/words.ts'
import { MoreButton } from '../../ui/more-button.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { signed, signedVolume } from './signed.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly filter: MovementFilter
  /** Leave the cartridge's own column out on its page. */
  readonly showCartridge?: boolean
}

/** The ledger, newest first: who, when, what, why. It is added to, never changed. */
export function Ledger({ filter, showCartridge = true }: Props) {
  const movements = useInfiniteQuery(stockQueries.movements(filter))
  const shops = useShops()
  const shopOf = (id: string) => shops.find((shop) => shop.id === id)
  const columns: readonly Column<StockMovement>[] = [
    {
      head: 'features.when',
      cell: (row) => (
        <time dateTime={row.at} style={{ whiteSpace: 'nowrap' }}>
          {formatInstant(row.at, shopOf(row.shopId)?.timeZone ?? 'utc', 'full')}
        </time>
      ),
    },
    { head: 'features.what', cell: (row) => <strong>{MOVEMENT[row.kind]}</strong> },
    ...(showCartridge
      ? [
          {
            head: 'features.cartridge' as const,
            cell: (row: StockMovement) => (
              <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: row.cartridgeId }}>
                {row.cartridgeCode}
              </Link>
            ),
          },
          { head: 'features.shop' as const, cell: (row: StockMovement) => shopOf(row.shopId)?.name },
        ]
      : []),
    { head: 'features.sealed', number: true, cell: (row) => signed(row.sealedChange) },
    { head: 'features.opened', number: true, cell: (row) => signed(row.openedChange) },
    {
      head: 'features.volume',
      number: true,
      cell: (row) => signedVolume(row.volumeChangeMl),
    },
    { head: 'features.who', cell: (row) => row.by },
    { head: 'features.why', cell: (row) => row.reason },
  ]
  return (
    <Answered query={movements} what={t('features.movements')}>
      {({ pages }) => {
        const rows = pages.flatMap((page) => page.items)
        if (rows.length === 0) return <Empty title={t('features.noMovementsYet')} />
        return (
          <>
            <Table
              caption={t('features.stockMovementsNewestFirst')}
              columns={columns}
              rows={rows}
              rowKey={(row) => row.id}
            />
            <MoreButton query={movements} />
          </>
        )
      }}
    </Answered>
  )
}
