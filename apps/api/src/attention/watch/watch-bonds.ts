import { message } from '@clampclock/messages'
import { keptEstimateOf, runningBonds, slowerSentence } from '../../cure/index.ts'
import { param } from '../../foundation/words/params.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'

type Found = Omit<AttentionNeeded, 'organizationId' | 'openedAt'>

/**
 * Running bonds that cannot be computed: nobody may wait for an instant that never comes. And those that a data sheet which
 * began to count meanwhile holds back: whoever looked before was told another instant.
 */
export async function bondsToTell(tx: Tx, now: Date): Promise<Found[]> {
  const found: Found[] = []
  for (const bond of await runningBonds(tx)) {
    const { fault, slower } = await keptEstimateOf(tx, bond, bond.joint.repairOrder.shop.timeZone, now)
    const what = { order: bond.joint.repairOrder.number, joint: bond.joint.name }
    const about = {
      shopId: bond.shopId,
      subjectKind: 'bond',
      subjectId: bond.id,
      repairOrderId: bond.joint.repairOrderId,
    } as const
    if (fault !== null)
      found.push({
        ...about,
        kind: 'notComputed',
        message: message('alert.notComputed', { ...what, fault: param(fault) }),
      })
    if (slower !== null)
      found.push({
        ...about,
        kind: 'sheetSlower',
        message: message('alert.sheetSlower', { ...what, slower: { message: slowerSentence(bond, slower) } }),
      })
  }
  return found
}
