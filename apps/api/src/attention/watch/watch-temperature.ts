import { message } from '@clampclock/messages'
import type { Tx } from '../../foundation/database/database.ts'
import { degrees } from '../../foundation/words/params.ts'
import { DISPOSED_AT } from '../../supply/index.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'

type Found = Omit<AttentionNeeded, 'organizationId' | 'openedAt'>

/** A thermometer that has said nothing for so long is broken, or its battery is empty. Common practice, no source. */
export const SILENT_HOURS = 3

export async function silentSensors(tx: Tx, now: Date): Promise<Found[]> {
  const since = new Date(now.getTime() - SILENT_HOURS * 3_600_000)
  const rows = await tx.$queryRaw<
    { id: string; shop_id: string; name: string; zone: string; last: Date | null }[]
  >`
    select s.id, s.shop_id, s.name, shop.time_zone as zone, r.at as last
      from sensor s join shop on shop.id = s.shop_id left join lateral (select at from temperature_reading where sensor_id = s.id order by at desc limit 1) r on true
     where s.retired_at is null and (r.at is null or r.at < ${since}::timestamptz)`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'sensorSilent',
    message: row.last
      ? message('alert.sensorSilent', {
          sensor: row.name,
          at: { instant: row.last.toISOString(), style: 'full', zone: row.zone },
        })
      : message('alert.sensorNeverRead', { sensor: row.name }),
    subjectKind: 'sensor',
    subjectId: row.id,
  }))
}

/** How far back an excursion is told of: older ones have been dealt with, or the cartridges are gone. */
const EXCURSION_DAYS = 7

/** Lots that lay outside their storage range of late: frozen or cooked. */
export async function storageExcursions(tx: Tx, now: Date): Promise<Found[]> {
  const since = new Date(now.getTime() - EXCURSION_DAYS * 86_400_000)
  const rows = await tx.$queryRaw<
    {
      lot_id: string
      shop_id: string
      lot_number: string
      product_name: string
      places: string
      coldest: number
      warmest: number
      low: number
      high: number
      unit: 'C' | 'F'
    }[]
  >`
    -- Readings outside each product's range, and what lay where: both are few, and meet by shelf and product.
    with outside as materialized (
      select s.location_id, p.id as product_id, r.at, r.temperature_c
        from sensor s
        join temperature_reading r on r.sensor_id = s.id and r.at >= ${since}::timestamptz and r.quality <> 'withdrawn'
        join product p on r.temperature_c < p.storage_min_c or r.temperature_c > p.storage_max_c
       where s.location_id is not null),
    lain as materialized (
      select stay.location_id, l.product_id, c.lot_id, c.shop_id, l.lot_number, stay.from_at, stay.until_at,
             ${DISPOSED_AT} as disposed_at
        from cartridge c
        join lot l on l.id = c.lot_id
        join cartridge_stay stay on stay.cartridge_id = c.id and coalesce(stay.until_at, 'infinity') > ${since}::timestamptz
       where c.state in ('sealed', 'opened'))
    select c.lot_id, c.shop_id, c.lot_number, p.name as product_name,
           string_agg(distinct place.name, ', ' order by place.name) as places,
           min(r.temperature_c) as coldest, max(r.temperature_c) as warmest, p.storage_min_c as low, p.storage_max_c as high,
           shop.temperature_unit as unit
      from outside r
      join lain c on c.location_id = r.location_id and c.product_id = r.product_id
       and r.at >= c.from_at and r.at < coalesce(c.until_at, 'infinity') and r.at > c.disposed_at
      join product p on p.id = r.product_id
      join shop on shop.id = c.shop_id
      join storage_location place on place.id = r.location_id
     group by c.lot_id, c.shop_id, c.lot_number, p.name, p.storage_min_c, p.storage_max_c, shop.temperature_unit`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'storageExcursion',
    message: message('alert.storageExcursion', {
      product: row.product_name,
      lot: row.lot_number,
      places: row.places,
      temperature: degrees(row.coldest < row.low ? row.coldest : row.warmest, row.unit),
      low: degrees(row.low, row.unit),
      high: degrees(row.high, row.unit),
    }),
    subjectKind: 'lot',
    subjectId: row.lot_id,
  }))
}
