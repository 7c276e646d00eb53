import { Link } from '@tanstack/react-router'
import type { RepairOrder } from '../../api/types.ts'
import { formatNear } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './repairs.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly order: RepairOrder
  readonly showShop: boolean
}

export function RepairRow({ order, showShop }: Props) {
  const shop = useShop(order.shopId)
  const nowMs = useNow(60_000)
  const { promisedAt } = order
  const isLate = promisedAt !== null && order.state === 'open' && Date.parse(promisedAt) < nowMs
  return (
    <li>
      <Link
        to="/jobs/$repairOrderId"
        params={{ repairOrderId: order.id }}
        className={`rowLink ${styles['row']}`}
      >
        <span>
          <strong className="rowLinkName">{order.vehicle}</strong>
          <small>
            {order.number}
            {showShop && ` · ${shop?.name}`}
          </small>
        </span>
        <span>{order.bay?.name ?? <small>{t('repairs.inNoBay')}</small>}</span>
        <span>
          {t('repairs.joints', { jointCount: order.jointCount })}
          {order.curingCount > 0 && (
            <Mark tone="curing">{t('repairs.curing', { curingCount: order.curingCount })}</Mark>
          )}
        </span>
        <span>
          {promisedAt !== null && (
            <>
              <small>{t('repairs.promised')}</small> {formatNear(promisedAt, zoneOf(shop), nowMs)}
            </>
          )}
          {isLate && <Mark tone="danger">{t('repairs.late')}</Mark>}
          {order.state === 'done' && <Mark tone="quiet">{t('repairs.done')}</Mark>}
        </span>
      </Link>
    </li>
  )
}
