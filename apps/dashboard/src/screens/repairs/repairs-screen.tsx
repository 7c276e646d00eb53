import { Button, SegmentedControl, TextInput } from '@mantine/core'
import { useDebouncedCallback } from '@mantine/hooks'
import { useInfiniteQuery } from '@tanstack/react-query'
import { Link, useNavigate, useSearch } from '@tanstack/react-router'
import { Plus, Search } from 'lucide-react'
import { useState } from 'react'
import { repairQueries } from '../../api/queries/repairs.ts'
import { useMay } from '../../api/use-me.ts'
import { useShopScope } from '../../lib/shop-scope.ts'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { MoreButton } from '../../ui/more-button.tsx'
import { Page } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { RepairRow } from './repair-row.tsx'
import styles from './repairs.module.css'
import { readRepairSearch } from './search.ts'

const STATES = [
  { value: 'open', label: 'Open' },
  { value: 'done', label: 'Done' },
  { value: 'any', label: 'All' },
]

export function RepairsScreen() {
  const search = useSearch({ from: '/in/jobs' })
  const navigate = useNavigate({ from: '/jobs' })
  const { shop } = useShopScope()
  const may = useMay()
  const [number, setNumber] = useState(search.number ?? '')
  const state = search.state ?? 'open'
  const orders = useInfiniteQuery(
    repairQueries.list({
      shopId: shop?.id,
      number: search.number,
      state: state === 'any' ? undefined : state,
    }),
  )
  const set = (change: Record<string, unknown>) => {
    void navigate({
      search: (old) => ({ ...old, ...readRepairSearch({ ...old, ...change }) }),
      replace: true,
    })
  }
  const setNumberSoon = useDebouncedCallback((text: string) => set({ number: text }), 300)
  return (
    <Page
      title="Repair orders"
      lede={shop?.name ?? 'All shops'}
      actions={
        may('planWork', shop?.id) && (
          <Button
            leftSection={<Plus size={16} aria-hidden />}
            renderRoot={(props) => <Link {...props} to="/jobs/new" />}
          >
            New repair order
          </Button>
        )
      }
    >
      <FilterBar>
        <TextInput
          label="Number"
          leftSection={<Search size={16} aria-hidden />}
          value={number}
          onChange={(event) => {
            setNumber(event.currentTarget.value)
            setNumberSoon(event.currentTarget.value)
          }}
        />
        <SegmentedControl
          aria-label="State"
          data={STATES}
          value={state}
          onChange={(value) => set({ state: value })}
        />
      </FilterBar>
      <Answered query={orders} what="repair orders">
        {({ pages }) => {
          const items = pages.flatMap((page) => page.items)
          if (items.length === 0) return <Empty title="No repair order matches." />
          return (
            <>
              <ul className={styles['list']} aria-label="Repair orders">
                {items.map((order) => (
                  <RepairRow key={order.id} order={order} showShop={shop === undefined} />
                ))}
              </ul>
              <MoreButton query={orders} />
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
