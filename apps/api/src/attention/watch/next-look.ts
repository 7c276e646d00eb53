import { SOON_DAYS } from '@clampclock/stock'
import { keptEstimateOf, runningBonds } from '../../cure/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { SILENT_HOURS } from './watch-temperature.ts'

const MINUTE_MS = 60_000
/** Where something cures, its estimate moves with the air that is expected: no instant says when. */
const WHILE_CURING_MS = 5 * MINUTE_MS
/** For what no instant is known of. */
const OTHERWISE_MS = 15 * MINUTE_MS

/**
 * When time alone may next bring something about in this chain: a cartridge that dies, or soon will; a thermometer that has
 * been silent too long; an instant that a joint waits for. Some minutes from now at the latest.
 */
export async function nextLook(tx: Tx, now: Date): Promise<Date> {
  const nowMs = now.getTime()
  const soon = new Date(nowMs + SOON_DAYS * 86_400_000)
  const spoken = new Date(nowMs - SILENT_HOURS * 3_600_000)
  const [row] = await tx.$queryRaw<[{ dies: Date | null; dies_soon: Date | null; spoke: Date | null }]>`
    select (select min(expires_at) from cartridge where state in ('sealed', 'opened') and expires_at > ${now}::timestamptz) as dies,
           (select min(expires_at) from cartridge where state in ('sealed', 'opened') and expires_at > ${soon}::timestamptz) as dies_soon,
           (select min(r.at) from sensor s
              join lateral (select at from temperature_reading where sensor_id = s.id order by at desc limit 1) r on true
             where s.retired_at is null and r.at >= ${spoken}::timestamptz) as spoke`
  const known = [
    row.dies?.getTime(),
    row.dies_soon ? row.dies_soon.getTime() - SOON_DAYS * 86_400_000 : undefined,
    // Silent once it is longer ago than that, and not on the very instant.
    row.spoke ? row.spoke.getTime() + SILENT_HOURS * 3_600_000 + 1 : undefined,
  ]
  const bonds = await runningBonds(tx)
  for (const bond of bonds) {
    const { estimate } = await keptEstimateOf(tx, bond, bond.joint.repairOrder.shop.timeZone, now)
    for (const { readyAt } of [estimate.workTime, estimate.handlingStrength, estimate.fullCure])
      if (readyAt.conservative.kind === 'at') known.push(readyAt.conservative.atMs)
  }
  const latestMs = nowMs + (bonds.length > 0 ? WHILE_CURING_MS : OTHERWISE_MS)
  return new Date(Math.min(latestMs, ...known.flatMap((ms) => (ms !== undefined && ms > nowMs ? ms : []))))
}
