import { param } from '../../foundation/words/params.ts'
import { message, type Told } from '@clampclock/messages'
import { SOON_DAYS } from '@clampclock/stock'
import { dayIn } from '../../foundation/http/dates.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'

type Found = Omit<AttentionNeeded, 'organizationId' | 'openedAt'>

interface Row {
  shop_id: string
  subject_id: string
  code: string | null
  pieces: bigint
  product_name: string
  lot_number: string
  past_open_life: boolean
  expires_at: Date
  expired: boolean
  time_zone: string
}

/**
 * Cartridges on hand that have died or are about to. Sealed ones are told of once a lot and shop, since one walk to the
 * shelf deals with them all; an opened one has a life of its own.
 */
export async function deadStock(tx: Tx, now: Date): Promise<Found[]> {
  const soon = new Date(now.getTime() + SOON_DAYS * 86_400_000)
  const rows = await tx.$queryRaw<Row[]>`
    select c.shop_id, case c.state when 'opened' then c.id else c.lot_id end as subject_id,
           case c.state when 'opened' then c.code end as code, count(*) as pieces, p.name as product_name, l.lot_number,
           c.expiry_limit = 'openLife' as past_open_life, min(c.expires_at) as expires_at,
           c.expires_at <= ${now}::timestamptz as expired, s.time_zone
      from cartridge c
      join lot l on l.id = c.lot_id
      join product p on p.id = l.product_id
      join shop s on s.id = c.shop_id
     where c.state in ('sealed', 'opened') and c.expires_at <= ${soon}::timestamptz
     group by 1, 2, 3, 5, 6, 7, 9, 10`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: fateOf(row),
    message: message(`alert.${fateOf(row)}`, {
      product: row.product_name,
      lot: row.lot_number,
      what: {
        message:
          row.code === null
            ? message('alert.pieces', { pieces: Number(row.pieces) })
            : message('alert.openedCartridge', { code: row.code }),
      },
      // The last day that counts is the one before the first instant that does not.
      day: { day: dayIn(new Date(row.expires_at.getTime() - 1), row.time_zone) },
    }),
    subjectKind: row.code === null ? 'lot' : 'cartridge',
    subjectId: row.subject_id,
  }))
}

function fateOf({ expired, past_open_life }: Row): 'expiresSoon' | 'openedPastOpenLife' | 'expiredOnShelf' {
  if (!expired) return 'expiresSoon'
  return past_open_life ? 'openedPastOpenLife' : 'expiredOnShelf'
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
    message: message('alert.noDispenserFits', {
      product: row.product_name,
      lot: row.lot_number,
      form: row.cartridge_form,
      pieces: Number(row.pieces),
    }),
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
      hold_reason: Told
      pieces: number
    }[]
  >`
    select h.lot_id, h.shop_id, l.lot_number, p.name as product_name, coalesce(l.hold_said, to_jsonb(l.hold_reason)) as hold_reason, h.sealed + h.opened as pieces
      from stock_on_hand h join lot l on l.id = h.lot_id join product p on p.id = l.product_id
     where l.hold_reason is not null and h.sealed + h.opened > 0`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'lotOnHold',
    message: message('alert.lotOnHold', {
      product: row.product_name,
      lot: row.lot_number,
      pieces: row.pieces,
      reason: param(row.hold_reason),
    }),
    subjectKind: 'lot',
    subjectId: row.lot_id,
  }))
}

/** Counts whose differences nobody has booked yet. */
export async function unsettledCounts(tx: Tx): Promise<Found[]> {
  const rows = await tx.$queryRaw<
    {
      count_id: string
      shop_id: string
      place: string | null
      not_found: bigint
      unexpected: bigint
      by: string
    }[]
  >`
    select d.count_id, k.shop_id, place.name as place, k.finished_by as by,
           count(*) filter (where d.kind = 'notFound') as not_found, count(*) filter (where d.kind <> 'notFound') as unexpected
      from stock_count_difference d join stock_count k on k.id = d.count_id
      left join storage_location place on place.id = k.location_id
     where d.settled_at is null
     group by d.count_id, k.shop_id, place.name, k.finished_by`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'countDiffers',
    message: message('alert.countDiffers', {
      place: row.place ?? { message: message('alert.withoutPlace') },
      by: row.by,
      notFound: Number(row.not_found),
      unexpected: Number(row.unexpected),
    }),
    subjectKind: 'count',
    subjectId: row.count_id,
  }))
}
