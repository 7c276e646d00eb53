import { formatMoney } from '@clampclock/quantities'
import { Link } from '@tanstack/react-router'
import type { PurchaseOrder } from '../../api/types.ts'
import { Table } from '../../ui/table.tsx'
import { When } from '../../ui/when.tsx'
import { OrderStateMark } from './order-state.tsx'

export function OrderList({
  orders,
  zone,
}: {
  readonly orders: readonly PurchaseOrder[]
  readonly zone: string
}) {
  return (
    <Table
      caption="Orders, newest first"
      columns={[
        {
          head: 'Order',
          cell: ({ id, number }) => (
            <Link to="/ordering/orders/$orderId" params={{ orderId: id }}>
              {number}
            </Link>
          ),
        },
        { head: 'Supplier', cell: ({ supplierName }) => supplierName },
        { head: 'State', cell: (order) => <OrderStateMark order={order} zone={zone} /> },
        { head: 'Drafted', cell: ({ createdAt }) => <When at={createdAt} zone={zone} style="date" /> },
        {
          head: 'Cartridges',
          number: true,
          cell: ({ lines }) => lines.reduce((sum, { cartridges }) => sum + cartridges, 0),
        },
        {
          head: 'In all',
          number: true,
          cell: ({ totalCents, currency }) => formatMoney(totalCents, currency),
        },
      ]}
      rows={orders}
      rowKey={({ id }) => id}
    />
  )
}
