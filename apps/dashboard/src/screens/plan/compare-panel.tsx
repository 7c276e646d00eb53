import { useQuery } from '@tanstack/react-query'
import { planQueries } from '../../api/queries/plans.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Plan, PlanComparison, Shop } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { hours } from './plan-figures.ts'

type OrderRow = PlanComparison['orders'][number]
type MoveRow = PlanComparison['operations'][number]

/** What a draft changes: each order before and after, then each operation that moves. */
export function ComparePanel({ plan, shop }: { readonly plan: Plan; readonly shop: Shop }) {
  const comparison = useQuery(planQueries.comparison(plan.id, shop.id))
  const resources = useQuery(shopQueries.resources(shop.id))
  const nameOf = (id: string | null) => resources.data?.items.find((each) => each.id === id)?.name ?? ''
  const when = (iso: string | undefined) =>
    iso === undefined ? 'not planned' : formatInstant(iso, shop.timeZone)
  const late = (side: OrderRow['before']) => {
    const minutes = side?.lateMinutes ?? null
    return minutes === null ? '' : minutes === 0 ? 'in time' : `${hours(minutes)} late`
  }
  const orderColumns: readonly Column<OrderRow>[] = [
    { head: 'Repair order', cell: ({ number, vehicle }) => `${number}, ${vehicle}` },
    { head: 'Promised', cell: ({ promisedAt }) => (promisedAt === null ? '' : when(promisedAt)) },
    { head: 'Published', cell: ({ before }) => `${when(before?.endsAt)} ${late(before)}` },
    { head: 'Draft', cell: ({ after }) => `${when(after?.endsAt)} ${late(after)}` },
  ]
  const moveColumns = (orders: readonly OrderRow[]): readonly Column<MoveRow>[] => [
    {
      head: 'Operation',
      cell: ({ name, repairOrderId }) =>
        `${orders.find(({ id }) => id === repairOrderId)?.number ?? ''}: ${name}`,
    },
    {
      head: 'Published',
      cell: ({ before }) => `${when(before?.startsAt)} ${nameOf(before?.placeId ?? null)}`,
    },
    { head: 'Draft', cell: ({ after }) => `${when(after?.startsAt)} ${nameOf(after?.placeId ?? null)}` },
    {
      head: 'Later by',
      number: true,
      cell: ({ minutesLater }) =>
        minutesLater === null ? '' : minutesLater < 0 ? `−${hours(-minutesLater)}` : hours(minutesLater),
    },
  ]
  return (
    <Answered query={comparison} what="the comparison">
      {({ orders, operations, unmoved, before, after }) => (
        <>
          <p>
            {operations.length === 0 ? 'Nothing moves' : `${operations.length} operations move or are new`},{' '}
            {unmoved} stay as they are. Cost {before === null ? 'of the draft' : `${before.cost} before,`}{' '}
            {after?.cost}
            {before === null ? '' : ' after'} (minutes late times priority, with overtime and changes; a
            vehicle dropped counts as four weeks late or more); no plan costs less than {after?.lowerBound}.
          </p>
          <Table
            caption="Repair orders, before and after"
            columns={orderColumns}
            rows={orders}
            rowKey={({ id }) => id}
          />
          {operations.length > 0 && (
            <Table
              caption="Operations that move"
              columns={moveColumns(orders)}
              rows={operations}
              rowKey={({ operationId }) => operationId}
            />
          )}
        </>
      )}
    </Answered>
  )
}
