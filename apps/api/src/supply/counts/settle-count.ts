import { message } from '@clampclock/messages'
import type { BodyOf, CartridgeState, countRoutes, StockCount } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, wrongState } from '../../foundation/problems/problem-error.ts'
import { comeBack, goMissing } from '../shipments/away.ts'
import { lockedCartridges, type CartridgeRow } from '../cartridges/cartridge-store.ts'
import { countById } from './count-store.ts'
import { lockedCount } from './counts.ts'
import { post } from '../cartridges/ledger.ts'
import { refreshExpiry } from '../lots/storage-life.ts'

type Settlement = 'booked' | 'changedSince' | 'nothingToBook'

/** The states in which each kind of difference can still be booked. */
const STANDS_WHILE: Readonly<Record<string, readonly CartridgeState[]>> = {
  notFound: ['sealed', 'opened'],
  otherShop: ['sealed', 'opened'],
  otherShelf: ['sealed', 'opened'],
  missing: ['missing'],
  inTransit: ['inTransit'],
  gone: ['empty', 'discarded'],
}

interface Shelf {
  readonly shopId: string
  readonly locationId: string | null
  readonly finishedAt: Date
}

/** Books open differences, each once: what was seen is put where it was seen, what was not is missing. */
export async function settleCount(
  tx: Tx,
  actor: Actor,
  countId: string,
  { cartridgeIds, reason }: BodyOf<typeof countRoutes.settleStockCount>,
  now: Date,
): Promise<StockCount> {
  const count = await lockedCount(tx, actor, countId, 'handleStock')
  if (!count.finished_at)
    throw wrongState(message('stock-problem.countNotFinished'), message('stock-problem.finishFirstFix'))
  const shelf = { shopId: count.shop_id, locationId: count.location_id, finishedAt: count.finished_at }
  const all = await tx.stockCountDifference.findMany({ where: { countId } })
  const stranger = cartridgeIds?.find((id) => all.every(({ cartridgeId }) => cartridgeId !== id))
  if (stranger)
    throw invalidField('body.cartridgeIds', message('stock-problem.noDifferenceAbout', { id: stranger }))
  const open = all.filter(
    ({ settledAt, cartridgeId }) => settledAt === null && (cartridgeIds?.includes(cartridgeId) ?? true),
  )
  if (open.length === 0) return countById(tx, actor, countId)
  const rows = await lockedCartridges(
    tx,
    open.map(({ cartridgeId }) => cartridgeId),
  )
  for (const row of rows) {
    const { kind } = open.find(({ cartridgeId }) => cartridgeId === row.id)!
    const settlement = (await changedSince(tx, row, shelf.finishedAt))
      ? 'changedSince'
      : await book(tx, actor, shelf, row, kind, `Count: ${reason}`, now)
    await tx.stockCountDifference.update({
      where: { countId_cartridgeId: { countId, cartridgeId: row.id } },
      data: { settledAt: now, settledBy: actor.name, settlement },
    })
  }
  await refreshExpiry(
    tx,
    rows.map(({ id }) => id),
  )
  return countById(tx, actor, countId)
}

async function book(
  tx: Tx,
  actor: Actor,
  shelf: Shelf,
  row: CartridgeRow,
  kind: string,
  reason: string,
  now: Date,
): Promise<Settlement> {
  const { shopId, locationId } = shelf
  if (!STANDS_WHILE[kind]?.includes(row.state)) return 'changedSince'
  switch (kind) {
    case 'notFound':
      await goMissing(tx, actor, row, reason, now)
      return 'booked'
    case 'otherShop':
      // It leaves the other shop's count as missing and is found here, so that both ledgers say why.
      requireIn(actor, 'handleStock', row.shop_id)
      await goMissing(tx, actor, row, reason, now)
      await comeBack(tx, actor, row, { shopId, locationId, kind: 'corrected', reason }, now)
      return 'booked'
    case 'missing':
      await comeBack(tx, actor, row, { shopId, locationId, kind: 'corrected', reason }, now)
      return 'booked'
    case 'inTransit':
      await arrive(tx, actor, shelf, row, reason, now)
      return 'booked'
    case 'otherShelf':
      await post(tx, actor, now, [
        {
          shopId,
          lotId: row.lot_id,
          cartridgeId: row.id,
          kind: 'moved',
          locationId,
          sealedChange: 0,
          openedChange: 0,
          volumeChangeUl: 0,
          at: now,
          reason,
        },
      ])
      return 'booked'
    default:
      // Empty or discarded on file, and still on the shelf: it is rubbish, not stock.
      return 'nothingToBook'
  }
}

async function arrive(
  tx: Tx,
  actor: Actor,
  { shopId, locationId }: Shelf,
  row: CartridgeRow,
  reason: string,
  now: Date,
): Promise<void> {
  const line = await tx.shipmentLine.findFirstOrThrow({ where: { cartridgeId: row.id, outcome: null } })
  const { shipmentId } = line
  await comeBack(tx, actor, row, { shopId, locationId, kind: 'arrived', shipmentId, reason }, now)
  await tx.shipmentLine.update({
    where: { shipmentId_cartridgeId: { shipmentId, cartridgeId: row.id } },
    data: { outcome: 'arrived', settledAt: now, settledBy: actor.name },
  })
}

async function changedSince(tx: Tx, row: CartridgeRow, finishedAt: Date): Promise<boolean> {
  const movement = await tx.stockMovement.findFirst({
    where: { cartridgeId: row.id, recordedAt: { gt: finishedAt } },
    select: { id: true },
  })
  return movement !== null
}
