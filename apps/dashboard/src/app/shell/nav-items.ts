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
  Wrench,
  type LucideIcon,
} from 'lucide-react'
import type { Permission } from '@clampclock/contracts'

export interface NavItem {
  readonly to:
    | '/'
    | '/overview'
    | '/my-work'
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

const OVERVIEW = { label: 'Overview', icon: Gauge } as const
const MY_WORK = { label: 'My work', icon: Wrench, needs: 'makeBonds' } as const

/** Where one comes in stands first: at the bay side one's own work, elsewhere what needs attention. */
const HOME: Readonly<Record<'baySide' | 'desk', readonly NavItem[]>> = {
  baySide: [
    { to: '/', ...MY_WORK, onPhone: 'My work' },
    { to: '/overview', ...OVERVIEW },
  ],
  desk: [
    { to: '/', ...OVERVIEW, onPhone: 'Overview' },
    { to: '/my-work', ...MY_WORK },
  ],
}

const REST: readonly NavItem[] = [
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

export function navItems(isBaySide: boolean): readonly NavItem[] {
  return [...HOME[isBaySide ? 'baySide' : 'desk'], ...REST]
}
