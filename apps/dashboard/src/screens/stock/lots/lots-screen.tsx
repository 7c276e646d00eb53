import { TextInput } from '@mantine/core'
import { useDebouncedCallback } from '@mantine/hooks'
import { useInfiniteQuery } from '@tanstack/react-query'
import { Link, useNavigate, useSearch } from '@tanstack/react-router'
import { useState } from 'react'
import { stockQueries } from '../../../api/queries/stock.ts'
import type { Lot } from '../../../api/types.ts'
import { formatDate } from '../../../lib/instants.ts'
import { textOf } from '../../../lib/search.ts'
import { FilterBar } from '../../../ui/fields/filter-bar.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { MoreButton } from '../../../ui/more-button.tsx'
import { Page } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { StockNav } from '../stock-nav.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { t } from '../../../lib/reader.ts'

const sum = (lot: Lot, figure: 'sealed' | 'opened') =>
  lot.onHand.reduce((total, shop) => total + shop[figure], 0)

const COLUMNS: readonly Column<Lot>[] = [
  {
    head: 'stock.lot4',
    cell: (lot) => (
      <Link to="/stock/lots/$lotId" params={{ lotId: lot.id }}>
        {lot.lotNumber}
      </Link>
    ),
  },
  { head: 'stock.product', cell: (lot) => lot.productName },
  { head: 'stock.printedExpiry', cell: (lot) => formatDate(lot.printedExpiry) },
  { head: 'stock.sealed', number: true, cell: (lot) => sum(lot, 'sealed') },
  { head: 'stock.opened', number: true, cell: (lot) => sum(lot, 'opened') },
  { head: 'stock.shops', number: true, cell: (lot) => lot.onHand.length },
  {
    head: 'stock.hold',
    cell: (lot) => (lot.hold === null ? '' : <Mark tone="danger">{t('stock.onHold')}</Mark>),
  },
]

export function LotsScreen() {
  const search = useSearch({ from: '/in/stock/lots' })
  const navigate = useNavigate({ from: '/stock/lots' })
  const lots = useInfiniteQuery(stockQueries.lots({ lotNumber: search.lot }))
  const [text, setText] = useState(search.lot ?? '')
  const find = useDebouncedCallback((value: string) => {
    void navigate({ search: (old) => ({ ...old, lot: textOf(value) }), replace: true })
  }, 300)
  return (
    <Page title={t('stock.lots')} lede={t('stock.ofTheWholeChain')}>
      <StockNav />
      <FilterBar>
        <TextInput
          label={t('stock.lotNumber')}
          value={text}
          onChange={(event) => {
            setText(event.currentTarget.value)
            find(event.currentTarget.value)
          }}
        />
      </FilterBar>
      <Answered query={lots} what={t('stock.lots2')}>
        {({ pages }) => {
          const rows = pages.flatMap((page) => page.items)
          if (rows.length === 0) return <Empty title={t('stock.noLotMatches')} />
          return (
            <>
              <Table caption={t('stock.lots')} columns={COLUMNS} rows={rows} rowKey={(lot) => lot.id} />
              <MoreButton query={lots} />
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
