import { PrismaPg } from '@prisma/adapter-pg'
import pg from 'pg'
import postgres from 'postgres'
import { PrismaClient } from '../../generated/prisma/client.ts'
import type { Database } from './database.ts'
import { Readers } from './readers.ts'
import { LOCK_TIMEOUT_MS, STATEMENT_TIMEOUT_MS, TRANSACTION } from './transaction-limits.ts'

/** The session's time zone must be UTC, or the driver silently shifts instants: docs/decisions/0005-time.md. */
const SESSION = `-c TimeZone=UTC -c statement_timeout=${STATEMENT_TIMEOUT_MS} -c lock_timeout=${LOCK_TIMEOUT_MS} -c idle_in_transaction_session_timeout=60000`

/**
 * A PostgreSQL server, 15 or newer.
 *
 * @throws {Error} When it cannot be reached, is too old, or its sessions are not in UTC.
 */
export async function openServer(databaseUrl: string): Promise<Database> {
  const url = new URL(databaseUrl)
  if (url.searchParams.has('options')) {
    throw new Error(
      'DATABASE_URL must not carry options=…: it would override the UTC time zone of the sessions',
    )
  }
  await checkServer(databaseUrl)

  const adapter = new PrismaPg({
    connectionString: databaseUrl,
    options: SESSION,
    max: 20,
    connectionTimeoutMillis: 10_000,
  })
  const prisma = new PrismaClient({ adapter, transactionOptions: TRANSACTION })
  // postgres.js reconnects its listener by itself and says so, which pg does not.
  const listener = postgres(databaseUrl, { max: 1, idle_timeout: 0, onnotice: () => undefined })

  const readers = new Readers(databaseUrl)

  return {
    kind: 'server',
    prisma,
    ask: (text, values) => readers.ask(text, values),
    askInChain: (organizationId, text, values) => readers.askInChain(organizationId, text, values),
    execute: (sql) => withClient(databaseUrl, async (client) => void (await client.query(sql))),
    listen: async (channel, onPayload, onGap) => {
      let heardBefore = false
      await listener.listen(channel, onPayload, () => {
        if (heardBefore) onGap()
        heardBefore = true
      })
    },
    close: async () => {
      await Promise.all([listener.end({ timeout: 2 }), readers.close()])
      await prisma.$disconnect()
    },
  }
}

async function withClient<Result>(
  databaseUrl: string,
  use: (client: pg.Client) => Promise<Result>,
): Promise<Result> {
  const client = new pg.Client({
    connectionString: databaseUrl,
    options: '-c TimeZone=UTC',
    connectionTimeoutMillis: 10_000,
  })
  await client.connect()
  try {
    return await use(client)
  } finally {
    await client.end()
  }
}

async function checkServer(databaseUrl: string): Promise<void> {
  await withClient(databaseUrl, async (client) => {
    const { rows } = await client.query<{ version: number; zone: string }>(
      `select current_setting('server_version_num')::int as version, current_setting('TimeZone') as zone`,
    )
    const [row] = rows
    if (!row || row.version < 150_000) throw new Error('PostgreSQL 15 or newer is needed')
    if (row.zone !== 'UTC') throw new Error(`The database sessions must be in UTC, but are in ${row.zone}`)
  })
}
