import { Prisma } from '../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import { selectCartridges, type CartridgeRow } from '../stock/cartridge-store.ts'

const DAY_MS = 86_400_000
/** More than any chain has on its shelves; a list without end is no answer. */
const MOST_CARTRIDGES = 200_000

/** All that is on the shelves of these shops, the soonest to die first. Null: every shop of the chain. */
export function onShelves(tx: Tx, shops: readonly string[] | null): Promise<CartridgeRow[]> {
  const inShops = shops ? Prisma.sql`and c.shop_id = any (${[...shops]}::uuid[])` : Prisma.empty
  return selectCartridges(tx, Prisma.sql`c.state in ('sealed', 'opened') ${inShops}`, MOST_CARTRIDGES)
}

/** What counts as stock: in date, not on hold, and a dispenser of its shop takes it. */
export function isStock(row: CartridgeRow, now: Date): boolean {
  return row.hold_reason === null && row.fits && row.expires_at > now
}

/** Whole days in which it can still be used. */
export function usableDays({ expires_at }: CartridgeRow, now: Date): number {
  return Math.max(0, Math.floor((expires_at.getTime() - now.getTime()) / DAY_MS))
}
