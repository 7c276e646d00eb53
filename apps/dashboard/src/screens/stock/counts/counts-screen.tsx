import { ROUTES } from '../../../api/contracts.ts'
import { Button, Group, NativeSelect } from '@mantine/core'
import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link, useNavigate } from '@tanstack/react-router'
import { ListChecks } from 'lucide-react'
import { useState } from 'react'
import { shopQueries } from '../../../api/queries/shops.ts'
import { stockQueries } from '../../../api/queries/stock.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import type { ResultOf, Shop } from '../../../api/types.ts'
import { NoShop } from '../../../features/shops/no-shop.tsx'
import { OneShopPicker } from '../../../features/shops/one-shop-picker.tsx'
import { useOneShop, zoneOf } from '../../../lib/shop-scope.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { MoreButton } from '../../../ui/more-button.tsx'
import { Page, Section, Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { When } from '../../../ui/when.tsx'
import { StockNav } from '../stock-nav.tsx'
import { t } from '../../../lib/reader.ts'

type Row = ResultOf<typeof ROUTES.listStockCounts>['items'][number]

export function CountsScreen() {
  const { shop } = useOneShop()
  return shop === undefined ? <NoShop title={t('stock.stockCounts')} /> : <Counts shop={shop} />
}

function Counts({ shop }: { readonly shop: Shop }) {
  const may = useMay()
  const counts = useInfiniteQuery(stockQueries.counts(shop.id))
  const columns: readonly Column<Row>[] = [
    {
      head: 'stock.shelf',
      cell: (row) => (
        <Link to="/stock/counts/$countId" params={{ countId: row.id }}>
          {row.locationName ?? t('stock.withoutAPlace')}
        </Link>
      ),
    },
    { head: 'stock.started', cell: (row) => <When at={row.startedAt} zone={zoneOf(shop)} style="full" /> },
    { head: 'stock.by', cell: (row) => row.startedBy },
    { head: 'stock.seen', number: true, cell: (row) => row.counted },
    {
      head: 'stock.result',
      cell: (row) =>
        row.differing === null ? (
          <Mark tone="curing">{t('stock.beingCounted')}</Mark>
        ) : row.unsettled > 0 ? (
          <Mark tone="warning">{t('stock.toBook', { unsettled: row.unsettled })}</Mark>
        ) : (
          <Mark tone="ready">
            {row.differing === 0
              ? t('stock.nothingDiffers')
              : t('stock.booked', { differing: row.differing })}
          </Mark>
        ),
    },
  ]
  return (
    <Page title={t('stock.stockCounts')} lede={shop.name} actions={<OneShopPicker />}>
      <StockNav />
      {may('useStock', shop.id) && <StartCount key={shop.id} shop={shop} />}
      <Section title={t('stock.countsSoFar')}>
        <Answered query={counts} what={t('stock.counts2')}>
          {({ pages }) => {
            const rows = pages.flatMap((page) => page.items)
            if (rows.length === 0) return <Empty title={t('stock.noCountYet')} />
            return (
              <>
                <Table
                  caption={t('stock.stockCounts')}
                  columns={columns}
                  rows={rows}
                  rowKey={({ id }) => id}
                />
                <MoreButton query={counts} />
              </>
            )
          }}
        </Answered>
      </Section>
    </Page>
  )
}

function StartCount({ shop }: { readonly shop: Shop }) {
  const [locationId, setLocationId] = useState('')
  const locations = useQuery(shopQueries.locations(shop.id))
  const navigate = useNavigate()
  const start = useAction(ROUTES.startStockCount, {
    topics: ['stock'],
    onDone: ({ id }) => void navigate({ to: '/stock/counts/$countId', params: { countId: id } }),
  })
  return (
    <Sheet padded>
      <Group align="flex-end">
        <NativeSelect
          label={t('stock.whichShelf')}
          value={locationId}
          data={[
            ...(locations.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
            { value: '', label: t('stock.whatLiesAtNoKnownPlace') },
          ]}
          onChange={(event) => setLocationId(event.currentTarget.value)}
        />
        <Button
          leftSection={<ListChecks size={16} aria-hidden />}
          loading={start.isPending}
          onClick={() =>
            start.mutate({
              params: { shopId: shop.id },
              body: { locationId: locationId === '' ? null : locationId },
            })
          }
        >
          {t('stock.countIt')}
        </Button>
      </Group>
      <ProblemPanel error={start.error} />
    </Sheet>
  )
}
