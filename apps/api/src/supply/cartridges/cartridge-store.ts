import type { Told } from '@clampclock/messages'
import { expirySentence } from './expiry-sentence.ts'
import type { Cartridge, CartridgeState } from '@clampclock/contracts'
import { effectiveExpiry, urgency } from '@clampclock/stock'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { toMl } from '../../foundation/database/volumes.ts'

/** A cartridge with all that decides whether it may be used. */
export interface CartridgeRow {
  id: string
  code: string
  shop_id: string
  time_zone: string
  lot_id: string
  lot_number: string
  product_id: string
  product_name: string
  cartridge_form: string
  cartridge_ul: number
  location_id: string | null
  location_name: string | null
  state: CartridgeState
  remaining_ul: number
  away_ul: number | null
  printed_expiry: Date
  open_life_days: number
  opened_at: Date | null
  received_at: Date
  warm_loss_ms: number
  expires_at: Date
  hold_reason: Told | null
  hold_since: Date | null
  quarantine_reason: Told | null
  quarantine_since: Date | null
  fits: boolean
}

const ROWS = Prisma.sql`
  select c.id, c.code, c.shop_id, s.time_zone, c.lot_id, l.lot_number, l.product_id, p.name as product_name,
         p.cartridge_form, p.cartridge_ul, c.location_id, place.name as location_name, c.state, c.remaining_ul, c.away_ul,
         l.printed_expiry, p.open_life_days, c.opened_at, c.received_at, c.warm_loss_ms, c.expires_at,
         coalesce(l.hold_said, to_jsonb(l.hold_reason)) as hold_reason, l.hold_since,
         coalesce(q.said, to_jsonb(q.reason)) as quarantine_reason, q.since as quarantine_since,
         exists (select from dispenser d where d.shop_id = c.shop_id and d.active and p.cartridge_form = any (d.cartridge_forms)) as fits
    from cartridge c
    join shop s on s.id = c.shop_id
    join lot l on l.id = c.lot_id
    join product p on p.id = l.product_id
    left join storage_location place on place.id = c.location_id
    left join cartridge_quarantine q on q.cartridge_id = c.id and q.decided_at is null`

export function selectCartridges(tx: Tx, where: Prisma.Sql, limit: number): Promise<CartridgeRow[]> {
  return tx.$queryRaw<CartridgeRow[]>`${ROWS} where ${where} order by c.expires_at, c.id limit ${limit}`
}

export async function cartridgeRow(tx: Tx, id: string): Promise<CartridgeRow> {
  const [row] = await selectCartridges(tx, Prisma.sql`c.id = ${id}::uuid`, 1)
  if (!row) throw notFound('cartridge', id)
  return row
}

/** As `cartridgeRow`, with the cartridge locked: whoever else wants to change it waits, and then sees what we did. */
export async function lockedCartridge(tx: Tx, id: string): Promise<CartridgeRow> {
  await tx.$queryRaw`select 1 from cartridge where id = ${id}::uuid for no key update`
  return cartridgeRow(tx, id)
}

/**
 * Several at once, locked in one order for everybody, so that two people with the same heap cannot wait for each other.
 * They come by lot, in which order their movements then lock the totals.
 */
export async function lockedCartridges(tx: Tx, ids: readonly string[]): Promise<CartridgeRow[]> {
  await tx.$queryRaw`select 1 from cartridge where id = any (${ids}::uuid[]) order by id for no key update`
  const rows = await selectCartridges(tx, Prisma.sql`c.id = any (${ids}::uuid[])`, ids.length)
  const missing = ids.find((id) => rows.every((row) => row.id !== id))
  if (missing !== undefined) throw notFound('cartridge', missing)
  return rows.toSorted((a, b) => (`${a.lot_id} ${a.id}` < `${b.lot_id} ${b.id}` ? -1 : 1))
}

/** Of which cartridge a movement is, and where it is on hand. */
export function ofCartridge(row: CartridgeRow) {
  return { shopId: row.shop_id, lotId: row.lot_id, cartridgeId: row.id }
}

export function expiryOf(row: CartridgeRow, openedAt: Date | null = row.opened_at) {
  const life = {
    printedExpiry: isoDate(row.printed_expiry),
    timeZone: row.time_zone,
    openedAtMs: openedAt?.getTime() ?? null,
    openLifeDays: row.open_life_days,
    warmStorageLossMs: row.warm_loss_ms,
  }
  const expiry = effectiveExpiry(life)
  return { ...expiry, says: expirySentence(life, expiry.limit) }
}

export function toCartridge(row: CartridgeRow, now: Date): Cartridge {
  const expiry = expiryOf(row)
  return {
    id: row.id,
    code: row.code,
    shopId: row.shop_id,
    lotId: row.lot_id,
    lotNumber: row.lot_number,
    productId: row.product_id,
    productName: row.product_name,
    cartridgeForm: row.cartridge_form,
    locationId: row.location_id,
    locationName: row.location_name,
    state: row.state,
    remainingMl: toMl(row.remaining_ul + (row.away_ul ?? 0)),
    printedExpiry: isoDate(row.printed_expiry),
    openedAt: row.opened_at,
    receivedAt: row.received_at,
    effectiveExpiryAt: new Date(expiry.atMs),
    expiryLimit: expiry.limit,
    expiryReason: expiry.says,
    urgency: urgency(expiry.atMs, now.getTime()),
    hold:
      row.hold_reason !== null && row.hold_since !== null
        ? { reason: row.hold_reason, since: row.hold_since }
        : null,
    quarantine:
      row.quarantine_reason !== null && row.quarantine_since !== null
        ? { reason: row.quarantine_reason, since: row.quarantine_since }
        : null,
    fitsDispenser: row.fits,
  }
}
