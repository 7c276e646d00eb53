import {
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  Outlet,
  retainSearchParams,
  type RouteComponent,
} from '@tanstack/react-router'
import type { Area } from '@clampclock/messages'
import { loadWords, t } from '../lib/reader.ts'
import { textOf, uuidOf } from '../lib/search.ts'
import { readAlertSearch } from '../screens/alerts/search.ts'
import { readFigureSearch } from '../screens/plan-figures/search.ts'
import { readPlanSearch } from '../screens/plan/search.ts'
import { readRepairSearch } from '../screens/repairs/search.ts'
import { readScheduleSearch } from '../screens/schedule/search.ts'
import { readStockSearch } from '../features/stock/search.ts'
import { Loading } from '../ui/waiting.tsx'
import { Gate } from './gate.tsx'
import { NotFound, ScreenFault } from './not-found.tsx'

/** Loads a screen and its words when it is first shown. The declared types keep screens and router from inferring each other. */
function screen(
  areas: Area | readonly Area[],
  load: () => Promise<Record<string, unknown>>,
  name: string,
): RouteComponent {
  return lazyRouteComponent(async () => {
    const [module] = await Promise.all([load(), loadWords([areas].flat())])
    return module as Record<string, RouteComponent>
  }, name)
}

const root = createRootRoute({ component: Outlet })

const setup = createRoute({
  getParentRoute: () => root,
  path: '/setup',
  validateSearch: (raw: Record<string, unknown>): { code?: string | undefined } => ({
    code: textOf(raw['code']),
  }),
  component: screen('setup', () => import('../screens/setup/setup-screen.tsx'), 'SetupScreen'),
})

/** Everything behind the sign-in. The shop in view stands in the address and goes along from screen to screen. */
const inside = createRoute({
  getParentRoute: () => root,
  id: 'in',
  validateSearch: (raw: Record<string, unknown>): { shop?: string | undefined } => ({
    shop: uuidOf(raw['shop']),
  }),
  search: { middlewares: [retainSearchParams(['shop'])] },
  component: Gate,
})

const under = () => inside

