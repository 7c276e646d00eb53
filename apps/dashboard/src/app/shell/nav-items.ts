import {
  Building2,
  CalendarRange,
  Car,
  FlaskConical,
  Gauge,
  Package,
  Bell,
  Warehouse,
  type LucideIcon,
} from 'lucide-react'
import type { Permission } from '@clampclock/contracts'

interface NavItem {
  readonly to: '/' | '/bays' | '/jobs' | '/schedule' | '/stock' | '/products' | '/alerts' | '/admin/people'
  readonly label: string
  readonly icon: LucideIcon
  /** Shown to those who hold it somewhere. */
  readonly needs?: Permission
  /** Has a place in the phone's bottom bar; the others are behind 'More'. */
  readonly onPhone?: true
}

export const NAV: readonly NavItem[] = [
  { to: '/', label: 'Overview', icon: Gauge, onPhone: true },
  { to: '/bays', label: 'Bay board', icon: Warehouse, onPhone: true },
  { to: '/jobs', label: 'Repair orders', icon: Car, onPhone: true },
  { to: '/schedule', label: 'Schedule', icon: CalendarRange },
  { to: '/stock', label: 'Stock', icon: Package, onPhone: true },
  { to: '/products', label: 'Products', icon: FlaskConical },
  { to: '/alerts', label: 'Alerts', icon: Bell },
  { to: '/admin/people', label: 'Administration', icon: Building2, needs: 'manageChain' },
]
