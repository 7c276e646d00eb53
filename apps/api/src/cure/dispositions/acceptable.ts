import { acceptableFromMs } from '@clampclock/cure'
import type { BondRow } from '../estimates/bond-store.ts'
import { countsFromOf, estimateOf } from '../estimates/history.ts'
import { figuresOf } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { shopById } from '../../foundation/shops/shops.ts'

export interface Acceptable {
  readonly mayAccept: boolean
  /** From when on; null where it may be accepted now, or where nobody can say. */
  readonly acceptableAt: Date | null
}

/**
 * Whether a joint may be inspected and accepted yet. One that still has its clamps on goes on curing after it was accepted;
 * of one that was lifted apart its clean faces are accepted: neither has to wait.
 */
export async function acceptable(tx: Tx, bond: BondRow, now: Date): Promise<Acceptable> {
  const isClosedStill = bond.state === 'released' || (bond.state === 'abandoned' && !bond.wasLifted)
  if (!isClosedStill) return { mayAccept: true, acceptableAt: null }
  const { timeZone } = await shopById(tx, bond.shopId)
  const { estimate, judgedBy } = await estimateOf(tx, bond, timeZone, now, { asIfItStayed: true })
  const fromMs = acceptableFromMs(estimate, countsFromOf(bond).getTime(), judgedBy.map(figuresOf))
  const mayAccept = fromMs !== null && fromMs <= now.getTime()
  return { mayAccept, acceptableAt: mayAccept || fromMs === null ? null : new Date(fromMs) }
}
