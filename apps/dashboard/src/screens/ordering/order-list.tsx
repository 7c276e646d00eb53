import { formatMoney } from '../../lib/measures.ts'
import { Link } from '@tanstack/react-router'
import type { PurchaseOrder } from '../../api/types.ts'
import { Table } from '../../ui/table.tsx'
import { When } from '../../ui/when.tsx'
import { OrderStateMark } from './order-state.tsx'
import { t } from '../../lib/reader.ts'

export function OrderList({
  orders,
  zone,
}: {
  readonly orders: readonly PurchaseOrder[]
  readonly zone: string
}) {
  return (
    <Table
      caption={t('ordering.ordersNewestFirst')}
      columns={[
        {
          head: 'ordering.order',
          cell: ({ id, number }) => (
            <Link to="/ordering/orders/$orderId" params={{ orderId: id }}>
              {number}
            </Link>
          ),
        },
        { head: 'ordering.supplier', cell: ({ supplierName }) => supplierName },
        { head: 'ordering.state', cell: (order) => <OrderStateMark order={order} zone={zone} /> },
        {
          head: 'ordering.drafted',
          cell: ({ createdAt }) => <When at={createdAt} zone={zone} style="date" />,
        },
        {
          head: 'ordering.cartridges',
          number: true,
          cell: ({ lines }) => lines.reduce((sum, { cartridges }) => sum + cartridges, 0),
        },
        {
          head: 'ordering.inAll',
          number: true,
          cell: ({ totalCents, currency }) => formatMoney(totalCents, currency),
        },
      ]}
      rows={orders}
      rowKey={({ id }) => id}
    />
  )
}
