import pg from 'pg'
import type { TestProject } from 'vitest/node'
import { connect } from '../../apps/api/src/foundation/database/connect.ts'
import { startPostgres } from './start-postgres.ts'
import { TEMPLATE } from './template-name.ts'

declare module 'vitest' {
  interface ProvidedContext {
    postgresUrl: string
  }
}

/** A server for the suites that need many connections; gone afterwards. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { url, stop } = await startPostgres()
  const migrations = new URL('../../prisma/migrations', import.meta.url).pathname
  // Opened by its name, the database must be there first.
  await createTemplate(url)
  const database = await connect({ dataDir: '', databaseUrl: `${url}/${TEMPLATE}` }, migrations)
  await database.close()
  project.provide('postgresUrl', url)
  return stop
}

async function createTemplate(url: string): Promise<void> {
  const client = new pg.Client({ connectionString: `${url}/postgres` })
  await client.connect()
  try {
    await client.query(`create database ${TEMPLATE}`)
  } finally {
    await client.end()
  }
}
