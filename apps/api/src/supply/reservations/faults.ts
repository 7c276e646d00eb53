import { message, type Message } from '@clampclock/messages'
import { usabilityFaults } from '@clampclock/stock'
import type { Tx } from '../../foundation/database/database.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import { expiryOf, selectCartridges, type CartridgeRow } from '../cartridges/cartridge-store.ts'
import { faultSentence, usability } from '../cartridges/cartridges.ts'
import { toMl } from '../../foundation/database/volumes.ts'
import type { ReservationRow } from './reservation-store.ts'

/** A reservation, and when it is needed as the plan stands now. */
export interface Kept {
  readonly each: ReservationRow
  readonly neededAt: Date
}

/** Of one cartridge, to those who need it before. */
interface Promised {
  readonly openedAt: Date
  readonly ul: number
}

/**
 * Why a reservation will not do, by its id. Who needs a cartridge first opens it, and what it holds goes to them in the
 * order in which they need it; one that is given up takes nothing.
 */
export async function faultsOf(tx: Tx, kept: readonly Kept[]): Promise<ReadonlyMap<string, Message>> {
  const rows = await selectCartridges(
    tx,
    Prisma.sql`c.id = any (${kept.map(({ each }) => each.cartridgeId)}::uuid[])`,
    Math.max(1, kept.length),
  )
  const byId = new Map(rows.map((row) => [row.id, row]))
  const faults = new Map<string, Message>()
  const promises = new Map<string, Promised>()
  const inOrder = kept.toSorted(
    (a, b) => a.neededAt.getTime() - b.neededAt.getTime() || (a.each.id < b.each.id ? -1 : 1),
  )
  for (const { each, neededAt } of inOrder) {
    const row = byId.get(each.cartridgeId)!
    const before = promises.get(row.id) ?? { openedAt: row.opened_at ?? neededAt, ul: 0 }
    const fault = faultOf(each, row, neededAt, before)
    if (fault) faults.set(each.id, fault)
    else promises.set(row.id, { ...before, ul: before.ul + each.amountUl })
  }
  return faults
}

function faultOf(
  each: ReservationRow,
  row: CartridgeRow,
  neededAt: Date,
  before: Promised,
): Message | undefined {
  if (row.shop_id !== each.shopId) return message('cartridge.anotherShop', { code: row.code })
  const expiry = expiryOf(row, before.openedAt)
  const [fault] = usabilityFaults({
    ...usability(row),
    effectiveExpiryMs: expiry.atMs,
    expiryReason: expiry.says,
    remainingMl: toMl(row.remaining_ul - before.ul),
    neededMl: toMl(each.amountUl),
    atMs: neededAt.getTime(),
  })
  if (!fault) return undefined
  if (fault.kind !== 'tooLittle' || before.ul === 0) return faultSentence(fault, row)
  return message('cartridge.promised', {
    code: row.code,
    holds: { millilitres: toMl(row.remaining_ul) },
    promised: { millilitres: toMl(before.ul) },
    needed: { millilitres: toMl(each.amountUl) },
  })
}
