import type { App } from '../../foundation/http/app-type.ts'
import { watchAll } from './watch.ts'

const EVERY_MS = 30_000
/** Readings of a burst are looked at together. */
const AFTER_CHANGE_MS = 400

/** Looks at once, every half minute, and soon after stock, temperatures or bookings change; answers how to stop. */
export function startWatching(app: App): () => Promise<void> {
  let running: Promise<void> | undefined
  let soon: NodeJS.Timeout | undefined
  const look = () => {
    running ??= watchAll(app.database, app.clock())
      .catch((error: unknown) => app.log.error({ err: error }, 'watching for alerts failed'))
      .finally(() => {
        running = undefined
      })
  }
  const timer = setInterval(look, EVERY_MS)
  const unsubscribe = app.live.subscribe((heard) => {
    if (heard !== 'gap' && !CAUSES.has(heard.event.topic)) return
    soon ??= setTimeout(() => {
      soon = undefined
      look()
    }, AFTER_CHANGE_MS)
  })
  look()
  return async () => {
    clearInterval(timer)
    clearTimeout(soon)
    unsubscribe()
    await running
  }
}

/** What an alert may follow from; alerts themselves would go round in a circle. */
const CAUSES: ReadonlySet<string> = new Set(['stock', 'temperature', 'bookings', 'bonds', 'shops', 'plans'])
