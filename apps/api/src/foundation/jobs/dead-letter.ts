import { message } from '@clampclock/messages'
import { inChain } from '../database/in-chain.ts'
import { attentionNeeded, attentionOver } from '../events/attention.ts'
import { tell } from '../events/domain-event.ts'
import type { Taken } from './job-store.ts'
import type { Queue, Worker } from './queue.ts'

/** Tells the people of the chain that something does not happen by itself any more. It is tried again all the same. */
export async function tellItFails(
  { database }: Worker,
  queue: Queue,
  taken: Taken,
  now: Date,
): Promise<void> {
  const { organizationId, runId } = taken
  await inChain(database, organizationId, async (tx) => {
    const shopId = await shopThatIsTold(tx)
    if (shopId === undefined) return
    await tell(tx, attentionNeeded, {
      organizationId,
      shopId,
      kind: 'workFails',
      message: message('alert.workFails', { what: { message: queue.whenItFails } }),
      subjectKind: 'job',
      subjectId: runId,
      openedAt: now,
    })
  })
}

export async function tellItWorks(
  { database }: Worker,
  { organizationId, runId }: Taken,
  now: Date,
): Promise<void> {
  await inChain(database, organizationId, async (tx) => {
    const shopId = await shopThatIsTold(tx)
    if (shopId === undefined) return
    await tell(tx, attentionOver, { organizationId, shopId, kind: 'workFails', subjectId: runId, at: now })
  })
}

/** What concerns the whole chain is told in its first shop: its owners see all of them. */
async function shopThatIsTold(tx: Parameters<Parameters<typeof inChain>[2]>[0]): Promise<string | undefined> {
  const shop = await tx.shop.findFirst({
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: { id: true },
  })
  return shop?.id
}
