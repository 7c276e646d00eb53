import type { MessageKey } from '@clampclock/messages'
import type { AlertKind } from '../../api/queries/alerts.ts'
import type { Alert, ShopOverview } from '../../api/types.ts'
import type { StockSearch } from '../../features/stock/search.ts'
import { t } from '../../lib/reader.ts'

type Target =
  | { readonly to: '/stock'; readonly search: StockSearch }
  | { readonly to: '/alerts'; readonly search: { readonly kind?: AlertKind } }

export interface Finding {
  readonly key: string
  readonly tone: 'danger' | 'warning'
  /** For one and for several. */
  readonly words: Extract<MessageKey, `overview.finding.${string}`>
  readonly consequence: string
  readonly target: Target
  readonly total: number
  readonly perShop: readonly { readonly shopId: string; readonly name: string; readonly count: number }[]
}

interface Rule extends Omit<Finding, 'total' | 'perShop'> {
  readonly count: (shop: ShopOverview, clashes: readonly Pick<Alert, 'shopId'>[]) => number
}

/** What may need a person, the gravest first: a joint in doubt, then a plan in doubt, then stock. */
const RULES: readonly Rule[] = [
  {
    key: 'movedEarly',
    tone: 'danger',
    words: 'overview.finding.movedEarly',
    get consequence() {
      return t('overview.inspectAndAcceptOrRedo')
    },
    target: { to: '/alerts', search: { kind: 'earlyRelease' } },
    count: (shop) => shop.bonds.movedEarly,
  },
  {
    key: 'plannedTooEarly',
    tone: 'danger',
    words: 'overview.finding.plannedTooEarly',
    get consequence() {
      return t('overview.moveTheBookingOrWarmTheBay')
    },
    target: { to: '/alerts', search: { kind: 'plannedMoveBeforeReady' } },
    count: (shop) => shop.bonds.plannedTooEarly,
  },
  {
    key: 'bayClash',
    tone: 'danger',
    words: 'overview.finding.bayClash',
    get consequence() {
      return t('overview.somebodyMustWaitOrGoElsewhere')
    },
    target: { to: '/alerts', search: { kind: 'bayClash' } },
    count: (shop, clashes) => clashes.filter((alert) => alert.shopId === shop.shop.id).length,
  },
  {
    key: 'expired',
    tone: 'danger',
    words: 'overview.finding.expired',
    get consequence() {
      return t('overview.takeOffTheShelfAndDiscard')
    },
    target: { to: '/stock', search: { urgency: 'expired' } },
    count: (shop) => shop.stock.expired,
  },
  {
    key: 'openedPastOpenLife',
    tone: 'danger',
    words: 'overview.finding.openedPastOpenLife',
    get consequence() {
      return t('overview.discardItNoLongerCounts')
    },
    target: { to: '/stock', search: { urgency: 'expired', state: 'opened' } },
    count: (shop) => shop.stock.openedPastOpenLife,
  },
  {
    key: 'openIncidents',
    tone: 'warning',
    words: 'overview.finding.openIncidents',
    get consequence() {
      return t('overview.inspectAndAcceptOrMakeTheJointAgain')
    },
    target: { to: '/alerts', search: {} },
    count: (shop) => Math.max(0, shop.bonds.openIncidents - shop.bonds.movedEarly),
  },
  {
    key: 'expiresSoon',
    tone: 'warning',
    words: 'overview.finding.expiresSoon',
    get consequence() {
      return t('overview.useFirstOrSendWhereItIsNeeded')
    },
    target: { to: '/stock', search: { urgency: 'soon' } },
    count: (shop) => shop.stock.expiresSoon,
  },
  {
    key: 'onHold',
    tone: 'warning',
    words: 'overview.finding.onHold',
    get consequence() {
      return t('overview.notToBeUsedUntilTheHoldEnds')
    },
    target: { to: '/alerts', search: { kind: 'lotOnHold' } },
    count: (shop) => shop.stock.onHold,
  },
  {
    key: 'noDispenserFits',
    tone: 'warning',
    words: 'overview.finding.noDispenserFits',
    get consequence() {
      return t('overview.countsAsNoStockHere')
    },
    target: { to: '/alerts', search: { kind: 'noDispenserFits' } },
    count: (shop) => shop.stock.noDispenserFits,
  },
]

export interface Findings {
  readonly present: readonly Finding[]
  /** What was looked for and not found. */
  readonly absent: readonly string[]
}

export function findingsOf(
  shops: readonly ShopOverview[],
  clashes: readonly Pick<Alert, 'shopId'>[],
): Findings {
  const all = RULES.map(({ count, ...rule }): Finding => {
    const perShop = shops
      .map((shop) => ({ shopId: shop.shop.id, name: shop.shop.name, count: count(shop, clashes) }))
      .filter((entry) => entry.count > 0)
    return { ...rule, perShop, total: perShop.reduce((sum, entry) => sum + entry.count, 0) }
  })
  return {
    present: all.filter((finding) => finding.total > 0),
    absent: all.filter((finding) => finding.total === 0).map((finding) => t(finding.words, { n: 0 })),
  }
}
