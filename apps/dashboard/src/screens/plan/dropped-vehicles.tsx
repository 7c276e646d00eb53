import type { Plan } from '../../api/types.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { OrderNames } from './order-names.tsx'
import { dropped } from './plan-figures.ts'
import styles from './plan-run.module.css'
import { t } from '../../lib/reader.ts'

type Orders = Plan['leftOut']

/** So that the picture stays on the screen. */
const NAMES_SHOWN = 3

/** The first thing to know of a draft: for which vehicles it plans nothing, and why. */
export function DroppedVehicles({ orders }: { readonly orders: Orders }) {
  if (orders.length === 0) return null
  const rest = orders.slice(NAMES_SHOWN)
  return (
    <section className={styles['dropped']} aria-label={t('plan.droppedByTheDraft')}>
      <Mark tone="danger">{dropped(orders.length)}</Mark>
      <OrderNames orders={orders.slice(0, NAMES_SHOWN)} />
      {rest.length > 0 && (
        <details>
          <summary>{t('plan.more', { rest: rest.length })}</summary>
          <OrderNames orders={rest} />
        </details>
      )}
    </section>
  )
}
