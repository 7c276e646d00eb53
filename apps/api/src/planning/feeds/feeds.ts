import { FEED_PATH, type CalendarFeed, type calendarFeedRoutes, type ResultOf } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import { hashSecret, newSecret } from '../../foundation/access/secrets.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { resourceById } from '../../foundation/shops/resources.ts'

const withResource = { resource: { select: { name: true } } } satisfies Prisma.CalendarFeedInclude
type FeedRow = Prisma.CalendarFeedGetPayload<{ include: typeof withResource }>

export async function listCalendarFeeds(tx: Tx, shopId: string): Promise<CalendarFeed[]> {
  const rows = await tx.calendarFeed.findMany({
    where: { shopId },
    include: withResource,
    orderBy: [{ createdAt: 'desc' }, { id: 'asc' }],
  })
  return rows.map(toFeed)
}

export async function addCalendarFeed(
  tx: Tx,
  actor: Actor,
  resourceId: string,
  now: Date,
): Promise<ResultOf<typeof calendarFeedRoutes.addCalendarFeed>> {
  const { shopId } = await resourceById(tx, resourceId)
  requireIn(actor, 'planWork', shopId)
  const secret = newSecret('feed')
  const organizationId = actor.organization.id
  const row = await tx.calendarFeed.create({
    data: {
      organizationId,
      shopId,
      resourceId,
      secretHash: hashSecret(secret),
      createdAt: now,
      createdBy: actor.name,
    },
    include: withResource,
  })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: row.id })
  return { ...toFeed(row), path: `${FEED_PATH}/${secret}.ics` }
}

export async function revokeCalendarFeed(tx: Tx, actor: Actor, id: string, now: Date): Promise<void> {
  const row = await tx.calendarFeed.findUnique({ where: { id } })
  if (!row) throw notFound('calendar address', id)
  requireIn(actor, 'planWork', row.shopId)
  await tx.calendarFeed.update({ where: { id }, data: { revokedAt: row.revokedAt ?? now } })
  const { organizationId, shopId } = row
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: id })
}

function toFeed({ resource, ...row }: FeedRow): CalendarFeed {
  return { ...row, resourceName: resource.name }
}
