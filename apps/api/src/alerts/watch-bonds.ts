import { runningBonds } from '../bonds/bond-store.ts'
import { estimateOf } from '../bonds/history.ts'
import type { Tx } from '../database/database.ts'
import type { NewAlert } from './raise.ts'

type Found = Omit<NewAlert, 'organizationId' | 'openedAt'>

/** Bonds that cannot be computed: nobody may wait for an instant that never comes. */
export async function uncomputedBonds(tx: Tx, now: Date): Promise<Found[]> {
  const found: Found[] = []
  for (const bond of await runningBonds(tx)) {
    const { fault } = await estimateOf(tx, bond, bond.joint.repairOrder.shop.timeZone, now)
    if (fault === null) continue
    found.push({
      shopId: bond.shopId,
      kind: 'notComputed',
      message: `${bond.joint.repairOrder.number}, ${bond.joint.name}: cannot be computed: not ready. ${fault}`,
      subjectKind: 'bond',
      subjectId: bond.id,
      repairOrderId: bond.joint.repairOrderId,
    })
  }
  return found
}
