import { watchAll } from '../attention/watch/watch.ts'
import type { Database } from '../foundation/database/database.ts'
import { startReacting } from '../reactions.ts'
import { buildChain } from './chain.ts'
import { addWork } from './day.ts'
import { addLoss } from './loss.ts'
import { addMoves } from './moves.ts'
import { addPastWork } from './past-work.ts'
import { addPlannedWork } from './planned-work.ts'
import { addThermometers } from './readings.ts'
import { addReplenishment } from './replenishment.ts'
import { addRevisions } from './revisions.ts'
import { addStock } from './stock.ts'

/** Loading takes longer than any request: its transaction may too. */
const PATIENCE_MS = 300_000
/** Any number will do, as long as every process takes the same one. */
const DEMO_LOCK = 7_246_004

/**
 * Loads the invented chain through the same services that people use, with the clock set back: so it keeps every
 * rule that the service keeps. In one transaction: a start that is cut short leaves nothing half done.
 */
export async function loadDemo(database: Database, now: Date): Promise<void> {
  startReacting()
  await database.prisma.$transaction(
    async (tx) => {
      await tx.$executeRaw`select pg_advisory_xact_lock(${DEMO_LOCK})`
      if (await tx.person.findFirst({ select: { id: true } })) return
      const world = await buildChain(tx, now)
      await addThermometers(world)
      await addStock(world)
      await addReplenishment(world)
      await addWork(world)
      await addPlannedWork(world)
      await addPastWork(world)
      await addMoves(world)
      await addLoss(world)
      await addRevisions(world)
    },
    { timeout: PATIENCE_MS, maxWait: PATIENCE_MS },
  )
  await watchAll(database, now)
}
