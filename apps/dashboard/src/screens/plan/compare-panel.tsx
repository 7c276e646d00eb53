import { useQuery } from '@tanstack/react-query'
import { planQueries } from '../../api/queries/plans.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Plan, PlanComparison, Shop } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { hours } from './plan-figures.ts'
import { t } from '../../lib/reader.ts'

type OrderRow = PlanComparison['orders'][number]
type MoveRow = PlanComparison['operations'][number]

/** What a draft changes: each order before and after, then each operation that moves. */
export function ComparePanel({ plan, shop }: { readonly plan: Plan; readonly shop: Shop }) {
  const comparison = useQuery(planQueries.comparison(plan.id, shop.id))
  const resources = useQuery(shopQueries.resources(shop.id))
  const nameOf = (id: string | null) => resources.data?.items.find((each) => each.id === id)?.name ?? ''
  const when = (iso: string | undefined) =>
    iso === undefined ? t('plan.notPlanned') : formatInstant(iso, shop.timeZone)
  const late = (side: OrderRow['before']) => {
    const minutes = side?.lateMinutes ?? null
    return minutes === null
      ? ''
      : minutes === 0
        ? t('plan.inTime')
        : t('plan.late', { minutes: hours(minutes) })
  }
  const orderColumns: readonly Column<OrderRow>[] = [
    { head: 'plan.repairOrder', cell: ({ number, vehicle }) => `${number}, ${vehicle}` },
    { head: 'plan.promised', cell: ({ promisedAt }) => (promisedAt === null ? '' : when(promisedAt)) },
    { head: 'plan.published', cell: ({ before }) => `${when(before?.endsAt)} ${late(before)}` },
    { head: 'plan.draft', cell: ({ after }) => `${when(after?.endsAt)} ${late(after)}` },
  ]
  const moveColumns = (orders: readonly OrderRow[]): readonly Column<MoveRow>[] => [
    {
      head: 'plan.operation',
      cell: ({ name, repairOrderId }) =>
        `${orders.find(({ id }) => id === repairOrderId)?.number ?? ''}: ${name}`,
    },
    {
      head: 'plan.published',
      cell: ({ before }) => `${when(before?.startsAt)} ${nameOf(before?.placeId ?? null)}`,
    },
    { head: 'plan.draft', cell: ({ after }) => `${when(after?.startsAt)} ${nameOf(after?.placeId ?? null)}` },
    {
      head: 'plan.laterBy',
      number: true,
      cell: ({ minutesLater }) =>
        minutesLater === null ? '' : minutesLater < 0 ? `−${hours(-minutesLater)}` : hours(minutesLater),
    },
  ]
  return (
    <Answered query={comparison} what={t('plan.theComparison')}>
      {({ orders, operations, unmoved, before, after }) => (
        <>
          <p>
            {t('plan.operationsMove', { operations: operations.length, unmoved })}{' '}
            {before === null
              ? t('plan.costOfTheDraft', { after: after?.cost ?? '' })
              : t('plan.costBeforeAndAfter', { before: before.cost, after: after?.cost ?? '' })}{' '}
            {t('plan.whatCostIs')}
            {after !== null &&
              after.lowerBound > 0 &&
              ` ${t('plan.noPlanCostsLess', { least: after.lowerBound })}`}
          </p>
          <Table
            caption={t('plan.repairOrdersBeforeAndAfter')}
            columns={orderColumns}
            rows={orders}
            rowKey={({ id }) => id}
          />
          {operations.length > 0 && (
            <Table
              caption={t('plan.operationsThatMove')}
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
