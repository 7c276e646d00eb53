import { Link } from '@tanstack/react-router'
import type { Plan } from '../../api/types.ts'
import styles from './plan-run.module.css'

/** Vehicles by number and name, each with why it is left out. */
export function OrderNames({ orders }: { readonly orders: Plan['leftOut'] }) {
  return (
    <ul className={styles['names']}>
      {orders.map(({ id, number, vehicle, reasons }) => (
        <li key={id}>
          <Link to="/jobs/$repairOrderId" params={{ repairOrderId: id }}>
            {`${number}, ${vehicle}`}
          </Link>
          : {reasons.join('; ')}
        </li>
      ))}
    </ul>
  )
}
