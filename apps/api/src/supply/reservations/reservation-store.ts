import { message } from '@clampclock/messages'
import type { QueryOf, Reservation, reservationRoutes } from '@clampclock/contracts'
import { visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toMl } from '../../foundation/database/volumes.ts'

/** Who keeps adhesive for a joint when nobody did: kept as a name beside those of people. */
export const THE_PLAN = 'The plan'

export const WHOLE_RESERVATION = {
  joint: { include: { repairOrder: true } },
  cartridge: { include: { lot: { include: { product: true } } } },
} satisfies Prisma.ReservationInclude
export type ReservationRow = Prisma.ReservationGetPayload<{ include: typeof WHOLE_RESERVATION }>

export function openReservations(tx: Tx, where: Prisma.ReservationWhereInput): Promise<ReservationRow[]> {
  return tx.reservation.findMany({
    where: { ...where, endedAt: null },
    include: WHOLE_RESERVATION,
    orderBy: [{ neededAt: 'asc' }, { id: 'asc' }],
  })
}

export async function listReservations(
  tx: Tx,
  actor: Actor,
  { shopId, jointId, cartridgeId }: QueryOf<typeof reservationRoutes.listReservations>,
): Promise<Reservation[]> {
  const shops = visibleShops(actor, shopId)
  const rows = await openReservations(tx, {
    ...(shops ? { shopId: shops } : {}),
    ...(jointId ? { jointId } : {}),
    ...(cartridgeId ? { cartridgeId } : {}),
  })
  return rows.map(toReservation)
}

export function toReservation(row: ReservationRow): Reservation {
  const { joint, cartridge } = row
  return {
    id: row.id,
    shopId: row.shopId,
    jointId: row.jointId,
    jointName: joint.name,
    repairOrderId: joint.repairOrderId,
    repairOrderNumber: joint.repairOrder.number,
    cartridgeId: row.cartridgeId,
    code: cartridge.code,
    productName: cartridge.lot.product.name,
    lotNumber: cartridge.lot.lotNumber,
    amountMl: toMl(row.amountUl),
    neededAt: row.neededAt,
    madeAt: row.madeAt,
    madeBy: row.madeBy === THE_PLAN ? message('stock-reason.thePlan') : row.madeBy,
  }
}
