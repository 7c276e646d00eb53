import type { Perishable } from '@clampclock/stock'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { selectCartridges, type CartridgeRow } from '../cartridges/cartridge-store.ts'
import { toMl } from '../../foundation/database/volumes.ts'

const DAY_MS = 86_400_000
/** More than any chain has on its shelves; a list without end is no answer. */
const MOST_CARTRIDGES = 200_000

/** All that is on the shelves of these shops, the soonest to die first. Null: every shop of the chain. */
export function onShelves(tx: Tx, shops: readonly string[] | null): Promise<CartridgeRow[]> {
  const inShops = shops ? Prisma.sql`and c.shop_id = any (${[...shops]}::uuid[])` : Prisma.empty
  return selectCartridges(tx, Prisma.sql`c.state in ('sealed', 'opened') ${inShops}`, MOST_CARTRIDGES)
}

/** What counts as stock: in date, not on hold or quarantined, and a dispenser of its shop takes it. */
export function isStock(row: CartridgeRow, now: Date): boolean {
  return row.hold_reason === null && row.quarantine_reason === null && row.fits && row.expires_at > now
}

/** Whole days in which it can still be used. */
export function usableDays({ expires_at }: CartridgeRow, now: Date): number {
  return Math.max(0, Math.floor((expires_at.getTime() - now.getTime()) / DAY_MS))
}

export function toPerishable(row: CartridgeRow, now: Date): Perishable {
  return { id: row.id, volumeMl: toMl(row.remaining_ul), usableDays: usableDays(row, now) }
}

export function groupBy<Row>(rows: readonly Row[], keyOf: (row: Row) => string): Map<string, Row[]> {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const key = keyOf(row)
    const group = groups.get(key)
    if (group) group.push(row)
    else groups.set(key, [row])
  }
  return groups
}
