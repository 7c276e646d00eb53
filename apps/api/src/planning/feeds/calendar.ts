import { told } from '../../foundation/words/words.ts'
import { nameOf, toldOf } from '../../foundation/words/kept.ts'
import { say, type Reader } from '@clampclock/messages'
import ical, { ICalCalendarMethod } from 'ical-generator'
import { hashSecret } from '../../foundation/access/secrets.ts'
import type { Database } from '../../foundation/database/database.ts'
import { inChain } from '../../foundation/database/in-chain.ts'
import { WHOLE_BOOKING } from '../bookings/booking-store.ts'

const DAY_MS = 86_400_000
const PAST_DAYS = 30
const AHEAD_DAYS = 60
/** How often a calendar program should ask again, s. */
const ASK_AGAIN_SECONDS = 15 * 60

/**
 * The bookings of what a secret address stands for, as iCalendar; undefined when it stands for nothing, or no more. Times
 * are instants (UTC), so that a change of clocks moves nothing, whatever zone the reader is in.
 */
export async function calendarOf(
  database: Database,
  secret: string,
  reader: Reader,
  now: Date,
): Promise<string | undefined> {
  const feed = await database.prisma.calendarFeed.findUnique({
    where: { secretHash: hashSecret(secret) },
    include: { resource: { include: { shop: true } } },
  })
  if (!feed || feed.revokedAt) return undefined
  const { resource } = feed
  const bookings = await inChain(database, feed.organizationId, async (tx) => {
    await tx.calendarFeed.update({ where: { id: feed.id }, data: { lastUsedAt: now } })
    return tx.booking.findMany({
      where: {
        resourceId: feed.resourceId,
        cancelledAt: null,
        endsAt: { gt: new Date(now.getTime() - PAST_DAYS * DAY_MS) },
        startsAt: { lt: new Date(now.getTime() + AHEAD_DAYS * DAY_MS) },
      },
      include: WHOLE_BOOKING,
      orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
    })
  })
  const calendar = ical({
    name: `${resource.name}, ${resource.shop.name}`,
    prodId: { company: 'clampclock', product: 'schedule', language: reader.language.toUpperCase() },
    method: ICalCalendarMethod.PUBLISH,
    ttl: ASK_AGAIN_SECONDS,
  })
  for (const { id, startsAt, endsAt, version, purpose, repairOrder, operation, note, noteSaid } of bookings) {
    const what = operation
      ? told(reader, nameOf(operation))
      : say(reader, purpose === 'bake' ? 'feed.bake' : 'feed.inTheBay')
    calendar.createEvent({
      id: `${id}@clampclock`,
      sequence: version,
      stamp: now,
      start: startsAt,
      end: endsAt,
      summary: say(reader, 'feed.summary', {
        what: resource.kind === 'bay' || operation ? what : say(reader, 'feed.work'),
        order: repairOrder.number,
        vehicle: repairOrder.vehicle,
      }),
      location: resource.shop.name,
      ...(note === '' ? {} : { description: told(reader, toldOf(note, noteSaid)) }),
    })
  }
  return calendar.toString()
}
