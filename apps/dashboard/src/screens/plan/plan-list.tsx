import { Link } from '@tanstack/react-router'
import type { Booking, PlanDetail, PlannedOperation, Resource, Shop } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Empty } from '../../ui/waiting.tsx'
import styles from '../../features/timeline/booking-list.module.css'
import type { Span } from '../../features/timeline/time-scale.ts'
import { rowsOf, whyTaken } from './picture/rows.ts'
import type { RowKind } from './search.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly plan: PlanDetail
  readonly resources: readonly Resource[]
  readonly bookings: readonly Booking[]
  readonly rows: RowKind
  readonly span: Span
  readonly shop: Shop
  readonly onOpen: (operation: PlannedOperation) => void
}

/** The plan for a phone: row by row, in order of time. */
export function PlanList({ plan, resources, bookings, rows, span, shop, onOpen }: Props) {
  const numbers = new Map(plan.orders.map(({ id, number }) => [id, number]))
  const all = rowsOf(plan, resources, rows, bookings)
  if (all.length === 0) return <Empty title={t('plan.nothingIsPlanned')} />
  return (
    <>
      {all.map((row) => {
        const own = row.bars
          .filter(
            ({ startsAt, endsAt }) => Date.parse(endsAt) > span.startMs && Date.parse(startsAt) < span.endMs,
          )
          .toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))
        return (
          <section key={row.id} className={styles['place']} aria-label={row.name}>
            <h2>{row.name}</h2>
            {own.length + row.others.length === 0 && (
              <p className={styles['soft']}>{t('plan.nothingPlanned')}</p>
            )}
            <ul>
              {row.others.map((booking) => (
                <li key={booking.id}>
                  <Link to="/jobs/$repairOrderId" params={{ repairOrderId: booking.repairOrderId }}>
                    <span>
                      <strong>{booking.repairOrderNumber}</strong> {whyTaken(booking)}
                    </span>
                    <span>
                      {t('plan.to', {
                        startsAt: formatInstant(booking.startsAt, shop.timeZone),
                        endsAt: formatInstant(booking.endsAt, shop.timeZone),
                      })}
                    </span>
                  </Link>
                </li>
              ))}
              {own.map((operation) => (
                <li key={operation.operationId}>
                  <button type="button" onClick={() => onOpen(operation)}>
                    <span>
                      <strong>{operation.name}</strong> {numbers.get(operation.repairOrderId)}
                    </span>
                    <span>
                      {t('plan.to', {
                        startsAt: formatInstant(operation.startsAt, shop.timeZone),
                        endsAt: formatInstant(operation.endsAt, shop.timeZone),
                      })}
                    </span>
                    {operation.kind === 'cure' && <Mark tone="curing">{t('plan.nothingMayMove')}</Mark>}
                    {operation.warning !== null && <Mark tone="danger">{operation.warning}</Mark>}
                  </button>
                </li>
              ))}
            </ul>
          </section>
        )
      })}
    </>
  )
}
