import { Link } from '@tanstack/react-router'
import { useMay } from '../../api/use-me.ts'
import styles from './admin.module.css'

const OWNERS_ONLY: readonly string[] = ['/admin/tokens']
/** What counts for every shop. */
const OF_THE_CHAIN: readonly string[] = ['/admin/qualifications', '/admin/webhooks']

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
  const may = useMay()
  const places = PLACES.filter(
    ({ to }) =>
      (may('manageChain') || !OWNERS_ONLY.includes(to)) &&
      (may('manageChain', null) || !OF_THE_CHAIN.includes(to)),
  )
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
