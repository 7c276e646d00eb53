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

export function ReservationsScreen() {
  const { shop } = useOneShop()
  return shop === undefined ? <NoShop title="Reserved for jobs" /> : <Reservations shop={shop} />
}

function Reservations({ shop }: { readonly shop: Shop }) {
  const may = useMay()
  const kept = useQuery(stockQueries.reservations({ shopId: shop.id }))
  const plan = useAction(ROUTES.reserveForPlan, { topics: ['stock', 'alerts'] })
  const columns: readonly Column<Reservation>[] = [
    { head: 'Needed', cell: (row) => <When at={row.neededAt} zone={zoneOf(shop)} style="full" /> },
    {
      head: 'For',
      cell: (row) => (
        <Link to="/jobs/$repairOrderId" params={{ repairOrderId: row.repairOrderId }}>
          {row.repairOrderNumber}, {row.jointName}
        </Link>
      ),
    },
    {
      head: 'Cartridge',
      cell: (row) => (
        <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: row.cartridgeId }}>
          {row.code}
        </Link>
      ),
    },
    { head: 'Product and lot', cell: (row) => `${row.productName}, lot ${row.lotNumber}` },
    { head: 'Amount', number: true, cell: (row) => `${Math.round(row.amountMl)} mL` },
    { head: 'By', cell: (row) => row.madeBy },
  ]
  return (
    <Page
      title="Reserved for jobs"
      lede={`${shop.name}: first expired first out, if in date on the day of use`}
      actions={
        <>
          <OneShopPicker />
          {may('reserveStock', shop.id) && (
            <Button
              leftSection={<BookmarkCheck size={16} aria-hidden />}
              loading={plan.isPending}
              onClick={() => plan.mutate({ params: { shopId: shop.id }, body: {} })}
            >
              Reserve for the next 14 days
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
          question="Is there enough for the plan?"
          word={
            plan.data.short.length === 0
              ? `Yes: ${plan.data.made.length} reserved`
              : `No: ${plan.data.short.length} joints go short`
          }
        >
          {plan.data.short.map(({ jointId, message }) => (
            <p key={jointId}>{message}</p>
          ))}
        </Answer>
      )}
      <Answered query={kept} what="the reservations">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="Nothing is reserved." />
          ) : (
            <Table
              caption="Cartridges reserved for jobs"
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
