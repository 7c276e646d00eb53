import { deliveryQueue } from './attention/notifications/delivering.ts'
import { forgetDeliveries } from './attention/notifications/forget-deliveries.ts'
import { digestQueue } from './attention/notifications/digest.ts'
import { watchQueue } from './attention/watch/watching.ts'
import { thinReadings } from './cure/temperature/thin-readings.ts'
import type { App } from './foundation/http/app-type.ts'
import { wakeEveryChain } from './foundation/jobs/job-store.ts'
import type { Queue } from './foundation/jobs/queue.ts'
import { forgetEvents, forgetKeys, forgetSessions } from './foundation/retention/forget.ts'
import { retentionQueue } from './foundation/retention/retention.ts'
import { startWorking } from './foundation/jobs/working.ts'
import { planningQueue } from './planning/plans/runner.ts'

/** How long what grows is kept is said in docs/operations.md. */
const FORGETTING = [forgetEvents, forgetKeys, forgetSessions, forgetDeliveries, thinReadings]

/** All that the service does by itself. */
export function queuesOf(app: App): readonly Queue[] {
  return [
    watchQueue(app),
    planningQueue(app),
    deliveryQueue(app),
    digestQueue(app),
    retentionQueue(app, FORGETTING),
  ]
}

/** Those that begin with time alone: each chain always has a job of them that waits. */
const OF_TIME = ['watch', 'digest', 'retention'] as const

/** Works on the jobs of every queue until the answer is called. */
export async function startAllWork(app: App): Promise<() => Promise<void>> {
  for (const queue of OF_TIME) await wakeEveryChain(app.database, queue)
  return startWorking(app, queuesOf(app))
}
