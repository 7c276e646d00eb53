import { Link } from '@tanstack/react-router'
import { useMay } from '../../api/use-me.ts'
import styles from './admin.module.css'
import { t } from '../../lib/reader.ts'

const OWNERS_ONLY: readonly string[] = ['/admin/tokens']
/** What counts for every shop. */
const OF_THE_CHAIN: readonly string[] = ['/admin/qualifications', '/admin/webhooks']

const PLACES = [
  {
    to: '/admin/people',
    get label() {
      return t('admin.people')
    },
  },
  {
    to: '/admin/qualifications',
    get label() {
      return t('admin.qualifications')
    },
  },
  {
    to: '/admin/shops',
    get label() {
      return t('admin.shops')
    },
  },
  {
    to: '/admin/equipment',
    get label() {
      return t('admin.baysAndEquipment')
    },
  },
  {
    to: '/admin/ordering',
    get label() {
      return t('admin.ordering')
    },
  },
  {
    to: '/admin/tokens',
    get label() {
      return t('admin.tokens')
    },
  },
  {
    to: '/admin/webhooks',
    get label() {
      return t('admin.webhooks')
    },
  },
] as const

export function AdminNav() {
  const may = useMay()
  const places = PLACES.filter(
    ({ to }) =>
      (may('manageChain') || !OWNERS_ONLY.includes(to)) &&
      (may('manageChain', null) || !OF_THE_CHAIN.includes(to)),
  )
  return (
    <nav className={styles['nav']} aria-label={t('admin.administration')}>
      {places.map(({ to, label }) => (
        <Link key={to} to={to}>
          {label}
        </Link>
      ))}
    </nav>
  )
}
