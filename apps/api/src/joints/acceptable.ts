import type { Tx } from '../database/database.ts'
import type { BondRow } from '../bonds/bond-store.ts'
import { countsFromOf, estimateOf } from '../bonds/history.ts'
import { figuresOf } from '../catalogue/sheets.ts'
import { shopById } from '../shops/shops.ts'

const MINUTE_MS = 60_000

/**
 * From when a joint whose clamps are off can be inspected and accepted: no inspector makes adhesive cure. That is when it
 * would have reached handling strength on the careful estimate had it stayed in its bay; where nobody measured on there, and
 * at the latest, the longest time to full cure on its sheet after it was applied.
 *
 * @returns null where nothing has to be waited for: it still has its clamps on, or was given up, which a later attempt or a
 *   clean face mends.
 */
export async function acceptableFrom(tx: Tx, bond: BondRow, now: Date): Promise<Date | null> {
  if (bond.state !== 'released') return null
  const { timeZone } = await shopById(tx, bond.shopId)
  const { estimate } = await estimateOf(tx, bond, timeZone, now, { asIfItStayed: true })
  const latestMs =
    countsFromOf(bond).getTime() +
    Math.max(...figuresOf(bond.sheet).points.map(({ fullCureMinutes }) => fullCureMinutes)) * MINUTE_MS
  const { conservative } = estimate.handlingStrength.readyAt
  return new Date(conservative.kind === 'at' ? Math.min(conservative.atMs, latestMs) : latestMs)
}
