import * as z from 'zod'

/**
 * Live updates: `GET /v1/events` is a stream of server-sent events. An event names what changed and never
 * carries it; whoever shows it asks again.
 */
export const LiveTopic = z.enum([
  'stock',
  'bonds',
  'bookings',
  'plans',
  'planProgress',
  'repairs',
  'attachments',
  'temperature',
  'alerts',
  'shops',
  'products',
  'people',
])
export type LiveTopic = z.output<typeof LiveTopic>

export const LiveEvent = z
  .object({ topic: LiveTopic, shopId: z.string().nullable(), id: z.string().nullable() })
  .meta({ id: 'LiveEvent' })
export type LiveEvent = z.output<typeof LiveEvent>

export const LIVE_PATH = '/v1/events'

/** Names of the events on the stream: a change, a gap in which changes may have been missed, and that it still lives. */
export const LIVE_EVENT_NAMES = { change: 'change', gap: 'gap', alive: 'alive' } as const

/** How often a stream says that it lives, ms. */
export const LIVE_ALIVE_MS = 6_000
