import { message } from '@clampclock/messages'
import type { App } from '../../foundation/http/app-type.ts'
import type { Queue } from '../../foundation/jobs/queue.ts'
import { watchOne } from './watch.ts'

/**
 * Looks at a chain after its stock, temperatures or bookings have changed, and when the next instant comes at which time
 * alone may bring something about.
 */
export function watchQueue({ database }: Pick<App, 'database'>): Queue {
  return {
    name: 'watch',
    slots: 2,
    slotsOfChain: 1,
    whenItFails: message('alert.failsWatch'),
    run: ({ organizationId, now }) => watchOne(database, organizationId, now),
  }
}
