import type { Config } from '../config/config.ts'
import type { Database } from './database.ts'
import { openEmbedded } from './embedded.ts'
import { forgetEndedSessions } from './marks.ts'
import { migrate } from './migrate.ts'
import { openServer } from './server.ts'

/** Opens the database that the configuration names, and brings it to the newest schema. */
export async function connect(
  config: Pick<Config, 'dataDir' | 'databaseUrl'>,
  migrationsFolder: string,
): Promise<Database> {
  const database = config.databaseUrl
    ? await openServer(config.databaseUrl)
    : await openEmbedded(config.dataDir)
  try {
    await migrate(database, migrationsFolder)
    await forgetEndedSessions(database)
    return database
  } catch (error) {
    await database.close()
    throw error
  }
}
