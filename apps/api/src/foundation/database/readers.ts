import postgres from 'postgres'
import type { Value } from './database.ts'
import { LOCK_TIMEOUT_MS, STATEMENT_TIMEOUT_MS } from './transaction-limits.ts'

const CONNECTIONS = 6

type Answers = { answer: string; chain?: string }[]
const PREPARED = { prepare: true, simple: false }

/** Connections past the ORM, for what is asked with each request. They open with the first question. */
export class Readers {
  readonly #before: postgres.Sql
  /**
   * Each is one connection, on which whatever is sent is done in the order of sending. They see as the role that sees one
   * chain at a time, from the moment they open: with no chain entered they see nothing.
   */
  readonly #inChain: readonly { readonly sql: postgres.Sql; asked: number }[]

  constructor(databaseUrl: string) {
    this.#before = open(databaseUrl, CONNECTIONS, {})
    this.#inChain = Array.from({ length: CONNECTIONS }, () => ({
      sql: open(databaseUrl, 1, {
        role: 'clampclock_app',
        default_transaction_read_only: 'on',
      }),
      asked: 0,
    }))
  }

  async ask(text: string, values: readonly Value[]): Promise<string> {
    const [row] = await this.#before.unsafe<Answers>(text, [...values], PREPARED)
    return row!.answer
  }

  /** Enters the chain and asks in one round trip: the question doesn't wait until the chain is entered, it is behind it. */
  async askInChain(organizationId: string, text: string, values: readonly Value[]): Promise<string> {
    const connection = this.#inChain.reduce((least, each) => (each.asked < least.asked ? each : least))
    const { sql } = connection
    connection.asked += 1
    try {
      const entered = sql.unsafe(ENTER, [organizationId], PREPARED)
      const asked = sql.unsafe<Answers>(
        `select answer, ${CHAIN} as chain from (${text}) a`,
        [...values],
        PREPARED,
      )
      // Both, also where the first fails: nobody else finds something under way.
      await Promise.allSettled([entered, asked])
      const [row] = await asked
      // A connection that was lost between them is another one now, and is in no chain.
      if (row?.chain !== organizationId) throw new Error('The connection was lost while it was asked')
      return row.answer
    } finally {
      connection.asked -= 1
    }
  }

  async close(): Promise<void> {
    await Promise.all(
      [this.#before, ...this.#inChain.map(({ sql }) => sql)].map((sql) => sql.end({ timeout: 2 })),
    )
  }
}

const CHAIN = `current_setting('clampclock.organization_id', true)`
/** Until the next question on this connection, which enters a chain of its own. */
const ENTER = `select set_config('clampclock.organization_id', $1, false)`

function open(databaseUrl: string, max: number, settings: Record<string, string>): postgres.Sql {
  return postgres(databaseUrl, {
    max,
    connect_timeout: 10,
    // Lists travel as text, so the types of arrays need not be asked for.
    fetch_types: false,
    onnotice: () => undefined,
    connection: {
      TimeZone: 'UTC',
      statement_timeout: STATEMENT_TIMEOUT_MS,
      lock_timeout: LOCK_TIMEOUT_MS,
      idle_in_transaction_session_timeout: 60_000,
      ...settings,
    },
  })
}
