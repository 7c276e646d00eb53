import { NativeSelect, SegmentedControl, TextInput } from '@mantine/core'
import { useDebouncedCallback } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { useNavigate, useSearch } from '@tanstack/react-router'
import { Search } from 'lucide-react'
import { useState } from 'react'
import { productQueries } from '../../api/queries/products.ts'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { readStockSearch, type StockSearch } from '../../features/stock/search.ts'

const STATES = [
  { value: '', label: 'Sealed and opened' },
  { value: 'sealed', label: 'Sealed' },
  { value: 'opened', label: 'Opened' },
  { value: 'empty', label: 'Empty' },
  { value: 'discarded', label: 'Discarded' },
]

const URGENCIES = [
  { value: '', label: 'All' },
  { value: 'expired', label: 'Expired' },
  { value: 'soon', label: 'Use soon' },
  { value: 'good', label: 'Good' },
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
        label="Code on the label"
        leftSection={<Search size={16} aria-hidden />}
        value={code}
        onChange={(event) => {
          setCode(event.currentTarget.value)
          setCodeSoon(event.currentTarget.value)
        }}
      />
      <NativeSelect
        label="Product"
        value={search.product ?? ''}
        data={[
          { value: '', label: 'Every product' },
          ...(products?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(event) => set({ product: event.currentTarget.value })}
      />
      <NativeSelect
        label="State"
        value={search.state ?? ''}
        data={STATES}
        onChange={(event) => set({ state: event.currentTarget.value })}
      />
      <SegmentedControl
        aria-label="Urgency"
        value={search.urgency ?? ''}
        data={URGENCIES}
        onChange={(value) => set({ urgency: value })}
      />
    </FilterBar>
  )
}
