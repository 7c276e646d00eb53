import { formatVolume } from '../../lib/measures.ts'
import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { BookmarkCheck } from 'lucide-react'
import { stockQueries } from '../../api/queries/stock.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import type { Reservation, Shop } from '../../api/types.ts'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { OneShopPicker } from '../../features/shops/one-shop-picker.tsx'
import { useOneShop, zoneOf } from '../../lib/shop-scope.ts'
import { Answer } from '../../ui/answers/answer.tsx'
import { Page } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { When } from '../../ui/when.tsx'
import { StockNav } from './stock-nav.tsx'
import { t } from '../../lib/reader.ts'

export function ReservationsScreen() {
  const { shop } = useOneShop()
  return shop === undefined ? <NoShop title={t('stock.reservedForJobs')} /> : <Reservations shop={shop} />
}

function Reservations({ shop }: { readonly shop: Shop }) {
  const may = useMay()
  const kept = useQuery(stockQueries.reservations({ shopId: shop.id }))
  const plan = useAction(ROUTES.reserveForPlan, { topics: ['stock', 'alerts'] })
  const columns: readonly Column<Reservation>[] = [
    { head: 'stock.needed', cell: (row) => <When at={row.neededAt} zone={zoneOf(shop)} style="full" /> },
    {
      head: 'stock.for',
      cell: (row) => (
        <Link to="/jobs/$repairOrderId" params={{ repairOrderId: row.repairOrderId }}>
          {row.repairOrderNumber}, {row.jointName}
        </Link>
      ),
    },
    {
      head: 'stock.cartridge2',
      cell: (row) => (
        <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: row.cartridgeId }}>
          {row.code}
        </Link>
      ),
    },
    {
      head: 'stock.productAndLot',
      cell: (row) => t('stock.lot3', { productName: row.productName, lotNumber: row.lotNumber }),
    },
    { head: 'stock.amount', number: true, cell: (row) => formatVolume(row.amountMl) },
    { head: 'stock.by', cell: (row) => row.madeBy },
  ]
  return (
    <Page
      title={t('stock.reservedForJobs')}
      lede={t('stock.firstExpiredFirstOutIfInDateOnTheDay', { name: shop.name })}
      actions={
        <>
          <OneShopPicker />
          {may('reserveStock', shop.id) && (
            <Button
              leftSection={<BookmarkCheck size={16} aria-hidden />}
              loading={plan.isPending}
              onClick={() => plan.mutate({ params: { shopId: shop.id }, body: {} })}
            >
              {t('stock.reserveForTheNext14Days')}
            </Button>
          )}
        </>
      }
    >
      <StockNav />
      <ProblemPanel error={plan.error} />
      {plan.data !== undefined && (
        <Answer
          tone={plan.data.short.length === 0 ? 'ready' : 'warning'}
          question={t('stock.isThereEnoughForThePlan')}
          word={
            plan.data.short.length === 0
              ? t('stock.yesReserved', { made: plan.data.made.length })
              : t('stock.noJointsGoShort', { short: plan.data.short.length })
          }
        >
          {plan.data.short.map(({ jointId, message }) => (
            <p key={jointId}>{message}</p>
          ))}
        </Answer>
      )}
      <Answered query={kept} what={t('stock.theReservations')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('stock.nothingIsReserved')} />
          ) : (
            <Table
              caption={t('stock.cartridgesReservedForJobs')}
              columns={columns}
              rows={items}
              rowKey={({ id }) => id}
            />
          )
        }
      </Answered>
    </Page>
  )
}
