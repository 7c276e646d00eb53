import { Webhook } from 'standardwebhooks'
import type { Database } from '../../foundation/database/database.ts'
import { MAIL, type DigestMail, type Receiver } from './outgoing.ts'
import type { Post } from './post.ts'

/** Waits after each failed attempt, as Standard Webhooks recommends; then it is given up. */
const WAITS_MS = [5_000, 300_000, 1_800_000, 7_200_000, 18_000_000, 36_000_000, 36_000_000] as const
const TIMEOUT_MS = 15_000
/** Sent at once by one process; another one takes the next. */
const BATCH = 20

export type SendMail = (mail: DigestMail & { messageId: string }) => Promise<void>

export interface Senders {
  readonly sendMail: SendMail | undefined
  readonly post: Post
}

interface Due {
  id: bigint
  organization_id: string
  message_id: string
  payload: string
  attempts: number
  url: string | null
  secret: string | null
}

/**
 * Sends what is due. A message is claimed by moving its next attempt on before it is sent: a process that dies while
 * sending costs one wait, and another process never sends it at the same time. It may arrive twice; its id tells.
 *
 * @param only Of one chain: what goes to one webhook of it (or `MAIL`).
 * @returns How many were tried.
 */
export async function deliverDue(
  database: Database,
  senders: Senders,
  now: Date,
  only?: Receiver,
): Promise<number> {
  const { prisma } = database
  const due = await prisma.$queryRaw<Due[]>`
    with claimed as (
      select d.id from delivery d
       where d.delivered_at is null and d.given_up_at is null and d.next_attempt_at <= ${now}::timestamptz
         and (d.webhook_id is not null or ${senders.sendMail !== undefined})
         and (${only === undefined} or (d.organization_id = ${only?.organizationId ?? null}::uuid and coalesce(d.webhook_id::text, ${MAIL}) = ${only?.subject ?? null}))
       order by d.next_attempt_at limit ${BATCH} for update skip locked
    )
    update delivery d
       set attempts = d.attempts + 1, next_attempt_at = ${new Date(now.getTime() + 2 * TIMEOUT_MS)}::timestamptz
      from claimed
     where d.id = claimed.id
    returning d.id, d.organization_id, d.message_id, d.payload, d.attempts,
              (select w.url from webhook w where w.id = d.webhook_id) as url,
              (select w.secret from webhook w where w.id = d.webhook_id) as secret`
  await Promise.all(due.map((each) => deliver(database, senders, each, now)))
  return due.length
}

/** When the next attempt for a receiver is due; null: nothing waits. */
export async function nextAttempt(
  { prisma }: Database,
  { organizationId, subject }: Receiver,
): Promise<Date | null> {
  const { _min } = await prisma.delivery.aggregate({
    where: {
      organizationId,
      webhookId: subject === MAIL ? null : subject,
      deliveredAt: null,
      givenUpAt: null,
    },
    _min: { nextAttemptAt: true },
  })
  return _min.nextAttemptAt
}

async function deliver({ prisma }: Database, senders: Senders, each: Due, now: Date): Promise<void> {
  const error = await send(senders, each, now).then(
    () => undefined,
    (reason: unknown) => (reason instanceof Error ? reason.message : String(reason)),
  )
  const wait = WAITS_MS[each.attempts - 1]
  // Its webhook may have been removed meanwhile, and the message with it.
  await prisma.delivery.updateMany({
    where: { id: each.id },
    data:
      error === undefined
        ? { deliveredAt: now, lastError: null }
        : wait === undefined
          ? { givenUpAt: now, lastError: error.slice(0, 500) }
          : { nextAttemptAt: new Date(now.getTime() + wait), lastError: error.slice(0, 500) },
  })
}

async function send({ sendMail, post }: Senders, each: Due, now: Date): Promise<void> {
  if (each.url === null || each.secret === null) {
    await sendMail?.({ ...(JSON.parse(each.payload) as DigestMail), messageId: each.message_id })
    return
  }
  const headers = {
    'content-type': 'application/json',
    'webhook-id': each.message_id,
    'webhook-timestamp': String(Math.floor(now.getTime() / 1000)),
    'webhook-signature': new Webhook(each.secret).sign(each.message_id, now, each.payload),
  }
  const status = await post(each.url, headers, each.payload, TIMEOUT_MS)
  if (status < 200 || status > 299) throw new Error(`It answered ${status}`)
}
