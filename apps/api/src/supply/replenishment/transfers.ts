import { message, type Message } from '@clampclock/messages'
import type { TransferPlan } from '@clampclock/contracts'
import { meanPerDayMl, type Transfer, type TransferProblem } from '@clampclock/stock'
import { shopsWith, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { CartridgeRow } from '../cartridges/cartridge-store.ts'
import { toMl } from '../../foundation/database/volumes.ts'
import { demands } from './demand.ts'
import { listLanes, policyOf } from './policy.ts'
import { groupBy, isStock, onShelves, usableDays } from './shelf.ts'
import { LIMITS, solveTransfers } from './solve-transfers.ts'
import { supplies } from './suppliers.ts'

/** Read in one transaction; the solving comes after it, so that nobody waits for a place in the database meanwhile. */
export interface TransferQuestion {
  readonly currency: string
  readonly problem: TransferProblem
  readonly pieces: ReadonlyMap<string, readonly CartridgeRow[]>
  readonly notes: readonly Message[]
}

/** Over the shops in which the actor handles stock: it shows what lies there, and proposes to move it. */
export async function transferQuestion(tx: Tx, actor: Actor, now: Date): Promise<TransferQuestion> {
  const handled = shopsWith(actor, 'handleStock')
  const shops = handled === 'all' ? null : [...handled]
  const isHandled = (shopId: string) => handled === 'all' || handled.has(shopId)
  const { currency, packingCents } = await policyOf(tx, actor.organization.id)
  const supplyOf = await supplies(tx)
  const lanes = (await listLanes(tx)).filter(
    ({ fromShopId, toShopId }) => isHandled(fromShopId) && isHandled(toShopId),
  )
  const shelf = (await onShelves(tx, shops)).filter((row) => isStock(row, now))
  const guns = await takersOf(tx)
  const notes: Message[] = []
  if (lanes.length === 0) notes.push(message('order.noLane'))
  const unpriced = new Set(
    shelf.filter(({ product_id }) => !supplyOf.has(product_id)).map((row) => row.product_name),
  )
  if (unpriced.size > 0)
    notes.push(message('order.withoutPrice', { products: { list: [...unpriced].toSorted(), join: 'plain' } }))

  const promised = new Set(
    (await tx.reservation.findMany({ where: { endedAt: null }, select: { cartridgeId: true } })).map(
      ({ cartridgeId }) => cartridgeId,
    ),
  )
  const maySend = ({ id, state }: CartridgeRow) => state === 'sealed' && !promised.has(id)
  // What dies on the same day, in the same shop, of the same lot, is one heap; what is opened or kept for a joint stays.
  const pieces = groupBy(
    shelf.filter(({ product_id }) => supplyOf.has(product_id)),
    (row) => `${row.lot_id} ${row.shop_id} ${maySend(row) ? usableDays(row, now) : row.id}`,
  )
  const lots = [...pieces].map(([id, rows]) => {
    const first = rows[0]!
    const volumeMl = toMl(first.remaining_ul)
    const price = supplyOf.get(first.product_id)!.unitPriceCents
    return {
      id,
      shopId: first.shop_id,
      productId: first.product_id,
      cartridges: rows.length,
      volumeMl,
      usableDays: usableDays(first, now),
      valueEach: (price * volumeMl) / toMl(first.cartridge_ul),
      maySend: maySend(first),
    }
  })
  const formOf = new Map(shelf.map((row) => [row.product_id, row.cartridge_form]))
  const use = [...(await demands(tx, shops, now))].flatMap(([key, demand]) => {
    const [shopId = '', productId = ''] = key.split(' ')
    const form = formOf.get(productId)
    // What no gun of a shop takes is not used there, whatever it was used for once.
    if (form === undefined || !guns.get(shopId)?.has(form)) return []
    return [
      { shopId, productId, perDayMl: demand.daily ? meanPerDayMl(demand.daily) : 0, booked: demand.booked },
    ]
  })
  const problem = {
    lots,
    use,
    lanes: lanes.map(({ tripCents, ...lane }) => ({ ...lane, tripCost: tripCents, costEach: packingCents })),
  }
  return { currency, problem, pieces, notes }
}

export async function answerTransfers(question: TransferQuestion): Promise<TransferPlan> {
  const { currency, problem, pieces, notes } = question
  const plan = await solveTransfers(problem)
  const taken = new Map<string, number>()
  const transfers = plan.transfers.map((transfer) => describe(transfer, pieces, taken))
  return {
    currency,
    transfers,
    wasteWithoutCents: Math.round(plan.wasteWithout),
    wasteWithCents: Math.round(plan.wasteWith),
    transferCostCents: Math.round(plan.transferCost),
    savedCents: Math.round(plan.wasteWithout - plan.wasteWith - plan.transferCost),
    isOptimal: plan.isOptimal,
    gap: LIMITS.gap,
    notes: [...notes],
  }
}

/** Names the cartridges; of one heap that goes two ways each goes once. */
function describe(
  { lotId: heap, fromShopId, toShopId, cartridges }: Transfer,
  pieces: TransferQuestion['pieces'],
  taken: Map<string, number>,
): TransferPlan['transfers'][number] {
  const rows = pieces.get(heap)!
  const from = taken.get(heap) ?? 0
  taken.set(heap, from + cartridges)
  return {
    fromShopId,
    toShopId,
    lotId: rows[0]!.lot_id,
    lotNumber: rows[0]!.lot_number,
    productName: rows[0]!.product_name,
    cartridges,
    codes: rows.slice(from, from + cartridges).map(({ code }) => code),
  }
}

/** The cartridge forms that the guns of each shop take. */
async function takersOf(tx: Tx): Promise<Map<string, Set<string>>> {
  const takers = new Map<string, Set<string>>()
  for (const { shopId, cartridgeForms } of await tx.dispenser.findMany({ where: { active: true } })) {
    const forms = takers.get(shopId) ?? new Set()
    for (const form of cartridgeForms) forms.add(form)
    takers.set(shopId, forms)
  }
  return takers
}
