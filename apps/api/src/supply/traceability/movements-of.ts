import type { TracedHold, TracedLot, TracedMovement } from '@clampclock/stock'
import { visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { toMl } from '../../foundation/database/volumes.ts'

const whole = {
  shop: { select: { name: true, timeZone: true } },
  cartridge: { select: { id: true, code: true } },
  bond: { select: { attempt: true, joint: { select: { id: true, name: true, repairOrder: true } } } },
  shipment: true,
  location: { select: { name: true } },
  lot: { include: { product: { include: { productGtins: true } } } },
} satisfies Prisma.StockMovementInclude
export type MovementRow = Prisma.StockMovementGetPayload<{ include: typeof whole }>
type LotRow = MovementRow['lot']

/** The ledger's movements, oldest first, in the shops that the actor may see. */
export function movementsOf(
  tx: Tx,
  actor: Actor,
  where: Prisma.StockMovementWhereInput,
): Promise<MovementRow[]> {
  const shops = visibleShops(actor)
  return tx.stockMovement.findMany({
    where: { ...where, ...(shops ? { shopId: shops } : {}) },
    include: whole,
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  })
}

export function traced(row: MovementRow): TracedMovement {
  const { shop, cartridge, bond, shipment, lot } = row
  return {
    id: String(row.id),
    kind: row.kind as TracedMovement['kind'],
    atMs: row.at.getTime(),
    timeZone: shop.timeZone,
    cartridge,
    pieces: row.sealedChange + row.openedChange,
    volumeChangeMl: toMl(row.volumeChangeUl),
    shopId: row.shopId,
    locationId: row.locationId,
    recordedBy: row.recordedBy,
    reason: row.reason,
    joint: bond && { id: bond.joint.id, repairOrderId: bond.joint.repairOrder.id },
    shipment,
    lot: tracedLot(lot),
  }
}

export async function holdsOf(tx: Tx, lotId: string, timeZone: string): Promise<TracedHold[]> {
  const lot = await tx.lot.findUniqueOrThrow({ where: { id: lotId }, include: whole.lot.include })
  const events = await tx.lotHoldEvent.findMany({ where: { lotId }, orderBy: { at: 'asc' } })
  return events.map((event) => ({
    id: event.id,
    kind: event.kind as TracedHold['kind'],
    atMs: event.at.getTime(),
    timeZone,
    recordedBy: event.recordedBy,
    reason: event.reason,
    lot: tracedLot(lot),
  }))
}

function tracedLot({ id, lotNumber, printedExpiry, product }: LotRow): TracedLot {
  // A carton's number stands for the carton: only a single cartridge's names the product itself.
  const single = product.productGtins.find(({ cartridges }) => cartridges === 1)
  return {
    id,
    lotNumber,
    gtin: single?.gtin ?? null,
    printedExpiry: isoDate(printedExpiry),
  }
}
