import type { PrismaClient } from '../../generated/prisma/client.ts'

/** The client inside a transaction: what services and stores are given. */
export type Tx = Omit<PrismaClient, '$connect' | '$disconnect' | '$on' | '$transaction' | '$extends' | '$use'>

/** What a statement past the ORM is given: text, as PostgreSQL reads it (an instant in ISO, a list as `{a,b}`). */
export type Value = string | number | boolean | null

/** A connected database, embedded or a server: the rest of the service does not ask which. */
export interface Database {
  readonly kind: 'embedded' | 'server'
  readonly prisma: PrismaClient
  /** One statement that answers one text: past the ORM, for what is asked with each request (read.ts). */
  readonly ask: (text: string, values: readonly Value[]) => Promise<string>
  /** As `ask`, as the role that sees only this chain. */
  readonly askInChain: (organizationId: string, text: string, values: readonly Value[]) => Promise<string>
  /** Runs SQL text of several statements as the owner of the tables: for migrations only. */
  readonly execute: (sql: string) => Promise<void>
  /**
   * Hears NOTIFY on a channel. `onGap` is called when the connection was lost and is back: what was sent
   * meanwhile was not heard.
   */
  readonly listen: (channel: string, onPayload: (payload: string) => void, onGap: () => void) => Promise<void>
  readonly close: () => Promise<void>
}
