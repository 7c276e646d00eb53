import { effectiveExpiry, warmStorageLossMs, type StorageReading } from '@clampclock/stock'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { expiryOf, selectCartridges } from '../cartridges/cartridge-store.ts'

interface Stored {
  id: string
  received_at: Date
  opened_at: Date | null
  warm_loss_ms: number
  warm_loss_through: Date
  label_storage_c: number
  storage_q10: number
  open_life_days: number
  printed_expiry: Date
  time_zone: string
  lies_there: boolean
}

interface Stay {
  readonly cartridge_id: string
  readonly location_id: string
  readonly from_at: Date
  readonly until_at: Date | null
}

/**
 * Takes new readings of a storage location into the life of every cartridge that lay there at the time. Only what is new
 * is integrated; a reading that comes late, or after a cartridge has been moved on, has it counted afresh over all the
 * places it lay in.
 */
export async function refreshStorageLife(tx: Tx, locationId: string, earliestNew: Date): Promise<void> {
  const stored = await lyingThere(tx, locationId, earliestNew)
  if (stored.length === 0) return

  const counted = stored.map((each) =>
    !each.lies_there || earliestNew < each.warm_loss_through
      ? { ...each, warm_loss_ms: 0, warm_loss_through: each.received_at }
      : each,
  )
  const stays = await tx.$queryRaw<Stay[]>`
    select cartridge_id, location_id, from_at, until_at from cartridge_stay
     where cartridge_id = any (${counted.map(({ id }) => id)}::uuid[]) order by from_at`
  const staysOf = new Map<string, Stay[]>()
  for (const stay of stays) staysOf.set(stay.cartridge_id, [...(staysOf.get(stay.cartridge_id) ?? []), stay])
  const from = new Date(Math.min(...counted.map((each) => each.warm_loss_through.getTime())))
  const readings = new Map<string, StorageReading[]>()
  for (const place of new Set(stays.map((stay) => stay.location_id)))
    readings.set(place, await readingsFrom(tx, place, from))

  const changes = counted.map((each) => {
    const { lossMs, throughMs } = lossOver(each, staysOf.get(each.id) ?? [], readings)
    const expiry = effectiveExpiry({
      printedExpiry: isoDate(each.printed_expiry),
      timeZone: each.time_zone,
      openedAtMs: each.opened_at?.getTime() ?? null,
      openLifeDays: each.open_life_days,
      warmStorageLossMs: lossMs,
    })
    return {
      id: each.id,
      lossMs,
      through: new Date(throughMs),
      expiresAt: new Date(expiry.atMs),
      limit: expiry.limit,
    }
  })
  await tx.$executeRaw`
    update cartridge c
       set warm_loss_ms = n.loss, warm_loss_through = n.through, expires_at = n.expires, expiry_limit = n.lim
      from (values ${Prisma.join(changes.map((n) => Prisma.sql`(${n.id}::uuid, ${n.lossMs}::float8, ${n.through}::timestamptz, ${n.expiresAt}::timestamptz, ${n.limit})`))})
           as n (id, loss, through, expires, lim)
     where c.id = n.id`
}

/** A day counts to its end in the shop's own time zone: what has come to another shop may die an hour sooner there. */
export async function refreshExpiry(tx: Tx, cartridgeIds: readonly string[]): Promise<void> {
  const rows = await selectCartridges(
    tx,
    Prisma.sql`c.id = any (${cartridgeIds}::uuid[])`,
    cartridgeIds.length,
  )
  for (const row of rows) {
    const { atMs, limit } = expiryOf(row)
    await tx.cartridge.update({
      where: { id: row.id },
      data: { expiresAt: new Date(atMs), expiryLimit: limit },
    })
  }
}

/** What is alive and lay there at the new readings, or between the one before them and the first of them. */
function lyingThere(tx: Tx, locationId: string, earliestNew: Date): Promise<Stored[]> {
  return tx.$queryRaw<Stored[]>`
    select c.id, c.received_at, c.opened_at, c.warm_loss_ms, c.warm_loss_through, p.label_storage_c, p.storage_q10,
           p.open_life_days, l.printed_expiry, s.time_zone, c.location_id is not distinct from ${locationId}::uuid as lies_there
      from cartridge c join lot l on l.id = c.lot_id join product p on p.id = l.product_id join shop s on s.id = c.shop_id
     where c.state in ('sealed', 'opened', 'inTransit', 'missing')
       and exists (
         select from cartridge_stay stay
          where stay.cartridge_id = c.id and stay.location_id = ${locationId}::uuid
            and (stay.until_at is null or stay.until_at > coalesce(
                  (select max(r.at) from temperature_reading r join sensor on sensor.id = r.sensor_id
                    where sensor.location_id = ${locationId}::uuid and r.quality <> 'withdrawn' and r.at < ${earliestNew}::timestamptz),
                  '-infinity')))
     order by c.id for no key update of c`
}

/** Sums what each stay took off since `warm_loss_through`; time on no shelf, and time not measured, takes nothing. */
function lossOver(
  each: Stored,
  stays: readonly Stay[],
  readings: ReadonlyMap<string, readonly StorageReading[]>,
): { lossMs: number; throughMs: number } {
  const rule = { labelStorageC: each.label_storage_c, q10: each.storage_q10 }
  const fromMs = each.warm_loss_through.getTime()
  let lossMs = each.warm_loss_ms
  let throughMs = fromMs
  for (const stay of stays) {
    const measured = readings.get(stay.location_id) ?? []
    const lastMs = measured.at(-1)?.atMs
    if (lastMs === undefined) continue
    const startMs = Math.max(fromMs, stay.from_at.getTime())
    const endMs = Math.min(lastMs, stay.until_at?.getTime() ?? Number.POSITIVE_INFINITY)
    if (endMs <= startMs) continue
    lossMs += warmStorageLossMs(measured, rule, startMs, endMs)
    throughMs = Math.max(throughMs, endMs)
  }
  return { lossMs, throughMs }
}

/** The readings since `from`, and the one before, from which the first stretch leads on. Several sensors: the warmest counts. */
async function readingsFrom(tx: Tx, locationId: string, from: Date): Promise<StorageReading[]> {
  const rows = await tx.$queryRaw<{ at: Date; temperature_c: number }[]>`
    select r.at, max(r.temperature_c) as temperature_c
      from temperature_reading r join sensor s on s.id = r.sensor_id
     where s.location_id = ${locationId}::uuid and r.quality <> 'withdrawn'
       and r.at >= coalesce((select max(b.at) from temperature_reading b join sensor bs on bs.id = b.sensor_id
                              where bs.location_id = ${locationId}::uuid and b.quality <> 'withdrawn' and b.at < ${from}::timestamptz), ${from}::timestamptz)
     group by r.at order by r.at`
  return rows.map((row) => ({ atMs: row.at.getTime(), temperatureC: row.temperature_c }))
}
