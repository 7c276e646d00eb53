import { nextDue, take, takeOver, waiting } from './job-store.ts'
import type { Queue, Worker } from './queue.ts'
import { work } from './work.ts'

/** For wake-ups that were not heard, and for what another process left behind. */
const AT_LEAST_EVERY_MS = 15_000
/** What comes in a burst is done together. */
const AFTER_WAKE_UP_MS = 150

/**
 * Does the jobs of these queues as they fall due, some of each queue at once, until the answer is called. Any number of
 * processes may do so.
 */
export function startWorking(worker: Worker, queues: readonly Queue[]): () => Promise<void> {
  const { database, clock, log } = worker
  const running = new Map<string, Set<Promise<void>>>(queues.map(({ name }) => [name, new Set()]))
  const stopper = new AbortController()
  let looking: Promise<void> | undefined
  let again = false
  /** More was due than there was room for. */
  let isBehind = false
  let timer: NodeJS.Timeout | undefined

  const lookIn = (ms: number) => {
    clearTimeout(timer)
    if (!stopper.signal.aborted) timer = setTimeout(look, ms)
  }
  const look = () => {
    if (stopper.signal.aborted) return
    if (looking) {
      again = true
      return
    }
    again = false
    looking = takeDue()
      .catch((error: unknown) => {
        log.error({ err: error }, 'looking for jobs failed')
        return AT_LEAST_EVERY_MS
      })
      .then((ms) => {
        looking = undefined
        lookIn(again ? AFTER_WAKE_UP_MS : ms)
      })
  }
  /** Answers after how long it is worth looking again. */
  const takeDue = async (): Promise<number> => {
    const now = clock()
    const lanes = queues
      .map(({ name, slots, slotsOfChain }) => ({
        queue: name,
        slots: slots - running.get(name)!.size,
        slotsOfChain,
      }))
      .filter(({ slots }) => slots > 0)
    const found = await waiting(database, lanes, now)
    isBehind = lanes.some(({ queue, slots }) => found.filter((key) => key.queue === queue).length === slots)
    let missed = false
    for (const key of found) {
      if (stopper.signal.aborted) return 0
      const taken = await take(database, key, now)
      if (!taken) {
        missed = true
        continue
      }
      const here = running.get(key.queue)!
      const queue = queues.find(({ name }) => name === key.queue)!
      const doing = work(worker, queue, taken, stopper.signal).finally(() => {
        here.delete(doing)
        if (isBehind) look()
        else lookSoon()
      })
      here.add(doing)
    }
    // Another process was first: there may be more behind what it took.
    if (missed) return AFTER_WAKE_UP_MS
    const next = await nextDue(
      database,
      queues.map(({ name }) => name),
      now,
    )
    return next
      ? Math.min(Math.max(next.getTime() - now.getTime(), AFTER_WAKE_UP_MS), AT_LEAST_EVERY_MS)
      : AT_LEAST_EVERY_MS
  }
  let soon: NodeJS.Timeout | undefined
  const lookSoon = () => {
    if (stopper.signal.aborted) return
    soon ??= setTimeout(() => {
      soon = undefined
      look()
    }, AFTER_WAKE_UP_MS)
  }

  const begin = async () => {
    if (database.kind === 'embedded') await takeOver(database)
    await database.listen('clampclock_jobs', lookSoon, lookSoon)
  }
  const beginning = begin()
    .catch((error: unknown) => log.error({ err: error }, 'wake-ups are not heard'))
    .then(look)
  return async () => {
    stopper.abort()
    clearTimeout(timer)
    clearTimeout(soon)
    await beginning
    await looking
    await Promise.all([...running.values()].flatMap((here) => [...here]))
  }
}
