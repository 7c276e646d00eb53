import { message, type Told } from '@clampclock/messages'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { param } from '../../foundation/words/params.ts'
import { toldOf } from '../../foundation/words/kept.ts'
import { ofCartridge, type CartridgeRow } from '../cartridges/cartridge-store.ts'
import { closeQuarantine } from '../cartridges/close-quarantine.ts'
import { post } from '../cartridges/ledger.ts'

interface Coming {
  readonly shopId: string
  readonly locationId: string | null
  /** Arrived as it was sent, or found where nobody expected it. */
  readonly kind: 'arrived' | 'corrected'
  readonly shipmentId?: string
  readonly reason: Told
}

/** A locked cartridge that was away is back on hand, as it went; of a lot that was scrapped meanwhile it is scrap as well. */
export async function comeBack(
  tx: Tx,
  actor: Actor,
  row: CartridgeRow,
  coming: Coming,
  now: Date,
): Promise<void> {
  const { awayState, awayUl } = await tx.cartridge.findUniqueOrThrow({ where: { id: row.id } })
  if (awayState === null || awayUl === null)
    throw wrongState(
      message('stock-problem.onHandAlready', { code: row.code }),
      message('problem.leaveItOutFix'),
    )
  await tx.cartridge.update({
    where: { id: row.id },
    data: { state: awayState, awayState: null, awayUl: null },
  })
  await post(tx, actor, now, [
    {
      ...coming,
      lotId: row.lot_id,
      cartridgeId: row.id,
      sealedChange: awayState === 'sealed' ? 1 : 0,
      openedChange: awayState === 'opened' ? 1 : 0,
      volumeChangeUl: awayUl,
      at: now,
    },
  ])
  const lot = await tx.lot.findUniqueOrThrow({ where: { id: row.lot_id } })
  if (lot.holdKind === 'scrapped')
    await scrap(
      tx,
      actor,
      { ...row, shop_id: coming.shopId, state: awayState as CartridgeRow['state'], remaining_ul: awayUl },
      lot,
      now,
    )
}

async function scrap(
  tx: Tx,
  actor: Actor,
  row: CartridgeRow,
  { holdReason, holdSaid }: { readonly holdReason: string | null; readonly holdSaid: unknown },
  now: Date,
): Promise<void> {
  const reason = message('stock-reason.ofLot', { reason: param(toldOf(holdReason ?? '', holdSaid)) })
  await post(tx, actor, now, [
    {
      ...ofCartridge(row),
      kind: 'discarded',
      sealedChange: row.state === 'sealed' ? -1 : 0,
      openedChange: row.state === 'opened' ? -1 : 0,
      volumeChangeUl: -row.remaining_ul,
      at: now,
      reason,
    },
  ])
  await tx.cartridge.update({ where: { id: row.id }, data: { state: 'discarded' } })
  await closeQuarantine(tx, actor, [row.id], 'discard', reason, now)
}

/** A locked cartridge on hand is nowhere to be found. */
export async function goMissing(
  tx: Tx,
  actor: Actor,
  row: CartridgeRow,
  reason: string,
  now: Date,
): Promise<void> {
  await post(tx, actor, now, [
    {
      ...ofCartridge(row),
      kind: 'corrected',
      sealedChange: row.state === 'sealed' ? -1 : 0,
      openedChange: row.state === 'opened' ? -1 : 0,
      volumeChangeUl: -row.remaining_ul,
      at: now,
      reason,
    },
  ])
  await tx.cartridge.update({
    where: { id: row.id },
    data: { state: 'missing', awayState: row.state, awayUl: row.remaining_ul },
  })
}
