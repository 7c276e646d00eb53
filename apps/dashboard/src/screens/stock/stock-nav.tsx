import { Link } from '@tanstack/react-router'
import styles from './stock-nav.module.css'

const PLACES = [
  { to: '/stock', label: 'On hand' },
  { to: '/stock/lots', label: 'Lots' },
  { to: '/stock/reservations', label: 'Reserved for jobs' },
  { to: '/stock/shipments', label: 'Shipments' },
  { to: '/stock/counts', label: 'Counts' },
  { to: '/stock/movements', label: 'Movements' },
] as const

export function StockNav() {
  return (
    <nav className={styles['nav']} aria-label="Stock">
      {PLACES.map(({ to, label }) => (
        <Link key={to} to={to} activeOptions={{ exact: true, includeSearch: false }}>
          {label}
        </Link>
      ))}
    </nav>
  )
}
