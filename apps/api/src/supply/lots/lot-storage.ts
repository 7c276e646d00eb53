import { toldOf } from '../../foundation/words/kept.ts'
import { holder } from './holder.ts'
import type { LotStorage } from '@clampclock/contracts'
import { combinedMeanKineticC, meanKineticTemperatureC, type StorageReading } from '@clampclock/stock'
import { shopsWith, type Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { expiryOf, selectCartridges } from '../cartridges/cartridge-store.ts'
import { requireLot } from './lots.ts'

interface PlaceRow {
  shop_id: string
  location_id: string
  name: string
  cartridges: bigint
  from_at: Date
  until_at: Date | null
}

type Place = LotStorage['places'][number]

export async function lotStorage(tx: Tx, actor: Actor, lotId: string): Promise<LotStorage> {
  const lot = await requireLot(tx, lotId)
  const mine = shopsWith(actor, 'readShop')
  const rows = await tx.$queryRaw<PlaceRow[]>`
    select stay.shop_id, stay.location_id, place.name, count(distinct stay.cartridge_id) as cartridges, min(stay.from_at) as from_at,
           case when bool_or(stay.until_at is null) then null else max(stay.until_at) end as until_at
      from cartridge_stay stay join cartridge c on c.id = stay.cartridge_id join storage_location place on place.id = stay.location_id
     where c.lot_id = ${lotId}::uuid
       ${mine === 'all' ? Prisma.empty : Prisma.sql`and stay.shop_id = any (${[...mine]}::uuid[])`}
     group by stay.shop_id, stay.location_id, place.name order by min(stay.from_at) desc`
  const places: Place[] = []
  for (const row of rows) places.push(await placeOf(tx, row))
  const measured = places.filter(({ meanKineticC }) => meanKineticC !== null)
  const events = await tx.lotHoldEvent.findMany({ where: { lotId }, orderBy: { at: 'desc' } })
  const { product } = lot
  return {
    meanKineticC:
      measured.length === 0
        ? null
        : combinedMeanKineticC(
            measured.map((place) => ({
              meanKineticC: place.meanKineticC!,
              weight: Math.max(place.measuredHours, 1e-6) * place.cartridges,
            })),
          ),
    places,
    storageRangeC: { min: product.storageMinC, max: product.storageMaxC },
    labelStorageC: product.labelStorageC,
    holds: events.map(({ kind, at, recordedBy, reason, said }) => ({
      kind: kind as LotStorage['holds'][number]['kind'],
      at,
      by: holder(recordedBy),
      reason: toldOf(reason, said),
    })),
    warmestLoss: await warmestLoss(tx, lotId, mine),
  }
}

async function placeOf(tx: Tx, row: PlaceRow): Promise<Place> {
  const within = Prisma.sql`s.location_id = ${row.location_id}::uuid and r.quality <> 'withdrawn' and r.at >= ${row.from_at}::timestamptz
    and r.at <= coalesce(${row.until_at}::timestamptz, 'infinity')`
  const readings = await tx.$queryRaw<{ at: Date; c: number }[]>`
    select r.at, max(r.temperature_c) as c from temperature_reading r join sensor s on s.id = r.sensor_id
     where ${within} group by r.at order by r.at`
  const days = await tx.$queryRaw<{ day: Date; coldest: number; warmest: number; mean: number }[]>`
    select date_trunc('day', r.at) as day, min(r.temperature_c) as coldest, max(r.temperature_c) as warmest, avg(r.temperature_c) as mean
      from temperature_reading r join sensor s on s.id = r.sensor_id
     where ${within} group by 1 order by 1`
  const series: StorageReading[] = readings.map(({ at, c }) => ({ atMs: at.getTime(), temperatureC: c }))
  const first = series[0]
  const last = series.at(-1)
  return {
    shopId: row.shop_id,
    locationId: row.location_id,
    locationName: row.name,
    cartridges: Number(row.cartridges),
    from: row.from_at,
    until: row.until_at,
    meanKineticC: first ? meanKineticTemperatureC(series) : null,
    coldestC: first ? Math.min(...days.map(({ coldest }) => coldest)) : null,
    warmestC: first ? Math.max(...days.map(({ warmest }) => warmest)) : null,
    measuredHours: first && last ? (last.atMs - first.atMs) / 3_600_000 : 0,
    days: days.map(({ day, coldest, warmest, mean }) => ({
      day,
      coldestC: coldest,
      warmestC: warmest,
      meanC: mean,
    })),
  }
}

async function warmestLoss(
  tx: Tx,
  lotId: string,
  mine: 'all' | ReadonlySet<string>,
): Promise<LotStorage['warmestLoss']> {
  const rows = await selectCartridges(
    tx,
    Prisma.sql`c.lot_id = ${lotId}::uuid and c.state in ('sealed', 'opened') and c.warm_loss_ms > 0`,
    5000,
  )
  const [worst] = rows
    .filter(({ shop_id: shopId }) => mine === 'all' || mine.has(shopId))
    .toSorted((a, b) => b.warm_loss_ms - a.warm_loss_ms)
  if (!worst) return null
  const { says: reason } = expiryOf({ ...worst, opened_at: null }, null)
  return { cartridgeId: worst.id, code: worst.code, days: worst.warm_loss_ms / 86_400_000, reason }
}
