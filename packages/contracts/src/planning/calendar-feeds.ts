import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant } from '../foundation/values.ts'

/** Calendars are read at `GET /feeds/<secret>.ics`, without signing in: whoever has the address may. */
export const FEED_PATH = '/feeds'

export const CalendarFeed = z
  .object({
    id: Id,
    shopId: Id,
    resourceId: Id,
    resourceName: z.string(),
    createdAt: Instant,
    createdBy: z.string(),
    lastUsedAt: Instant.nullable(),
    revokedAt: Instant.nullable(),
  })
  .meta({ id: 'CalendarFeed' })
export type CalendarFeed = z.output<typeof CalendarFeed>

export const calendarFeedRoutes = {
  listCalendarFeeds: defineRoute({
    method: 'GET',
    path: '/v1/shops/:shopId/calendarFeeds',
    operationId: 'listCalendarFeeds',
    tag: 'schedule',
    summary: 'Calendar addresses of a shop, without their secrets',
    access: 'planWork',
    params: z.object({ shopId: Id }),
    status: 200,
    response: z.object({ items: z.array(CalendarFeed) }),
  }),
  addCalendarFeed: defineRoute({
    method: 'POST',
    path: '/v1/resources/:resourceId/calendarFeeds',
    operationId: 'addCalendarFeed',
    tag: 'schedule',
    summary:
      'Make a secret address at which a calendar program reads the bookings of a bay, an oven or a person',
    description:
      'iCalendar (RFC 5545). The address is told once and kept nowhere; whoever has it sees these bookings. Revoke it when it has got about. In English; with `?language=es` after the address, in Spanish.',
    access: 'planWork',
    params: z.object({ resourceId: Id }),
    answer: 'The feed with its secret address, which is shown this once',
    status: 201,
    response: CalendarFeed.extend({ path: z.string().describe('On this server: /feeds/<secret>.ics') }),
    answerIsSecret: true,
  }),
  revokeCalendarFeed: defineRoute({
    method: 'DELETE',
    path: '/v1/calendarFeeds/:feedId',
    operationId: 'revokeCalendarFeed',
    tag: 'schedule',
    summary: 'Revoke a calendar address: from now on it answers nothing',
    access: 'planWork',
    params: z.object({ feedId: Id }),
    status: 204,
    response: z.null(),
  }),
}
