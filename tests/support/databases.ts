import { randomUUID } from 'node:crypto'
import { cp, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import pg from 'pg'
import { inject } from 'vitest'
import { connect } from '../../apps/api/src/foundation/database/connect.ts'
import type { Database } from '../../apps/api/src/foundation/database/database.ts'
import { TEMPLATE } from './template-name.ts'

export const MIGRATIONS = new URL('../../prisma/migrations', import.meta.url).pathname

export type Kind = 'embedded' | 'server'
/** Every promise that a database keeps is kept by both. */
export const KINDS: readonly Kind[] = ['embedded', 'server']
/** For what the service does, whatever keeps its data: on the server, and on the embedded one in `npm run test:long`. */
export const ONE_KIND: readonly Kind[] = [process.env['TEST_DATABASE'] === 'embedded' ? 'embedded' : 'server']

export interface TestDatabase {
  readonly database: Database
  /** Of a server database; empty for an embedded one. */
  readonly url: string
  readonly end: () => Promise<void>
}

/** A migrated database that nobody else uses. */
export async function freshDatabase(kind: Kind): Promise<TestDatabase> {
  if (kind === 'server') {
    const url = await createDatabase(TEMPLATE)
    const database = await connect({ dataDir: '', databaseUrl: url }, MIGRATIONS)
    return { database, url, end: () => database.close() }
  }
  const dataDir = await mkdtemp(join(tmpdir(), 'clampclock-test-'))
  await cp(inject('embeddedTemplate'), dataDir, { recursive: true })
  const database = await connect({ dataDir, databaseUrl: undefined }, MIGRATIONS)
  return {
    database,
    url: '',
    end: async () => {
      await database.close()
      await rm(dataDir, { recursive: true, force: true })
    },
  }
}

/** Without a template it is empty: nothing is migrated. */
export async function createDatabase(template = 'template1'): Promise<string> {
  const base = inject('postgresUrl')
  const name = `t_${randomUUID().replaceAll('-', '')}`
  await withClient(`${base}/postgres`, (client) =>
    client.query(`create database ${name} template ${template} strategy file_copy`),
  )
  return `${base}/${name}`
}

export async function withClient<Result>(
  url: string,
  use: (client: pg.Client) => Promise<Result>,
): Promise<Result> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return await use(client)
  } finally {
    await client.end()
  }
}
