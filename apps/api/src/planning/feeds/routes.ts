import { readerOf } from '../../foundation/words/reader.ts'
import { message } from '@clampclock/messages'
import { calendarFeedRoutes as contracts, FEED_PATH } from '@clampclock/contracts'
import { requireIn } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { ProblemError } from '../../foundation/problems/problem-error.ts'
import { calendarOf } from './calendar.ts'
import { addCalendarFeed, listCalendarFeeds, revokeCalendarFeed } from './feeds.ts'

export async function feedRoutes(app: App): Promise<void> {
  bind(app, contracts.listCalendarFeeds, async ({ tx, actor, params }) => {
    requireIn(actor, 'planWork', params.shopId)
    return { items: await listCalendarFeeds(tx, params.shopId) }
  })
  bind(app, contracts.addCalendarFeed, ({ tx, actor, params, now }) =>
    addCalendarFeed(tx, actor, params.resourceId, now),
  )
  bind(app, contracts.revokeCalendarFeed, async ({ tx, actor, params, now }) => {
    await revokeCalendarFeed(tx, actor, params.feedId, now)
    return null
  })

  // The address is the secret: it is in no log.
  app.get<{ Params: { secret: string }; Querystring: { language?: string } }>(
    `${FEED_PATH}/:secret.ics`,
    { logLevel: 'silent', schema: { hide: true } },
    async (request, reply) => {
      const text = await calendarOf(
        app.database,
        request.params.secret,
        readerOf(null, request.query.language ?? request.headers['accept-language']),
        app.clock(),
      )
      if (text === undefined) throw new ProblemError('not-found', message('plan-problem.noCalendar'))
      return reply
        .type('text/calendar; charset=utf-8')
        .header('cache-control', 'private, no-store')
        .header('referrer-policy', 'no-referrer')
        .send(text)
    },
  )
}
