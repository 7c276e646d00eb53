import { SOON_DAYS } from '@clampclock/stock'
import type { Tx } from '../database/database.ts'
import type { NewAlert } from './raise.ts'

type Found = Omit<NewAlert, 'organizationId' | 'openedAt'>

interface Row {
  id: string
  shop_id: string
  code: string
  product_name: string
  lot_number: string
  state: string
  past_open_life: boolean
  expires_at: Date
  expired: boolean
}

/** Cartridges on hand that have died or are about to, one alert each. */
export async function deadStock(tx: Tx, now: Date): Promise<Found[]> {
  const soon = new Date(now.getTime() + SOON_DAYS * 86_400_000)
  const rows = await tx.$queryRaw<Row[]>`
    select c.id, c.shop_id, c.code, p.name as product_name, l.lot_number, c.state, c.expires_at,
           c.expires_at <= ${now}::timestamptz as expired,
           c.expiry_limit = 'openLife' as past_open_life
      from cartridge c join lot l on l.id = c.lot_id join product p on p.id = l.product_id
     where c.state in ('sealed', 'opened') and c.expires_at <= ${soon}::timestamptz`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: row.expired ? (row.past_open_life ? 'openedPastOpenLife' : 'expiredOnShelf') : 'expiresSoon',
    message: `${row.product_name}, lot ${row.lot_number}, ${row.code}: ${sentence(row)}`,
    subjectKind: 'cartridge',
    subjectId: row.id,
  }))
}

function sentence(row: Row): string {
  const day = row.expires_at.toISOString().slice(0, 10)
  if (!row.expired) return `counts until ${day}`
  return row.past_open_life
    ? `opened too long ago, past its open life since ${day}`
    : `expired since ${day}, still on the shelf`
}

/** Stock that no gun of its shop takes: one alert a lot and shop. */
export async function unfitStock(tx: Tx): Promise<Found[]> {
  const rows = await tx.$queryRaw<
    {
      lot_id: string
      shop_id: string
      lot_number: string
      product_name: string
      cartridge_form: string
      pieces: bigint
    }[]
  >`
    select c.lot_id, c.shop_id, l.lot_number, p.name as product_name, p.cartridge_form, count(*) as pieces
      from cartridge c join lot l on l.id = c.lot_id join product p on p.id = l.product_id
     where c.state in ('sealed', 'opened')
       and not exists (select from dispenser d where d.shop_id = c.shop_id and d.active and p.cartridge_form = any (d.cartridge_forms))
     group by c.lot_id, c.shop_id, l.lot_number, p.name, p.cartridge_form`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'noDispenserFits',
    message: `${row.product_name}, lot ${row.lot_number}: no dispenser here takes a ${row.cartridge_form} cartridge (${row.pieces} on hand)`,
    subjectKind: 'lot',
    subjectId: row.lot_id,
  }))
}

export async function heldStock(tx: Tx): Promise<Found[]> {
  const rows = await tx.$queryRaw<
    {
      lot_id: string
      shop_id: string
      lot_number: string
      product_name: string
      hold_reason: string
      pieces: number
    }[]
  >`
    select h.lot_id, h.shop_id, l.lot_number, p.name as product_name, l.hold_reason, h.sealed + h.opened as pieces
      from stock_on_hand h join lot l on l.id = h.lot_id join product p on p.id = l.product_id
     where l.hold_reason is not null and h.sealed + h.opened > 0`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'lotOnHold',
    message: `${row.product_name}, lot ${row.lot_number}: on hold, ${row.pieces} on hand. ${row.hold_reason}`,
    subjectKind: 'lot',
    subjectId: row.lot_id,
  }))
}
