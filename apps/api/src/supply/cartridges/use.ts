import { message, type Told } from '@clampclock/messages'
import type { BodyOf, Cartridge, stockRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import {
  cartridgeRow,
  lockedCartridge,
  ofCartridge,
  toCartridge,
  type CartridgeRow,
} from './cartridge-store.ts'
import { post } from './ledger.ts'

/** Takes adhesive out of a locked, opened cartridge; what is emptied by it is booked as empty. */
export async function useLocked(
  tx: Tx,
  actor: Actor,
  row: CartridgeRow,
  use: { amountUl: number; at: Date; now: Date; reason: Told; bondId?: string },
): Promise<void> {
  const { amountUl, at, now, reason, bondId } = use
  const taken = {
    ...ofCartridge(row),
    ...(bondId === undefined ? {} : { bondId }),
    sealedChange: 0,
    at,
  }
  await post(tx, actor, now, [{ ...taken, kind: 'used', openedChange: 0, volumeChangeUl: -amountUl, reason }])
  if (amountUl < row.remaining_ul) return
  await tx.cartridge.update({ where: { id: row.id }, data: { state: 'empty' } })
  await post(tx, actor, now, [
    {
      ...taken,
      kind: 'emptied',
      openedChange: -1,
      volumeChangeUl: 0,
      reason: message('stock-reason.usedUp'),
    },
  ])
}

export async function changeNozzle(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof stockRoutes.changeNozzle>,
  now: Date,
): Promise<Cartridge> {
  const row = await lockedCartridge(tx, id)
  requireIn(actor, 'useStock', row.shop_id)
  if (row.state !== 'opened')
    throw wrongState(
      message('stock-problem.onlyOpenedNozzle', { code: row.code, state: row.state }),
      row.state === 'sealed'
        ? message('stock-problem.openFirstFix')
        : message('stock-problem.takeAnotherFix'),
    )
  const { nozzleHoldUpUl } = await tx.product.findUniqueOrThrow({ where: { id: row.product_id } })
  if (nozzleHoldUpUl === 0)
    throw wrongState(message('stock-problem.nozzleHoldsNothing'), message('stock-problem.correctProductFix'))
  const amountUl = Math.min(nozzleHoldUpUl, row.remaining_ul)
  await useLocked(tx, actor, row, {
    amountUl,
    at: now,
    now,
    reason: body.reason || message('stock-reason.nozzleChanged'),
  })
  return toCartridge(await cartridgeRow(tx, id), now)
}
