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
import { t } from '../../lib/reader.ts'

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

/** Where one comes in stands first: at the bay side one's own work, elsewhere what needs attention. */
function home(place: 'baySide' | 'desk'): readonly NavItem[] {
  const overview = { label: t('app.overview'), icon: Gauge } as const
  const myWork = { label: t('app.myWork'), icon: Wrench, needs: 'makeBonds' } as const
  return place === 'baySide'
    ? [
        { to: '/', ...myWork, onPhone: myWork.label },
        { to: '/overview', ...overview },
      ]
    : [
        { to: '/', ...overview, onPhone: overview.label },
        { to: '/my-work', ...myWork },
      ]
}

const REST: readonly NavItem[] = [
  {
    to: '/bays',
    get label() {
      return t('app.bayBoard')
    },
    icon: Warehouse,
    get onPhone() {
      return t('app.bays')
    },
  },
  {
    to: '/jobs',
    get label() {
      return t('app.repairOrders')
    },
    icon: Car,
    get onPhone() {
      return t('app.jobs')
    },
  },
  {
    to: '/plan',
    get label() {
      return t('app.plan')
    },
    icon: ChartGantt,
  },
  {
    to: '/schedule',
    get label() {
      return t('app.schedule')
    },
    icon: CalendarRange,
  },
  {
    to: '/stock',
    get label() {
      return t('app.stock')
    },
    icon: Package,
    get onPhone() {
      return t('app.stock')
    },
  },
  {
    to: '/ordering',
    get label() {
      return t('app.ordering')
    },
    icon: ShoppingCart,
    needs: 'handleStock',
  },
  {
    to: '/waste',
    get label() {
      return t('app.waste')
    },
    icon: Trash2,
    needs: 'handleStock',
  },
  {
    to: '/products',
    get label() {
      return t('app.products')
    },
    icon: FlaskConical,
  },
  {
    to: '/alerts',
    get label() {
      return t('app.alerts')
    },
    icon: Bell,
  },
  // Dispensers and storage are the parts manager's, all else there the owner's.
  {
    to: '/admin/equipment',
    get label() {
      return t('app.administration')
    },
    icon: Building2,
    needs: 'handleStock',
  },
]

export function navItems(isBaySide: boolean): readonly NavItem[] {
  return [...home(isBaySide ? 'baySide' : 'desk'), ...REST]
}