const screens = [
  createRoute({
    getParentRoute: under,
    path: '/',
    component: screen(['overview', 'my-work'], () => import('./home-screen.tsx'), 'HomeScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/overview',
    component: screen('overview', () => import('../screens/overview/overview-screen.tsx'), 'OverviewScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/my-work',
    component: screen('my-work', () => import('../screens/my-work/my-work-screen.tsx'), 'MyWorkScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/bays',
    validateSearch: (raw: Record<string, unknown>): { wall?: true | undefined } => ({
      wall: raw['wall'] === true ? true : undefined,
    }),
    component: screen('bays', () => import('../screens/bays/bay-board-screen.tsx'), 'BayBoardScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/jobs',
    validateSearch: readRepairSearch,
    component: screen('repairs', () => import('../screens/repairs/repairs-screen.tsx'), 'RepairsScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/jobs/new',
    component: screen('repairs', () => import('../screens/repairs/new-repair-screen.tsx'), 'NewRepairScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/jobs/$repairOrderId',
    component: screen('job', () => import('../screens/job/job-screen.tsx'), 'JobScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/jobs/$repairOrderId/edit',
    component: screen(
      'repairs',
      () => import('../screens/repairs/edit-repair-screen.tsx'),
      'EditRepairScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/jobs/$repairOrderId/joints/new',
    component: screen('repairs', () => import('../screens/repairs/new-joint-screen.tsx'), 'NewJointScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/jobs/$repairOrderId/joints/$jointId/bond',
    validateSearch: (
      raw: Record<string, unknown>,
    ): { cartridge?: string | undefined; times?: number | undefined } => ({
      cartridge: uuidOf(raw['cartridge']),
      times: typeof raw['times'] === 'number' ? raw['times'] : undefined,
    }),
    component: screen(
      'start-bond',
      () => import('../screens/start-bond/start-bond-screen.tsx'),
      'StartBondScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/bonds/$bondId/record',
    component: screen(
      'bond-record',
      () => import('../screens/bond-record/bond-record-screen.tsx'),
      'BondRecordScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/schedule',
    validateSearch: readScheduleSearch,
    component: screen('schedule', () => import('../screens/schedule/schedule-screen.tsx'), 'ScheduleScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/plan',
    validateSearch: readPlanSearch,
    component: screen('plan', () => import('../screens/plan/plan-screen.tsx'), 'PlanScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/plan/figures',
    validateSearch: readFigureSearch,
    component: screen(
      'plan-figures',
      () => import('../screens/plan-figures/plan-figures-screen.tsx'),
      'PlanFiguresScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/plan/setup',
    component: screen(
      'plan-setup',
      () => import('../screens/plan-setup/plan-setup-screen.tsx'),
      'PlanSetupScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/plan/setup/new',
    validateSearch: (raw: Record<string, unknown>): { from?: string | undefined } => ({
      from: textOf(raw['from']),
    }),
    component: screen(
      'plan-setup',
      () => import('../screens/plan-setup/new-template-screen.tsx'),
      'NewTemplateScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/plan/setup/templates/$key',
    component: screen(
      'plan-setup',
      () => import('../screens/plan-setup/template-screen.tsx'),
      'TemplateScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock',
    validateSearch: readStockSearch,
    component: screen('stock', () => import('../screens/stock/stock-screen.tsx'), 'StockScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/receive',
    validateSearch: (raw: Record<string, unknown>): { scan?: string | undefined } => ({
      scan:
        typeof raw['scan'] === 'string' || typeof raw['scan'] === 'number' ? String(raw['scan']) : undefined,
    }),
    component: screen('stock', () => import('../screens/stock/receive/receive-screen.tsx'), 'ReceiveScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/move',
    validateSearch: (raw: Record<string, unknown>): { cartridge?: string | undefined } => ({
      cartridge: uuidOf(raw['cartridge']),
    }),
    component: screen('stock', () => import('../screens/stock/transit/move-screen.tsx'), 'MoveScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/shipments',
    validateSearch: (raw: Record<string, unknown>): { all?: 'yes' | undefined } => ({
      all: raw['all'] === 'yes' ? 'yes' : undefined,
    }),
    component: screen(
      'stock',
      () => import('../screens/stock/transit/shipments-screen.tsx'),
      'ShipmentsScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/counts',
    component: screen('stock', () => import('../screens/stock/counts/counts-screen.tsx'), 'CountsScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/counts/$countId',
    component: screen('stock', () => import('../screens/stock/counts/count-screen.tsx'), 'CountScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/lots/$lotId/recall',
    component: screen('stock', () => import('../screens/stock/lots/recall-screen.tsx'), 'RecallScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/reservations',
    component: screen(
      'stock',
      () => import('../screens/stock/reservations-screen.tsx'),
      'ReservationsScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/c/$code',
    component: screen(
      'stock',
      () => import('../screens/stock/cartridge/by-label-screen.tsx'),
      'ByLabelScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/lots',
    validateSearch: (raw: Record<string, unknown>): { lot?: string | undefined } => ({
      lot: textOf(raw['lot']),
    }),
    component: screen('stock', () => import('../screens/stock/lots/lots-screen.tsx'), 'LotsScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/lots/$lotId',
    component: screen('stock', () => import('../screens/stock/lots/lot-screen.tsx'), 'LotScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/movements',
    component: screen('stock', () => import('../screens/stock/movements-screen.tsx'), 'MovementsScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/stock/cartridges/$cartridgeId',
    component: screen(
      'stock',
      () => import('../screens/stock/cartridge/cartridge-screen.tsx'),
      'CartridgeScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/ordering',
    component: screen('ordering', () => import('../screens/ordering/ordering-screen.tsx'), 'OrderingScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/ordering/orders/$orderId',
    component: screen('ordering', () => import('../screens/ordering/order-screen.tsx'), 'OrderScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/waste',
    component: screen('waste', () => import('../screens/waste/waste-screen.tsx'), 'WasteScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/products',
    component: screen('products', () => import('../screens/products/products-screen.tsx'), 'ProductsScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/products/new',
    component: screen(
      'products',
      () => import('../screens/products/new-product-screen.tsx'),
      'NewProductScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/products/$productId',
    component: screen('products', () => import('../screens/products/product-screen.tsx'), 'ProductScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/products/$productId/sheet',
    component: screen(
      'products',
      () => import('../screens/products/sheet/new-sheet-screen.tsx'),
      'NewSheetScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/alerts',
    validateSearch: readAlertSearch,
    component: screen('alerts', () => import('../screens/alerts/alerts-screen.tsx'), 'AlertsScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/account',
    component: screen('account', () => import('../screens/account/account-screen.tsx'), 'AccountScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/admin/people',
    component: screen('admin', () => import('../screens/admin/people/people-screen.tsx'), 'PeopleScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/admin/qualifications',
    component: screen(
      'admin',
      () => import('../screens/admin/people/qualifications-screen.tsx'),
      'QualificationsScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/admin/tokens',
    component: screen('admin', () => import('../screens/admin/access/tokens-screen.tsx'), 'TokensScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/admin/webhooks',
    component: screen('admin', () => import('../screens/admin/access/webhooks-screen.tsx'), 'WebhooksScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/admin/shops',
    component: screen('admin', () => import('../screens/admin/shops-screen.tsx'), 'ShopsScreen'),
  }),
  createRoute({
    getParentRoute: under,
    path: '/admin/ordering',
    component: screen(
      'admin',
      () => import('../screens/admin/ordering/ordering-setup-screen.tsx'),
      'OrderingSetupScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/admin/equipment',
    component: screen(
      'admin',
      () => import('../screens/admin/equipment/equipment-screen.tsx'),
      'EquipmentScreen',
    ),
  }),
  createRoute({
    getParentRoute: under,
    path: '/help',
    component: screen('help', () => import('../screens/help/help-screen.tsx'), 'HelpScreen'),
  }),
  // Any other address: told inside the shell, with the way to everything else beside it.
  createRoute({ getParentRoute: under, path: '$', component: NotFound }),
] as const

export const router = createRouter({
  routeTree: root.addChildren([setup, inside.addChildren(screens)]),
  defaultPreload: 'intent',
  defaultPendingComponent: () => <Loading what={t('app.theScreen')} />,
  defaultErrorComponent: ScreenFault,
  scrollRestoration: true,
})

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router
  }
}
