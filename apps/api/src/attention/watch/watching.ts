import type { App } from '../../foundation/http/app-type.ts'
import { watchAll, watchOne } from './watch.ts'

const EVERY_MS = 30_000
/** Readings of a burst are looked at together. */
const AFTER_CHANGE_MS = 400

/**
 * Looks at every chain at once and every half minute, and at one soon after its stock, temperatures or bookings change;
 * answers how to stop.
 */
export function startWatching(app: App): () => Promise<void> {
  const changed = new Set<string>()
  let everyone = true
  let running: Promise<void> | undefined
  let soon: NodeJS.Timeout | undefined

  const failed = (error: unknown) => app.log.error({ err: error }, 'watching for alerts failed')
  const look = async () => {
    while (everyone || changed.size > 0) {
      const [organizationId] = changed
      if (everyone) {
        everyone = false
        changed.clear()
        await watchAll(app.database, app.clock()).catch(failed)
      } else if (organizationId !== undefined) {
        changed.delete(organizationId)
        // What goes wrong in one chain keeps no other waiting.
        await watchOne(app.database, organizationId, app.clock()).catch(failed)
      }
    }
  }
  const start = () => {
    running ??= look().finally(() => {
      running = undefined
    })
  }
  const startSoon = () => {
    soon ??= setTimeout(() => {
      soon = undefined
      start()
    }, AFTER_CHANGE_MS)
  }
  const timer = setInterval(() => {
    everyone = true
    start()
  }, EVERY_MS)
  const unsubscribe = app.live.subscribe((heard) => {
    if (heard === 'gap') everyone = true
    else if (CAUSES.has(heard.event.topic)) changed.add(heard.organizationId)
    else return
    startSoon()
  })
  start()
  return async () => {
    clearInterval(timer)
    clearTimeout(soon)
    unsubscribe()
    everyone = false
    changed.clear()
    await running
  }
}

/** What an alert may follow from; alerts themselves would go round in a circle. */
const CAUSES: ReadonlySet<string> = new Set(['stock', 'temperature', 'bookings', 'bonds', 'shops', 'plans'])
