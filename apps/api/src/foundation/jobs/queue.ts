import type { Message } from '@clampclock/messages'
import type { Database } from '../database/database.ts'

/** What does jobs: one of the service's own, or a test's. */
export interface Worker {
  readonly database: Database
  readonly clock: () => Date
  readonly log: { readonly error: (about: object, message: string) => void }
}

/** Why the work on a job begins: it looks at what is there, and not at who woke it. */
export interface Job {
  readonly organizationId: string
  /** Empty for what concerns the whole chain. */
  readonly subject: string
  /** Of the wake-up that has waited longest. */
  readonly dueAt: Date
  readonly now: Date
  /** Aborted when the process is to end. */
  readonly signal: AbortSignal
}

/**
 * Work of one sort. For a chain and subject only one at a time is at it, in whatever process; what wakes it meanwhile is
 * kept, and done after. It may be begun again after a crash: done twice, it must come to the same.
 */
export interface Queue {
  readonly name: string
  /** Of this process, at once. */
  readonly slots: number
  /** Of these for one chain: its faults and its slowness are its own. */
  readonly slotsOfChain: number
  /** Said to its chain when it fails again and again: what does not happen meanwhile. */
  readonly whenItFails: Message
  /** Does it all, and answers when it is to be looked at again without a cause; null: only when woken. */
  readonly run: (job: Job) => Promise<Date | null>
}
