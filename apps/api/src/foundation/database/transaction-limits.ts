/**
 * The embedded database has one connection, so transactions wait for each other: `maxWait` is how long one may
 * queue. `timeout` ends one that hangs; statements are given less (see connect.ts), so that the database and not
 * Prisma is the first to give up.
 */
export const TRANSACTION = { maxWait: 30_000, timeout: 30_000 } as const

export const STATEMENT_TIMEOUT_MS = 25_000
/** How long a writer waits for another's row before it is told that somebody else was first. */
export const LOCK_TIMEOUT_MS = 10_000
