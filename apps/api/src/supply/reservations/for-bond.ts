import { param } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { ProblemReason } from '@clampclock/contracts'
import { wholeMl } from '@clampclock/quantities'
import type { Tx } from '../../foundation/database/database.ts'
import type { CartridgeRow } from '../cartridges/cartridge-store.ts'
import { toMl, toUl } from '../../foundation/database/volumes.ts'
import { openReservations, toReservation } from './reservation-store.ts'
import { endReservations, type By } from './reserve.ts'

/** What is kept for another joint may be taken only by somebody who takes responsibility for that one. */
export async function reservedReasons(
  tx: Tx,
  jointId: string,
  taken: readonly { readonly row: CartridgeRow; readonly amountMl: number }[],
): Promise<ProblemReason[]> {
  const open = await openReservations(tx, { cartridgeId: { in: taken.map(({ row }) => row.id) } })
  return taken.flatMap(({ row, amountMl }) => {
    const here = open.filter(({ cartridgeId }) => cartridgeId === row.id)
    const kept = here.filter((each) => each.jointId !== jointId)
    const ownUl = here
      .filter((each) => each.jointId === jointId)
      .reduce((sum, each) => sum + each.amountUl, 0)
    // What is kept for this very joint is its own, written in whole mL as people do.
    if (ownUl > 0 && amountMl <= wholeMl(toMl(ownUl))) return []
    const keptUl = kept.reduce((sum, { amountUl }) => sum + amountUl, 0)
    const [first] = kept
    if (!first || row.remaining_ul - keptUl >= toUl(amountMl)) return []
    const { repairOrderNumber, jointName, madeBy } = toReservation(first)
    return [
      {
        code: 'reserved',
        field: 'body.cartridgeId',
        message: message('stock-problem.reservedFor', {
          amount: { millilitres: toMl(keptUl) },
          code: row.code,
          order: repairOrderNumber,
          joint: jointName,
          by: param(madeBy),
        }),
        fix: message('stock-problem.askWhoKeepsFix'),
        overridable: true,
      },
    ]
  })
}

/** The joint is bonded: what was kept for it is used, or free again. */
export async function endForBond(
  tx: Tx,
  by: By,
  jointId: string,
  usedIds: readonly string[],
  at: Date,
): Promise<void> {
  const open = await openReservations(tx, { jointId })
  const isUsed = ({ cartridgeId }: { cartridgeId: string }) => usedIds.includes(cartridgeId)
  await endReservations(tx, by, open.filter(isUsed), {
    kind: 'used',
    reason: message('reason.bondedWithIt'),
    at,
  })
  await endReservations(
    tx,
    by,
    open.filter((each) => !isUsed(each)),
    { kind: 'released', reason: message('reason.bondedWithAnother'), at },
  )
}
