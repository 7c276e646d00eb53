import { setImmediate } from 'node:timers/promises'
import type { QueryOf, ResultOf, WasteLine, replenishmentRoutes } from '@clampclock/contracts'
import { wasteForecast } from '@clampclock/stock'
import { visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { CartridgeRow } from '../cartridges/cartridge-store.ts'
import { toMl } from '../../foundation/database/volumes.ts'
import { demandKey, demands } from './demand.ts'
import { policyOf } from './policy.ts'
import { groupBy, isStock, onShelves, toPerishable } from './shelf.ts'
import { supplies } from './suppliers.ts'

/** Less than this is the grid's own error, and no news. */
const WORTH_TELLING_ML = 1

/** What each lot will lose by expiry where it is, and what is dead there already. */
export async function wasteOf(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof replenishmentRoutes.listWaste>,
  now: Date,
): Promise<ResultOf<typeof replenishmentRoutes.listWaste>> {
  const shops = visibleShops(actor, query.shopId)?.in ?? null
  const { currency } = await policyOf(tx, actor.organization.id)
  const supplyOf = await supplies(tx)
  const known = await demands(tx, shops, now)
  const shelf = await onShelves(tx, shops)
  const inDate = groupBy(
    shelf.filter((row) => isStock(row, now)),
    (row) => demandKey(row.shop_id, row.product_id),
  )
  const items: WasteLine[] = []
  for (const [key, rows] of inDate) {
    // A big chain has thousands of shelves: others are answered in between.
    await setImmediate()
    const demand = known.get(key)
    const wastes = wasteForecast(
      rows.map((row) => toPerishable(row, now)),
      demand?.daily ?? null,
      demand?.booked ?? [],
    )
    const wasteById = new Map(wastes.map((waste) => [waste.id, waste]))
    for (const ofLot of groupBy(rows, ({ lot_id }) => lot_id).values()) {
      const lost = ofLot.map(({ id }) => wasteById.get(id)!)
      const expectedMl = lost.reduce((sum, waste) => sum + waste.expectedMl, 0)
      if (expectedMl < WORTH_TELLING_ML) continue
      const probability = Math.min(1, Math.max(...lost.map((waste) => waste.probability)))
      items.push(lineOf(ofLot, { expectedMl, probability, isExpired: false }))
    }
  }
  const dead = shelf.filter(({ expires_at }) => expires_at <= now)
  for (const ofLot of groupBy(dead, (row) => `${row.shop_id} ${row.lot_id}`).values())
    items.push(lineOf(ofLot, { expectedMl: volumeOf(ofLot), probability: 1, isExpired: true }))

  const total = (isExpired: boolean) =>
    items.reduce((sum, line) => sum + (line.isExpired === isExpired ? (line.expectedCents ?? 0) : 0), 0)
  return {
    currency,
    expectedCents: total(false),
    expiredCents: total(true),
    items: items.toSorted(
      (a, b) => (b.expectedCents ?? 0) - (a.expectedCents ?? 0) || b.expectedMl - a.expectedMl,
    ),
  }

  function lineOf(
    rows: readonly CartridgeRow[],
    waste: Pick<WasteLine, 'expectedMl' | 'probability' | 'isExpired'>,
  ): WasteLine {
    const first = rows[0]!
    const price = supplyOf.get(first.product_id)?.unitPriceCents
    return {
      shopId: first.shop_id,
      lotId: first.lot_id,
      lotNumber: first.lot_number,
      productId: first.product_id,
      productName: first.product_name,
      cartridges: rows.length,
      volumeMl: volumeOf(rows),
      soonestExpiryAt: first.expires_at,
      ...waste,
      expectedCents:
        price === undefined ? null : Math.round((waste.expectedMl / toMl(first.cartridge_ul)) * price),
    }
  }
}

function volumeOf(rows: readonly CartridgeRow[]): number {
  return rows.reduce((sum, { remaining_ul }) => sum + toMl(remaining_ul), 0)
}
