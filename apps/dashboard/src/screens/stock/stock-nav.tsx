import { Link } from '@tanstack/react-router'
import styles from './stock-nav.module.css'
import { t } from '../../lib/reader.ts'

const PLACES = [
  {
    to: '/stock',
    get label() {
      return t('stock.onHand')
    },
  },
  {
    to: '/stock/lots',
    get label() {
      return t('stock.lots')
    },
  },
  {
    to: '/stock/reservations',
    get label() {
      return t('stock.reservedForJobs')
    },
  },
  {
    to: '/stock/shipments',
    get label() {
      return t('stock.shipments')
    },
  },
  {
    to: '/stock/counts',
    get label() {
      return t('stock.counts')
    },
  },
  {
    to: '/stock/movements',
    get label() {
      return t('stock.movements')
    },
  },
] as const

export function StockNav() {
  return (
    <nav className={styles['nav']} aria-label={t('stock.stock')}>
      {PLACES.map(({ to, label }) => (
        <Link key={to} to={to} activeOptions={{ exact: true, includeSearch: false }}>
          {label}
        </Link>
      ))}
    </nav>
  )
}
