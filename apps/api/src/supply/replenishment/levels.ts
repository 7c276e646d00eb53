import type { ProductSupply, ReplenishmentLine, ReplenishmentPolicy, Supplier } from '@clampclock/contracts'
import { message, type Param } from '@clampclock/messages'
import { bookedBetween, orderLevels, wasteForecast, type OrderLevels } from '@clampclock/stock'
import type { Tx } from '../../foundation/database/database.ts'
import type { Product } from '../../generated/prisma/client.ts'
import { toMl } from '../../foundation/database/volumes.ts'
import { demandKey, demands, type ProductDemand } from './demand.ts'
import { policyOf } from './policy.ts'
import type { CartridgeRow } from '../cartridges/cartridge-store.ts'
import { groupBy, isStock, onShelves, toPerishable } from './shelf.ts'
import { listSuppliers, supplies } from './suppliers.ts'

/** Bookings further ahead than this are not shown: nobody orders for them yet. */
const BOOKED_DAYS = 28

const NO_DEMAND: ProductDemand = { daily: null, booked: [], usedMl: 0, historyDays: 0 }

/** How a product stands in a shop, before anything is said of waste: what levels are kept by. */
interface Standing {
  readonly product: Product
  readonly pieces: readonly CartridgeRow[]
  readonly onOrder: number
  readonly demand: ProductDemand
  readonly supply: ProductSupply | null
  readonly levels: OrderLevels | null
}

/** Each product that is in use, on the shelf or on its way to the shop. */
export async function standingsOf(
  tx: Tx,
  policy: ReplenishmentPolicy,
  shopId: string,
  now: Date,
): Promise<Standing[]> {
  const known = await demands(tx, [shopId], now)
  const shelf = groupBy(
    (await onShelves(tx, [shopId])).filter((row) => isStock(row, now)),
    ({ product_id }) => product_id,
  )
  const coming = await comingTo(tx, shopId)
  const supplyOf = await supplies(tx)
  const suppliers = new Map((await listSuppliers(tx)).map((supplier) => [supplier.id, supplier]))
  const products = await tx.product.findMany({ where: { retiredAt: null }, orderBy: { name: 'asc' } })
  return products.flatMap((product) => {
    const demand = known.get(demandKey(shopId, product.id)) ?? NO_DEMAND
    const pieces = shelf.get(product.id) ?? []
    const onOrder = coming.get(product.id) ?? 0
    if (!demand.daily && demand.booked.length === 0 && pieces.length === 0 && onOrder === 0) return []
    const supply = supplyOf.get(product.id) ?? null
    const supplier = supply && suppliers.get(supply.supplierId)
    const levels =
      supply && supplier && demand.daily
        ? orderLevels(demand.daily, termsOf(product, supply, supplier, policy))
        : null
    return [{ product, pieces, onOrder, demand, supply, levels }]
  })
}

/** How each product stands in a shop, what of it will be lost, and what to order. */
export async function replenishmentOf(
  tx: Tx,
  organizationId: string,
  shopId: string,
  now: Date,
): Promise<{ currency: string; items: ReplenishmentLine[] }> {
  const policy = await policyOf(tx, organizationId)
  const standings = await standingsOf(tx, policy, shopId, now)
  return { currency: policy.currency, items: standings.map((standing) => lineOf(standing, now)) }
}

function lineOf(
  { product, pieces, onOrder, demand, supply, levels }: Standing,
  now: Date,
): ReplenishmentLine {
  const onHandMl = pieces.reduce((sum, { remaining_ul }) => sum + toMl(remaining_ul), 0)
  const cartridgeMl = toMl(product.cartridgeUl)
  const bookedMl = bookedBetween(demand.booked, 0, BOOKED_DAYS)
  const wastes = wasteForecast(
    pieces.map((row) => toPerishable(row, now)),
    demand.daily,
    demand.booked,
  )
  return {
    productId: product.id,
    productName: product.name,
    cartridgeMl,
    sealed: pieces.filter(({ state }) => state === 'sealed').length,
    opened: pieces.filter(({ state }) => state === 'opened').length,
    onHandMl,
    onOrder,
    bookedMl,
    usedMl: demand.usedMl,
    historyDays: demand.historyDays,
    consumptionPerDayMl: levels?.consumptionPerDayMl ?? null,
    reorderPointMl: levels?.reorderPointMl ?? null,
    orderUpToMl: levels?.orderUpToMl ?? null,
    isCutByShelfLife: levels?.isCutByShelfLife ?? false,
    lastsDays: levels && levels.consumptionPerDayMl > 0 ? onHandMl / levels.consumptionPerDayMl : null,
    expectedWasteMl: wastes.reduce((sum, { expectedMl }) => sum + expectedMl, 0),
    ...suggestion({ onHandMl, onOrder, cartridgeMl, bookedMl }, levels, supply),
    supply,
  }
}

