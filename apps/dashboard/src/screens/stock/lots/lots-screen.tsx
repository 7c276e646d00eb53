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

const sum = (lot: Lot, figure: 'sealed' | 'opened') =>
  lot.onHand.reduce((total, shop) => total + shop[figure], 0)

const COLUMNS: readonly Column<Lot>[] = [
  {
    head: 'Lot',
    cell: (lot) => (
      <Link to="/stock/lots/$lotId" params={{ lotId: lot.id }}>
        {lot.lotNumber}
      </Link>
    ),
  },
  { head: 'Product', cell: (lot) => lot.productName },
  { head: 'Printed expiry', cell: (lot) => formatDate(lot.printedExpiry) },
  { head: 'Sealed', number: true, cell: (lot) => sum(lot, 'sealed') },
  { head: 'Opened', number: true, cell: (lot) => sum(lot, 'opened') },
  { head: 'Shops', number: true, cell: (lot) => lot.onHand.length },
  { head: 'Hold', cell: (lot) => (lot.hold === null ? '' : <Mark tone="danger">On hold</Mark>) },
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
    <Page title="Lots" lede="Of the whole chain">
      <StockNav />
      <FilterBar>
        <TextInput
          label="Lot number"
          value={text}
          onChange={(event) => {
            setText(event.currentTarget.value)
            find(event.currentTarget.value)
          }}
        />
      </FilterBar>
      <Answered query={lots} what="lots">
        {({ pages }) => {
          const rows = pages.flatMap((page) => page.items)
          if (rows.length === 0) return <Empty title="No lot matches." />
          return (
            <>
              <Table caption="Lots" columns={COLUMNS} rows={rows} rowKey={(lot) => lot.id} />
              <MoreButton query={lots} />
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
