import { message } from '@clampclock/messages'
import type { Config, Keep } from '../config/config.ts'
import type { Database } from '../database/database.ts'
import type { Queue } from '../jobs/queue.ts'

const DAY_MS = 86_400_000
/** Where there was more than a run takes out, the next one follows after others have had their turn. */
const SOON_MS = 1_000
/** Rows of one table that one statement takes out. */
export const MOST_AT_ONCE = 10_000

export interface Aged {
  readonly organizationId: string
  readonly keep: Keep
  readonly now: Date
}

/** Takes out of one chain what was kept long enough, as the owner of the tables; answers whether there is more. */
export type Forget = (database: Database, aged: Aged) => Promise<boolean>

/** Once a day, chain by chain. */
export function retentionQueue(
  { database, config }: { readonly database: Database; readonly config: Config },
  all: readonly Forget[],
): Queue {
  return {
    name: 'retention',
    slots: 1,
    slotsOfChain: 1,
    whenItFails: message('alert.failsRetention'),
    run: async ({ organizationId, now }) => {
      let isMore = false
      for (const forget of all)
        isMore = (await forget(database, { organizationId, keep: config.keep, now })) || isMore
      return new Date(now.getTime() + (isMore ? SOON_MS : DAY_MS))
    },
  }
}

export function daysBefore(now: Date, days: number): Date {
  return new Date(now.getTime() - days * DAY_MS)
}
