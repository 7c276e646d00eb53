import {
  Building2,
  CalendarRange,
  ChartGantt,
  Car,
  FlaskConical,
  Gauge,
  Package,
  Bell,
  ShoppingCart,
  Trash2,
  Warehouse,
  type LucideIcon,
} from 'lucide-react'
import type { Permission } from '@clampclock/contracts'

interface NavItem {
  readonly to:
    | '/'
    | '/bays'
    | '/jobs'
    | '/schedule'
    | '/plan'
    | '/stock'
    | '/ordering'
    | '/waste'
    | '/products'
    | '/alerts'
    | '/admin/equipment'
  readonly label: string
  readonly icon: LucideIcon
  /** Shown to those who hold it somewhere. */
  readonly needs?: Permission
  /** Its word in the phone's bottom bar; those without one are behind 'More'. */
  readonly onPhone?: string
}

export const NAV: readonly NavItem[] = [
  { to: '/', label: 'Overview', icon: Gauge, onPhone: 'Overview' },
  { to: '/bays', label: 'Bay board', icon: Warehouse, onPhone: 'Bays' },
  { to: '/jobs', label: 'Repair orders', icon: Car, onPhone: 'Jobs' },
  { to: '/plan', label: 'Plan', icon: ChartGantt },
  { to: '/schedule', label: 'Schedule', icon: CalendarRange },
  { to: '/stock', label: 'Stock', icon: Package, onPhone: 'Stock' },
  { to: '/ordering', label: 'Ordering', icon: ShoppingCart, needs: 'handleStock' },
  { to: '/waste', label: 'Waste', icon: Trash2, needs: 'handleStock' },
  { to: '/products', label: 'Products', icon: FlaskConical },
  { to: '/alerts', label: 'Alerts', icon: Bell },
  // Dispensers and storage are the parts manager's, all else there the owner's.
  { to: '/admin/equipment', label: 'Administration', icon: Building2, needs: 'handleStock' },
]
