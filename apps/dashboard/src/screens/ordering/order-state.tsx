import type { PurchaseOrder } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { t } from '../../lib/reader.ts'

/** A placed order that should have come is told as late. */
export function OrderStateMark({ order, zone }: { readonly order: PurchaseOrder; readonly zone: string }) {
  const nowMs = useNow()
  if (order.state === 'draft') return <Mark tone="quiet">{t('ordering.draft')}</Mark>
  if (order.state === 'received') return <Mark tone="ready">{t('ordering.received')}</Mark>
  if (order.state === 'cancelled') return <Mark tone="quiet">{t('ordering.cancelled')}</Mark>
  if (order.expectedAt === null) return <Mark tone="curing">{t('ordering.placed')}</Mark>
  const day = formatInstant(order.expectedAt, zone, 'day')
  return Date.parse(order.expectedAt) < nowMs ? (
    <Mark tone="warning">{t('ordering.lateExpected', { day })}</Mark>
  ) : (
    <Mark tone="curing">{t('ordering.placedExpected', { day })}</Mark>
  )
}
