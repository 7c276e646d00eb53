import { effectiveExpiry, warmStorageLossMs } from '@clampclock/stock'
import { Prisma } from '../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import { isoDate } from '../http/dates.ts'

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
}

/**
 * Takes new readings of a storage location into the life of every cartridge that lies there. Only what is new is
 * integrated; a reading that comes late, before what was counted already, has the cartridges counted afresh.
 */
export async function refreshStorageLife(tx: Tx, locationId: string, earliestNew: Date): Promise<void> {
  const stored = await tx.$queryRaw<Stored[]>`
    select c.id, c.received_at, c.opened_at, c.warm_loss_ms, c.warm_loss_through, p.label_storage_c, p.storage_q10,
           p.open_life_days, l.printed_expiry, s.time_zone
      from cartridge c join lot l on l.id = c.lot_id join product p on p.id = l.product_id join shop s on s.id = c.shop_id
     where c.location_id = ${locationId}::uuid and c.state in ('sealed', 'opened')
       for no key update of c`
  if (stored.length === 0) return

  const counted = stored.map((each) =>
    earliestNew < each.warm_loss_through
      ? { ...each, warm_loss_ms: 0, warm_loss_through: each.received_at }
      : each,
  )
  const from = new Date(Math.min(...counted.map((each) => each.warm_loss_through.getTime())))
  const readings = await readingsFrom(tx, locationId, from)
  const last = readings.at(-1)
  if (!last) return

  const changes = counted.map((each) => {
    const fromMs = each.warm_loss_through.getTime()
    const rule = { labelStorageC: each.label_storage_c, q10: each.storage_q10 }
    const lossMs = each.warm_loss_ms + warmStorageLossMs(readings, rule, fromMs, last.atMs)
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
      through: new Date(Math.max(fromMs, last.atMs)),
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

/** The readings since `from`, and the one before, from which the first stretch leads on. Several sensors: the warmest counts. */
async function readingsFrom(
  tx: Tx,
  locationId: string,
  from: Date,
): Promise<{ atMs: number; temperatureC: number }[]> {
  const rows = await tx.$queryRaw<{ at: Date; temperature_c: number }[]>`
    select r.at, max(r.temperature_c) as temperature_c
      from temperature_reading r join sensor s on s.id = r.sensor_id
     where s.location_id = ${locationId}::uuid
       and r.at >= coalesce((select max(b.at) from temperature_reading b join sensor bs on bs.id = b.sensor_id
                              where bs.location_id = ${locationId}::uuid and b.at < ${from}::timestamptz), ${from}::timestamptz)
     group by r.at order by r.at`
  return rows.map((row) => ({ atMs: row.at.getTime(), temperatureC: row.temperature_c }))
}
