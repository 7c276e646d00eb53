import { mkdir, readFile, rm, writeFile } from 'node:fs/promises'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { btree_gist } from '@electric-sql/pglite/contrib/btree_gist'
import { PrismaPGlite } from 'pglite-prisma-adapter'
import { lock } from 'proper-lockfile'
import { PrismaClient } from '../../generated/prisma/client.ts'
import type { Database, Value } from './database.ts'
import { ENTER_CHAIN } from './in-chain.ts'
import { TRANSACTION } from './transaction-limits.ts'

/**
 * PostgreSQL inside this process, in a folder. PGlite itself does not lock the folder, and two processes on one
 * folder destroy it: so a lock is taken first, and kept until `close`.
 *
 * @throws {Error} When another process has the folder.
 */
export async function openEmbedded(dataDir: string): Promise<Database> {
  await mkdir(dataDir, { recursive: true })
  const unlock = await takeFolder(dataDir)
  let lite: PGlite
  try {
    lite = await PGlite.create({ dataDir: join(dataDir, 'postgres'), extensions: { btree_gist } })
  } catch (error) {
    await unlock()
    throw error
  }
  await lite.exec(`set timezone = 'UTC'`)
  const prisma = new PrismaClient({ adapter: new PrismaPGlite(lite), transactionOptions: TRANSACTION })

  return {
    kind: 'embedded',
    prisma,
    ask: (text, values) => answerOf(lite, text, values),
    // There is one connection: a transaction waits until those before it are over.
    askInChain: (organizationId, text, values) =>
      lite.transaction(async (tx) => {
        await tx.exec('set transaction read only')
        await tx.query(ENTER_CHAIN, [organizationId])
        return answerOf(tx, text, values)
      }),
    execute: async (sql) => {
      await lite.exec(sql)
    },
    listen: async (channel, onPayload) => {
      await lite.listen(channel, onPayload)
    },
    close: async () => {
      await prisma.$disconnect()
      await lite.close()
      await unlock()
    },
  }
}

async function answerOf(
  asked: Pick<PGlite, 'query'>,
  text: string,
  values: readonly Value[],
): Promise<string> {
  const { rows } = await asked.query<{ answer: string }>(text, [...values])
  return rows[0]!.answer
}

/** Long enough that a process whose clock stood still for a while is not taken for dead. */
const STALE_MS = 15_000

/** Notes of this very process. */
const heldHere = new Set<string>()

async function takeFolder(dataDir: string): Promise<() => Promise<void>> {
  const lockfilePath = join(dataDir, 'in-use.lock')
  const holderPath = join(dataDir, 'in-use.by')
  // A process that was killed leaves its lock behind. If it is known to be gone, nobody has to wait for that.
  if (await holderIsGone(holderPath)) await rm(lockfilePath, { recursive: true, force: true })
  try {
    const unlock = await lock(dataDir, { lockfilePath, stale: STALE_MS, update: 3_000 })
    await writeFile(holderPath, JSON.stringify({ host: hostname(), pid: process.pid }))
    heldHere.add(holderPath)
    return async () => {
      heldHere.delete(holderPath)
      await rm(holderPath, { force: true })
      await unlock()
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ELOCKED') throw error
    throw new Error(
      `The data folder ${dataDir} is in use by another Clampclock. ` +
        'Stop that one first, give this one a folder of its own (DATA_DIR=...), or give both a PostgreSQL server (DATABASE_URL=...).',
      { cause: error },
    )
  }
}

/** True only when the process that took the folder ran on this machine and does not exist any more. */
async function holderIsGone(holderPath: string): Promise<boolean> {
  try {
    const { host, pid } = JSON.parse(await readFile(holderPath, 'utf8')) as { host: string; pid: number }
    if (host !== hostname()) return false
    // Our own number on an old note: the machine or its container was started anew since.
    if (pid === process.pid) return !heldHere.has(holderPath)
    process.kill(pid, 0)
    return false
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH'
  }
}
