import type { PurchaseOrder } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'

/** A placed order that should have come is told as late. */
export function OrderStateMark({ order, zone }: { readonly order: PurchaseOrder; readonly zone: string }) {
  const nowMs = useNow()
  if (order.state === 'draft') return <Mark tone="quiet">Draft</Mark>
  if (order.state === 'received') return <Mark tone="ready">Received</Mark>
  if (order.state === 'cancelled') return <Mark tone="quiet">Cancelled</Mark>
  if (order.expectedAt === null) return <Mark tone="curing">Placed</Mark>
  const day = formatInstant(order.expectedAt, zone, 'day')
  return Date.parse(order.expectedAt) < nowMs ? (
    <Mark tone="warning">{`Late: expected ${day}`}</Mark>
  ) : (
    <Mark tone="curing">{`Placed, expected ${day}`}</Mark>
  )
}
