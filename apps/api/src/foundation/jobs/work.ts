import { tellItFails, tellItWorks } from './dead-letter.ts'
import {
  HEARD_EVERY_MS,
  keepDone,
  keepFailed,
  stillAtIt,
  take,
  TOLD_AFTER,
  waiting,
  type Taken,
} from './job-store.ts'
import type { Queue, Worker } from './queue.ts'

/** Does one job to its end, and keeps how it went. What goes wrong is logged, kept and tried again: this never throws. */
export async function work(worker: Worker, queue: Queue, taken: Taken, signal: AbortSignal): Promise<void> {
  const { database, clock, log } = worker
  const { organizationId, subject, dueAt } = taken
  const about = { queue: queue.name, organizationId, subject }
  const heard = setInterval(() => {
    stillAtIt(database, taken).catch((error: unknown) =>
      log.error({ err: error, ...about }, 'a job was not heard from'),
    )
  }, HEARD_EVERY_MS)
  try {
    try {
      await keepDone(
        database,
        taken,
        await queue.run({ organizationId, subject, dueAt, now: clock(), signal }),
      )
      if (taken.failures >= TOLD_AFTER) await tellItWorks(worker, taken, clock())
    } catch (error) {
      log.error({ err: error, ...about }, 'a job failed')
      const failures = await keepFailed(database, taken, error, clock())
      if (failures >= TOLD_AFTER) await tellItFails(worker, queue, taken, clock())
    }
  } catch (error) {
    // The database could not even keep that: the job counts as taken until it is taken for dead.
    log.error({ err: error, ...about }, 'how a job went was not kept')
  } finally {
    clearInterval(heard)
  }
}

/** A job that would wake itself for ever ends here. */
const MOST = 1000

/** Does what is due, one after the other, until nothing is: for tests and for what runs without a process of its own. */
export async function workOff(worker: Worker, queues: readonly Queue[]): Promise<number> {
  const never = new AbortController().signal
  for (let done = 0; done < MOST;) {
    const before = done
    const now = worker.clock()
    const lanes = queues.map(({ name }) => ({ queue: name, slots: MOST, slotsOfChain: MOST }))
    for (const key of await waiting(worker.database, lanes, now)) {
      const taken = await take(worker.database, key, now)
      if (!taken) continue
      await work(
        worker,
        queues.find(({ name }) => name === key.queue)!,
        taken,
        never,
      )
      done += 1
    }
    if (done === before) return done
  }
  throw new Error(`More than ${MOST} jobs in a row: one of them wakes itself`)
}