interface Position {
  readonly onHandMl: number
  readonly onOrder: number
  readonly cartridgeMl: number
  readonly bookedMl: number
}

/** How many cartridges, in whole boxes, and why. Bookings beyond what is there and coming are ordered for whatever the levels say. */
export function suggestion(
  { onHandMl, onOrder, cartridgeMl, bookedMl }: Position,
  levels: OrderLevels | null,
  supply: Pick<ProductSupply, 'boxOf'> | null,
): Pick<ReplenishmentLine, 'suggestedCartridges' | 'reason'> {
  const thereMl = onHandMl + onOrder * cartridgeMl
  const missingMl = bookedMl - thereMl
  const there = amount(thereMl)
  const boxed = (ml: number) => {
    const boxOf = supply?.boxOf ?? 1
    return Math.ceil(ml / cartridgeMl / boxOf - 1e-9) * boxOf
  }
  if (levels && thereMl <= levels.reorderPointMl) {
    const wantedMl = Math.max(levels.orderUpToMl - thereMl, missingMl)
    return {
      suggestedCartridges: boxed(wantedMl),
      reason: message('order.atReorderPoint', { there, reorderPoint: amount(levels.reorderPointMl) }),
    }
  }
  if (missingMl > 0)
    return {
      suggestedCartridges: boxed(missingMl),
      reason: message('order.plannedTakeMore', { planned: amount(bookedMl), there }),
    }
  if (!supply) return { suggestedCartridges: 0, reason: message('order.nobodySaysWhere') }
  if (!levels) return { suggestedCartridges: 0, reason: message('order.neverUsed') }
  return {
    suggestedCartridges: 0,
    reason: message('order.aboveReorderPoint', { there, reorderPoint: amount(levels.reorderPointMl) }),
  }
}

function termsOf(
  product: Pick<Product, 'cartridgeUl' | 'openLifeDays'>,
  supply: ProductSupply,
  supplier: Supplier,
  policy: ReplenishmentPolicy,
) {
  return {
    leadDays: supplier.leadDays,
    leadDeviationDays: supplier.leadDeviationDays,
    reviewDays: policy.reviewDays,
    serviceLevel: policy.serviceLevel,
    cartridgeMl: toMl(product.cartridgeUl),
    freshDays: supply.freshDays,
    openLifeDays: product.openLifeDays,
    costs: {
      cartridge: supply.unitPriceCents,
      order: supplier.orderCostCents,
      waitingJob: policy.waitingJobCents,
      keepingDay: policy.keepingDayCents,
    },
  }
}

/** Cartridges on their way to the shop: of placed orders, and of shipments from other shops. */
async function comingTo(tx: Tx, shopId: string): Promise<Map<string, number>> {
  const count = new Map<string, number>()
  const add = (productId: string, cartridges: number) =>
    count.set(productId, (count.get(productId) ?? 0) + cartridges)
  const lines = await tx.purchaseOrderLine.findMany({ where: { shopId, order: { state: 'placed' } } })
  for (const line of lines) add(line.productId, line.cartridges - line.receivedCartridges)
  const sent = await tx.shipmentLine.findMany({
    where: { outcome: null, shipment: { toShopId: shopId } },
    include: { cartridge: { include: { lot: { select: { productId: true } } } } },
  })
  for (const { cartridge } of sent) add(cartridge.lot.productId, 1)
  return count
}

/** As data to the millilitre: what is on the shelf does not move by less. */
function amount(ml: number): Param {
  return { millilitres: Math.round(ml) }
}
