import { DateTime } from 'luxon'
import type { Database, Tx } from '../../foundation/database/database.ts'
import { inChain } from '../../foundation/database/in-chain.ts'

const MOST_LINES = 60

/** The mail of a day as it is kept in the outbox. */
export interface DigestMail {
  readonly to: string
  readonly subject: string
  readonly text: string
}

/**
 * Puts the day's mail into the outbox for everybody whose hour has come. The message's id carries person and day, so that
 * however many processes look, and however often, it is one mail.
 */
export async function queueDigests(
  database: Database,
  publicUrl: string | undefined,
  now: Date,
): Promise<void> {
  const organizations = await database.prisma.organization.findMany({ select: { id: true } })
  for (const { id } of organizations) await inChain(database, id, (tx) => queueChain(tx, id, publicUrl, now))
}

async function queueChain(
  tx: Tx,
  organizationId: string,
  publicUrl: string | undefined,
  now: Date,
): Promise<void> {
  const subscriptions = await tx.digestSubscription.findMany({
    include: { person: { include: { memberships: true } } },
  })
  if (subscriptions.length === 0) return
  const shops = await tx.shop.findMany({ orderBy: { name: 'asc' } })
  for (const { person, hour } of subscriptions) {
    const all = person.memberships.some(({ shopId }) => shopId === null)
    const mine = shops.filter(({ id }) => all || person.memberships.some(({ shopId }) => shopId === id))
    const local = DateTime.fromJSDate(now, { zone: mine[0]?.timeZone ?? 'UTC' })
    if (person.disabledAt || mine.length === 0 || local.hour !== hour) continue
    const messageId = `digest_${person.id}_${local.toISODate()}`
    if (await tx.delivery.findFirst({ where: { messageId }, select: { id: true } })) continue
    const mail = await mailOf(tx, person.email, mine, local, publicUrl, now)
    if (!mail) continue
    await tx.delivery.createMany({
      data: [
        {
          organizationId,
          personId: person.id,
          messageId,
          payload: JSON.stringify(mail),
          createdAt: now,
          nextAttemptAt: now,
        },
      ],
      skipDuplicates: true,
    })
  }
}

/** Undefined when nothing is open: no mail is good news. */
async function mailOf(
  tx: Tx,
  to: string,
  shops: readonly { id: string; name: string }[],
  local: DateTime,
  publicUrl: string | undefined,
  now: Date,
): Promise<DigestMail | undefined> {
  const alerts = await tx.alert.findMany({
    where: {
      shopId: { in: shops.map(({ id }) => id) },
      closedAt: null,
      OR: [{ snoozedUntil: null }, { snoozedUntil: { lte: now } }],
    },
    orderBy: [{ openedAt: 'desc' }],
  })
  if (alerts.length === 0) return undefined
  const rank = { danger: 0, warning: 1, notice: 2 } as Record<string, number>
  const sorted = alerts.toSorted((a, b) => (rank[a.severity] ?? 3) - (rank[b.severity] ?? 3))
  const lines = shops.flatMap(({ id, name }) => {
    const here = sorted.filter(({ shopId }) => shopId === id)
    return here.length === 0
      ? []
      : [
          '',
          name,
          ...here.map(
            ({ severity, message, ownerName }) =>
              `- ${severity.toUpperCase()}: ${message}${ownerName ? ` (${ownerName})` : ''}`,
          ),
        ]
  })
  const dangers = alerts.filter(({ severity }) => severity === 'danger').length
  return {
    to,
    subject: `${alerts.length} open ${alerts.length === 1 ? 'alert' : 'alerts'}${dangers > 0 ? `, ${dangers} of danger` : ''}: ${local.setLocale('en').toFormat('d LLL yyyy')}`,
    text: [
      'What needs attention in your shops:',
      ...lines.slice(0, MOST_LINES),
      ...(lines.length > MOST_LINES ? ['', 'and more.'] : []),
      '',
      ...(publicUrl ? [`${publicUrl.replace(/\/+$/, '')}/alerts`] : []),
      ...(await headLines(tx, shops)),
    ].join('\n'),
  }
}

/** Kept in many mailboxes, the latest hashes show a chain of records that is written anew later. */
async function headLines(tx: Tx, shops: readonly { id: string; name: string }[]): Promise<string[]> {
  const heads = await tx.bondRecordEntry.findMany({
    where: { shopId: { in: shops.map(({ id }) => id) } },
    distinct: ['shopId'],
    orderBy: [{ shopId: 'asc' }, { sequence: 'desc' }],
    select: { shopId: true, sequence: true, hash: true },
  })
  if (heads.length === 0) return []
  const nameOf = (id: string) => shops.find((shop) => shop.id === id)?.name ?? id
  return [
    '',
    'Latest entries of the bond records (keep this mail: records:verify --head compares with it):',
    ...heads.map(({ shopId, sequence, hash }) => `${nameOf(shopId)} #${sequence} ${hash}`),
  ]
}
