import type { PlanDetail, Resource, Shop } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import type { Span } from '../../features/timeline/time-scale.ts'
import styles from './printed-list.module.css'
import { rowsOf } from './picture/rows.ts'
import type { RowKind } from './search.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly plan: PlanDetail
  readonly resources: readonly Resource[]
  readonly rows: RowKind
  readonly span: Span
  readonly shop: Shop
}

/** The same plan in words, on the sheets after the picture: on paper nothing can be pointed at. */
export function PrintedList({ plan, resources, rows, span, shop }: Props) {
  const numbers = new Map(plan.orders.map(({ id, number }) => [id, number]))
  const names = new Map(resources.map(({ id, name }) => [id, name]))
  return (
    <div className={styles['list']}>
      {rowsOf(plan, resources, rows).map((row) => {
        const own = row.bars
          .filter(
            ({ startsAt, endsAt }) => Date.parse(endsAt) > span.startMs && Date.parse(startsAt) < span.endMs,
          )
          .toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))
        if (own.length === 0) return null
        return (
          <section key={row.id}>
            <h2>
              {row.name} {rows === 'vehicles' && row.detail}
            </h2>
            <table>
              <tbody>
                {own.map((operation) => (
                  <tr key={operation.operationId}>
                    <td>{formatInstant(operation.startsAt, shop.timeZone)}</td>
                    <td>{t('plan.to2', { endsAt: formatInstant(operation.endsAt, shop.timeZone) })}</td>
                    <td>
                      {rows === 'vehicles' ? '' : `${numbers.get(operation.repairOrderId) ?? ''} `}
                      {operation.name}
                      {operation.kind === 'cure' && `, ${t('plan.nothingMayMove2')}`}
                    </td>
                    <td>
                      {[
                        ...(rows === 'places' ? [] : [names.get(operation.placeId ?? '') ?? '']),
                        ...(rows === 'people'
                          ? []
                          : operation.technicianIds.map((id) => names.get(id) ?? '')),
                      ].join(', ')}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )
      })}
    </div>
  )
}
