import { Link } from '@tanstack/react-router'
import styles from './admin.module.css'

const PLACES = [
  { to: '/admin/people', label: 'People' },
  { to: '/admin/shops', label: 'Shops' },
  { to: '/admin/equipment', label: 'Bays and equipment' },
  { to: '/admin/tokens', label: 'Tokens' },
] as const

export function AdminNav() {
  return (
    <nav className={styles['nav']} aria-label="Administration">
      {PLACES.map(({ to, label }) => (
        <Link key={to} to={to}>
          {label}
        </Link>
      ))}
    </nav>
  )
}
