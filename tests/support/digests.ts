import { queueDigests } from '../../apps/api/src/attention/notifications/digest.ts'
import type { Database } from '../../apps/api/src/foundation/database/database.ts'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'

/** Writes the mails of every chain whose hour it is. */
export async function queueAllDigests(
  database: Database,
  publicUrl: string | undefined,
  now: Date,
): Promise<void> {
  for (const { id: organizationId } of await database.prisma.organization.findMany())
    await inChain(database, organizationId, (tx) =>
      queueDigests(tx, { organizationId, publicUrl, since: now, now }),
    )
}
