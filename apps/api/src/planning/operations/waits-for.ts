import { param } from '../../foundation/words/params.ts'
import { nameOf } from '../../foundation/words/kept.ts'
import { message, type Message } from '@clampclock/messages'
import { heldBy, heldReason, isStillOn } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { precedences, type Placed } from './expand.ts'
import { operationsOf, type OperationRow } from './operation-store.ts'

const WITH_DEPARTURES = {
  incidents: { include: { disposition: true } },
} satisfies Prisma.BondInclude

export interface Waits {
  readonly message: Message
  readonly fix?: Message | undefined
}

/**
 * What must come first on this vehicle and has not been finished, in words; null when it may begin. Of a bond, its clamps
 * must be on, and of a cure, it must be released, with nothing on the joint that waits for a person.
 */
export async function waitsFor(
  tx: Tx,
  { id, repairOrderId }: Pick<OperationRow, 'id' | 'repairOrderId'>,
): Promise<Waits | null> {
  const all = await operationsOf(tx, repairOrderId)
  const before = precedences(all as unknown as Placed[])
    .filter(({ after }) => after === id)
    .map((each) => all.find((one) => one.id === each.before)!)
  for (const each of before) {
    if (each.finishedAt) continue
    const attempts = each.jointId
      ? await tx.bond.findMany({
          where: { jointId: each.jointId },
          orderBy: { attempt: 'asc' },
          include: WITH_DEPARTURES,
        })
      : []
    const bond = attempts.findLast(isStillOn)
    if (each.kind === 'bondAndClamp' && bond?.clampedAt) continue
    if (each.kind === 'cure' && bond?.releasedAt) {
      const held = heldBy(attempts)
      if (held === null) continue
      return heldReason(each.joint?.name ?? each.name, held)
    }
    return { message: message('reason.comesFirst', { operation: param(nameOf(each)) }) }
  }
  return null
}
