import { Link } from '@tanstack/react-router'
import { useMay } from '../../api/use-me.ts'
import styles from './admin.module.css'

const OWNER_ONLY: readonly string[] = ['/admin/qualifications', '/admin/tokens', '/admin/webhooks']

const PLACES = [
  { to: '/admin/people', label: 'People' },
  { to: '/admin/qualifications', label: 'Qualifications' },
  { to: '/admin/shops', label: 'Shops' },
  { to: '/admin/equipment', label: 'Bays and equipment' },
  { to: '/admin/ordering', label: 'Ordering' },
  { to: '/admin/tokens', label: 'Tokens' },
  { to: '/admin/webhooks', label: 'Webhooks' },
] as const

export function AdminNav() {
  const isOwner = useMay()('manageChain')
  const places = PLACES.filter(({ to }) => isOwner || !OWNER_ONLY.includes(to))
  return (
    <nav className={styles['nav']} aria-label="Administration">
      {places.map(({ to, label }) => (
        <Link key={to} to={to}>
          {label}
        </Link>
      ))}
    </nav>
  )
}
