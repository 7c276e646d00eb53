import { message, say, type Reader } from '@clampclock/messages'
import { DateTime } from 'luxon'
import type { Tx } from '../../foundation/database/database.ts'
import { inChain } from '../../foundation/database/in-chain.ts'
import type { App } from '../../foundation/http/app-type.ts'
import type { Queue } from '../../foundation/jobs/queue.ts'
import { preferencesOf } from '../../foundation/access/preferences.ts'
import { readerOf } from '../../foundation/words/reader.ts'
import type { Alert, Person } from '../../generated/prisma/client.ts'
import { saidBy } from '../alerts/alerts.ts'
import { wake } from '../../foundation/jobs/wake.ts'
import { MAIL, type DigestMail } from './outgoing.ts'

const MOST_LINES = 60

/** Writes the mails of a chain when somebody's hour comes, also where it came while no process ran. */
export function digestQueue({
  database,
  config: { publicUrl, smtpUrl },
}: Pick<App, 'database' | 'config'>): Queue {
  return {
    name: 'digest',
    slots: 1,
    slotsOfChain: 1,
    whenItFails: message('alert.failsDigest'),
    run: ({ organizationId, dueAt, now }) =>
      smtpUrl === undefined
        ? Promise.resolve(null)
        : inChain(database, organizationId, (tx) =>
            queueDigests(tx, { organizationId, publicUrl, since: dueAt, now }),
          ),
  }
}

/** Somebody's hour that came after `since` and before `now`. */
export interface DigestsDue {
  readonly organizationId: string
  readonly publicUrl: string | undefined
  readonly since: Date
  readonly now: Date
}

/** One that was missed for longer is of yesterday's alerts, and not sent any more. */
const MOST_LATE_HOURS = 12

/**
 * Puts the day's mail into the outbox for everybody whose hour has come. The message's id carries person and day, so that
 * however often it is looked for, it is one mail. Answers when the next hour of anybody comes.
 */
export async function queueDigests(
  tx: Tx,
  { organizationId, publicUrl, since, now }: DigestsDue,
): Promise<Date | null> {
  const subscriptions = await tx.digestSubscription.findMany({
    include: { person: { include: { memberships: true } } },
  })
  let next: DateTime | null = null
  const shops = subscriptions.length === 0 ? [] : await tx.shop.findMany({ orderBy: { name: 'asc' } })
  for (const { person, hour } of subscriptions) {
    const all = person.memberships.some(({ shopId }) => shopId === null)
    const mine = shops.filter(({ id }) => all || person.memberships.some(({ shopId }) => shopId === id))
    if (person.disabledAt || mine.length === 0) continue
    const local = DateTime.fromJSDate(now, { zone: mine[0]?.timeZone ?? 'UTC' })
    const comes = hourOf(local, hour)
    if (next === null || comes < next) next = comes
    const came = hourOf(local.minus({ days: 1 }), hour)
    const missedFrom = DateTime.max(
      DateTime.min(DateTime.fromJSDate(since), local.startOf('hour')),
      local.minus({ hours: MOST_LATE_HOURS }),
    )
    if (came < missedFrom) continue
    const messageId = `digest_${person.id}_${came.toISODate()}`
    if (await tx.delivery.findFirst({ where: { messageId }, select: { id: true } })) continue
    const mail = await mailOf(tx, person, mine, local, publicUrl, now)
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
    await wake(tx, { organizationId, queue: 'delivery', subject: MAIL })
  }
  return next?.toJSDate() ?? null
}

/** The next instant after this one at which an hour of the day begins where it is told. */
function hourOf(after: DateTime, hour: number): DateTime {
  const today = after.set({ hour, minute: 0, second: 0, millisecond: 0 })
  return today > after ? today : after.plus({ days: 1 }).set({ hour, minute: 0, second: 0, millisecond: 0 })
}

/** Undefined when nothing is open: no mail is good news. */
async function mailOf(
  tx: Tx,
  person: Person,
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
  // Whoever it goes to reads it as chosen; of a mail nobody's browser tells anything.
  const reader = readerOf(preferencesOf(person), undefined)
  const rank = { danger: 0, warning: 1, notice: 2 } as Record<string, number>
  const sorted = alerts.toSorted((a, b) => (rank[a.severity] ?? 3) - (rank[b.severity] ?? 3))
  const lines = shops.flatMap(({ id, name }) => {
    const here = sorted.filter(({ shopId }) => shopId === id)
    return here.length === 0
      ? []
      : ['', name, ...here.map((alert) => `- ${say(reader, 'mail.alert', lineOf(alert))}`)]
  })
  const dangers = alerts.filter(({ severity }) => severity === 'danger').length
  return {
    to: person.email,
    subject: say(reader, 'mail.subject', {
      alerts: alerts.length,
      dangers,
      on: { day: local.toFormat('yyyy-MM-dd') },
    }),
    text: [
      say(reader, 'mail.intro'),
      ...lines.slice(0, MOST_LINES),
      ...(lines.length > MOST_LINES ? ['', say(reader, 'mail.more')] : []),
      '',
      ...(publicUrl ? [`${publicUrl.replace(/\/+$/, '')}/alerts`] : []),
      ...(await headLines(tx, reader, shops)),
    ].join('\n'),
  }
}

/** An alert as a line of a mail. */
function lineOf(alert: Alert) {
  const { severity, ownerName } = alert
  return {
    severity,
    what: { message: saidBy(alert) },
    owner: ownerName ?? '',
    owned: ownerName === null ? 'no' : 'yes',
  }
}

/** Kept in many mailboxes, the latest hashes show a chain of records that is written anew later. */
async function headLines(
  tx: Tx,
  reader: Reader,
  shops: readonly { id: string; name: string }[],
): Promise<string[]> {
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
    say(reader, 'mail.heads'),
    ...heads.map(({ shopId, sequence, hash }) => `${nameOf(shopId)} #${sequence} ${hash}`),
  ]
}
