import { NativeSelect, SegmentedControl, TextInput } from '@mantine/core'
import { useDebouncedCallback } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { useNavigate, useSearch } from '@tanstack/react-router'
import { Search } from 'lucide-react'
import { useState } from 'react'
import { productQueries } from '../../api/queries/products.ts'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { readStockSearch, type StockSearch } from '../../features/stock/search.ts'
import { t } from '../../lib/reader.ts'

const STATES = [
  {
    value: '',
    get label() {
      return t('stock.sealedAndOpened')
    },
  },
  {
    value: 'sealed',
    get label() {
      return t('stock.sealed')
    },
  },
  {
    value: 'opened',
    get label() {
      return t('stock.opened')
    },
  },
  {
    value: 'empty',
    get label() {
      return t('stock.empty')
    },
  },
  {
    value: 'discarded',
    get label() {
      return t('stock.discarded')
    },
  },
]

const URGENCIES = [
  {
    value: '',
    get label() {
      return t('stock.all')
    },
  },
  {
    value: 'expired',
    get label() {
      return t('stock.expired')
    },
  },
  {
    value: 'soon',
    get label() {
      return t('stock.useSoon')
    },
  },
  {
    value: 'good',
    get label() {
      return t('stock.good')
    },
  },
]

/** The list's filters; they live in the address, so that a link or the back button brings them back. */
export function StockFilters() {
  const search = useSearch({ from: '/in/stock' })
  const navigate = useNavigate({ from: '/stock' })
  const { data: products } = useQuery(productQueries.all())
  const [code, setCode] = useState(search.code ?? '')
  const set = (change: Partial<Record<keyof StockSearch, string>>) => {
    void navigate({ search: (old) => ({ ...old, ...readStockSearch({ ...old, ...change }) }), replace: true })
  }
  const setCodeSoon = useDebouncedCallback((text: string) => set({ code: text }), 300)
  return (
    <FilterBar>
      <TextInput
        label={t('stock.codeOnTheLabel')}
        leftSection={<Search size={16} aria-hidden />}
        value={code}
        onChange={(event) => {
          setCode(event.currentTarget.value)
          setCodeSoon(event.currentTarget.value)
        }}
      />
      <NativeSelect
        label={t('stock.product')}
        value={search.product ?? ''}
        data={[
          { value: '', label: t('stock.everyProduct') },
          ...(products?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(event) => set({ product: event.currentTarget.value })}
      />
      <NativeSelect
        label={t('stock.state')}
        value={search.state ?? ''}
        data={STATES}
        onChange={(event) => set({ state: event.currentTarget.value })}
      />
      <SegmentedControl
        aria-label={t('stock.urgency')}
        value={search.urgency ?? ''}
        data={URGENCIES}
        onChange={(value) => set({ urgency: value })}
      />
    </FilterBar>
  )
}
