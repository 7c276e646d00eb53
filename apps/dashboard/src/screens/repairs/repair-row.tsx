import { Link } from '@tanstack/react-router'
import type { RepairOrder } from '../../api/types.ts'
import { formatNear } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './repairs.module.css'

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
        <span>{order.bay?.name ?? <small>In no bay</small>}</span>
        <span>
          {order.jointCount === 1 ? '1 joint' : `${order.jointCount} joints`}
          {order.curingCount > 0 && <Mark tone="curing">{`${order.curingCount} curing`}</Mark>}
        </span>
        <span>
          {promisedAt !== null && (
            <>
              <small>Promised</small> {formatNear(promisedAt, zoneOf(shop), nowMs)}
            </>
          )}
          {isLate && <Mark tone="danger">Late</Mark>}
          {order.state === 'done' && <Mark tone="quiet">Done</Mark>}
        </span>
      </Link>
    </li>
  )
}
