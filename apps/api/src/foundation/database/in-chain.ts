import type { Database, Tx } from './database.ts'
import { sqlState } from './sql-state.ts'

/**
 * Serialisation failure and deadlock: nothing was done, and the same work may well succeed now. A place that was taken
 * at the same moment: the second time the work sees who has it, and can say so.
 */
const WORTH_ANOTHER_TRY = new Set(['40001', '40P01', '23P01'])
const TRIES = 4

/**
 * Runs `work` in one transaction as the role that sees only this chain. All of it happens or nothing;
 * `work` may run again after a deadlock, so it must touch nothing outside the transaction.
 */
export async function inChain<Result>(
  database: Database,
  organizationId: string,
  work: (tx: Tx) => Promise<Result>,
): Promise<Result> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      return await database.prisma.$transaction(async (tx) => {
        await enterChain(tx, organizationId)
        return work(tx)
      })
    } catch (error) {
      if (attempt === TRIES || !WORTH_ANOTHER_TRY.has(sqlState(error) ?? '')) throw error
      await new Promise((resolve) => setTimeout(resolve, 20 * attempt * Math.random()))
    }
  }
}

/** As `enterChain`, past the ORM. */
export const ENTER_CHAIN = `select set_config('clampclock.organization_id', $1, true), set_config('role', 'clampclock_app', true)`

/** From here to the end of the transaction only rows of this chain are seen and written. */
export async function enterChain(tx: Tx, organizationId: string): Promise<void> {
  await tx.$executeRaw`
    select set_config('clampclock.organization_id', ${organizationId}, true), set_config('role', 'clampclock_app', true)`
}
