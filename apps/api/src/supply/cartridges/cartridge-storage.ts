import type { CartridgeStorage } from '@clampclock/contracts'
import { measuredMs } from '@clampclock/stock'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toldOf } from '../../foundation/words/kept.ts'
import { cartridgeRow } from './cartridge-store.ts'
import { requireSeen } from './may-see.ts'

interface StayRow {
  shop_id: string
  location_id: string
  name: string
  from_at: Date
  until_at: Date | null
}

/** Where a cartridge lay and how much of that anybody measured; time on no shelf was not. */
export async function cartridgeStorage(
  tx: Tx,
  actor: Actor,
  id: string,
  now: Date,
): Promise<CartridgeStorage> {
  const row = await cartridgeRow(tx, id)
  await requireSeen(tx, actor, row)
  const untilMs = row.state === 'empty' || row.state === 'discarded' ? await lastMoved(tx, id) : now.getTime()
  const stays = await tx.$queryRaw<StayRow[]>`
    select stay.shop_id, stay.location_id, place.name, stay.from_at, stay.until_at
      from cartridge_stay stay join storage_location place on place.id = stay.location_id
     where stay.cartridge_id = ${id}::uuid order by stay.from_at desc, stay.id desc`
  let measured = 0
  const items: CartridgeStorage['stays'][number][] = []
  for (const stay of stays) {
    const stretch = {
      fromMs: stay.from_at.getTime(),
      toMs: Math.min(untilMs, stay.until_at?.getTime() ?? untilMs),
    }
    const ms = measuredMs(await readingInstants(tx, stay.location_id, stretch), stretch)
    measured += ms
    items.push({
      shopId: stay.shop_id,
      locationId: stay.location_id,
      locationName: stay.name,
      from: stay.from_at,
      until: stay.until_at,
      measuredShare: shareOf(ms, stretch.toMs - stretch.fromMs),
    })
  }
  const quarantines = await tx.cartridgeQuarantine.findMany({
    where: { cartridgeId: id },
    orderBy: [{ since: 'desc' }, { id: 'asc' }],
  })
  return {
    measuredShare: shareOf(measured, untilMs - row.received_at.getTime()),
    stays: items,
    quarantines: quarantines.map(
      ({ since, reason, said, decision, decidedAt, decidedBy, decisionReason, decisionSaid }) => ({
        since,
        reason: toldOf(reason, said),
        decision:
          decision !== null && decidedAt !== null && decidedBy !== null && decisionReason !== null
            ? {
                kind: decision as 'use' | 'discard',
                at: decidedAt,
                by: decidedBy,
                reason: toldOf(decisionReason, decisionSaid),
              }
            : null,
      }),
    ),
  }
}

function shareOf(ms: number, wholeMs: number): number | null {
  return ms > 0 && wholeMs > 0 ? Math.min(1, ms / wholeMs) : null
}

async function lastMoved(tx: Tx, cartridgeId: string): Promise<number> {
  const last = await tx.stockMovement.aggregate({ where: { cartridgeId }, _max: { at: true } })
  return last._max.at!.getTime()
}

/** Within a stretch, with the neighbour on each side. */
async function readingInstants(
  tx: Tx,
  locationId: string,
  { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number },
): Promise<number[]> {
  const from = new Date(fromMs)
  const to = new Date(toMs)
  const rows = await tx.$queryRaw<{ at: Date }[]>`
    select distinct r.at from temperature_reading r join sensor s on s.id = r.sensor_id
     where s.location_id = ${locationId}::uuid and r.quality <> 'withdrawn'
       and r.at between ${from}::timestamptz - interval '2 hours' and ${to}::timestamptz + interval '2 hours'
     order by r.at`
  return rows.map(({ at }) => at.getTime())
}
