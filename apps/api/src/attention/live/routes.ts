import { LIVE_ALIVE_MS, LIVE_EVENT_NAMES, LIVE_PATH, type LiveEvent } from '@clampclock/contracts'
import type { ServerResponse } from 'node:http'
import { mayIn, type Actor } from '../../foundation/permissions/actor.ts'
import { actorOf } from '../../foundation/access/authenticate.ts'
import type { App } from '../../foundation/http/app-type.ts'

const ASK_WHO_MS = 18_000
/** Events of a burst leave together: a screen asks again once, not a hundred times. */
const COALESCE_MS = 150

/**
 * The stream of server-sent events. Each names what changed; `gap` says that some may have been missed, `alive` that the
 * stream is: a network that swallows it tells nobody.
 */
export async function liveRoutes(app: App): Promise<void> {
  const open = new Set<ServerResponse>()
  app.addHook('preClose', async () => {
    for (const stream of open) stream.end()
  })

  app.get(
    LIVE_PATH,
    { config: { access: 'readShop', rateLimit: false, isStream: true }, schema: { hide: true } },
    (request, reply) => {
      const actor = request.actor as Actor
      reply.hijack()
      const stream = reply.raw
      stream.writeHead(200, {
        'content-type': 'text/event-stream; charset=utf-8',
        'cache-control': 'no-store',
        connection: 'keep-alive',
        'x-accel-buffering': 'no',
      })
      stream.write('retry: 2000\n\n')
      open.add(stream)

      const pending = new Map<string, LiveEvent>()
      let timer: NodeJS.Timeout | undefined
      const flush = () => {
        timer = undefined
        for (const event of pending.values())
          stream.write(`event: ${LIVE_EVENT_NAMES.change}\ndata: ${JSON.stringify(event)}\n\n`)
        pending.clear()
      }
      const unsubscribe = app.live.subscribe((heard) => {
        if (heard === 'gap') {
          stream.write(`event: ${LIVE_EVENT_NAMES.gap}\ndata: {}\n\n`)
          return
        }
        const { organizationId, event } = heard
        if (organizationId !== actor.organization.id) return
        if (event.shopId !== null && !mayIn(actor, 'readShop', event.shopId)) return
        pending.set(JSON.stringify(event), event)
        timer ??= setTimeout(flush, COALESCE_MS)
      })
      const alive = () => stream.write(`event: ${LIVE_EVENT_NAMES.alive}\ndata: {}\n\n`)
      const heartbeat = setInterval(alive, LIVE_ALIVE_MS)
      // Who has been shut out meanwhile hears no more.
      const askWho = async () => {
        const still = await actorOf(request).catch(() => actor)
        if (!still) stream.end()
      }
      const guard = setInterval(() => void askWho(), ASK_WHO_MS)

      stream.on('close', () => {
        clearInterval(heartbeat)
        clearInterval(guard)
        clearTimeout(timer)
        unsubscribe()
        open.delete(stream)
      })
    },
  )
}
