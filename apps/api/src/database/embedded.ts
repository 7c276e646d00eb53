import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { btree_gist } from '@electric-sql/pglite/contrib/btree_gist'
import { PrismaPGlite } from 'pglite-prisma-adapter'
import { lock } from 'proper-lockfile'
import { PrismaClient } from '../generated/prisma/client.ts'
import type { Database } from './database.ts'
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

async function takeFolder(dataDir: string): Promise<() => Promise<void>> {
  try {
    // A process that was killed leaves its lock behind; it is taken over once it has not been renewed for `stale` ms.
    return await lock(dataDir, {
      lockfilePath: join(dataDir, 'in-use.lock'),
      stale: 5_000,
      update: 1_000,
      retries: { retries: 12, minTimeout: 500, maxTimeout: 600, factor: 1 },
    })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ELOCKED') throw error
    throw new Error(
      `The data folder ${dataDir} is in use by another Clampclock. ` +
        'Stop that one first, give this one a folder of its own (DATA_DIR=...), or give both a PostgreSQL server (DATABASE_URL=...).',
      { cause: error },
    )
  }
}
