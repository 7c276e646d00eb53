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
import { t } from '../../lib/reader.ts'

const STATES = [
  {
    value: 'open',
    get label() {
      return t('repairs.open')
    },
  },
  {
    value: 'done',
    get label() {
      return t('repairs.done')
    },
  },
  {
    value: 'any',
    get label() {
      return t('repairs.all')
    },
  },
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
      title={t('repairs.repairOrders')}
      lede={shop?.name ?? t('repairs.allShops')}
      actions={
        may('planWork', shop?.id) && (
          <Button
            leftSection={<Plus size={16} aria-hidden />}
            renderRoot={(props) => <Link {...props} to="/jobs/new" />}
          >
            {t('repairs.newRepairOrder')}
          </Button>
        )
      }
    >
      <FilterBar>
        <TextInput
          label={t('repairs.number')}
          leftSection={<Search size={16} aria-hidden />}
          value={number}
          onChange={(event) => {
            setNumber(event.currentTarget.value)
            setNumberSoon(event.currentTarget.value)
          }}
        />
        <SegmentedControl
          aria-label={t('repairs.state')}
          data={STATES}
          value={state}
          onChange={(value) => set({ state: value })}
        />
      </FilterBar>
      <Answered query={orders} what={t('repairs.repairOrders2')}>
        {({ pages }) => {
          const items = pages.flatMap((page) => page.items)
          if (items.length === 0) return <Empty title={t('repairs.noRepairOrderMatches')} />
          return (
            <>
              <ul className={styles['list']} aria-label={t('repairs.repairOrders')}>
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
