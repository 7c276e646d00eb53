import type { ActStore } from './store.ts'

const NAME = 'clampclock.acts'
/** Longer than any answer is waited for: a tab that was killed keeps the others waiting no longer than that, ms. */
const LEASE_MS = 30_000

/**
 * Does the work in one tab of the device at a time. Where the browser has no locks (plain http) a lease in the store does
 * the same; that two senders overlap there for a moment does no harm, since each act has its key, and its order in the
 * store.
 *
 * @returns what says whether the work was done; false where another tab is at it.
 */
export function createExclusively(
  store: ActStore,
  holder: string,
  locks: Pick<LockManager, 'request'> | undefined,
): (work: () => Promise<void>) => Promise<boolean> {
  if (locks !== undefined)
    return async (work) => {
      await locks.request(NAME, work)
      return true
    }
  const take = () => store.lease(holder, Date.now(), Date.now() + LEASE_MS)
  return async (work) => {
    if (!(await take())) return false
    const renewing = setInterval(() => void take(), LEASE_MS / 3)
    try {
      await work()
    } finally {
      clearInterval(renewing)
      await store.lease(holder, Date.now(), 0)
    }
    return true
  }
}
