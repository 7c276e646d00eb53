import { randomBytes, randomUUID } from 'node:crypto'
import type { BodyOf, notificationRoutes, ResultOf, Webhook } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Webhook as WebhookRow } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wake } from '../../foundation/jobs/wake.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'

export async function listWebhooks(tx: Tx): Promise<Webhook[]> {
  return (await tx.webhook.findMany({ orderBy: { name: 'asc' } })).map(toWebhook)
}

export async function addWebhook(
  tx: Tx,
  actor: Actor,
  { name, url, kinds }: BodyOf<typeof notificationRoutes.addWebhook>,
  now: Date,
): Promise<ResultOf<typeof notificationRoutes.addWebhook>> {
  // Standard Webhooks: 24 to 64 random bytes, base64, behind `whsec_`.
  const secret = `whsec_${randomBytes(32).toString('base64')}`
  const row = await tx.webhook.create({
    data: {
      organizationId: actor.organization.id,
      name,
      url,
      kinds,
      secret,
      createdAt: now,
      createdBy: actor.name,
    },
  })
  return { ...toWebhook(row), secret }
}

export async function removeWebhook(tx: Tx, id: string): Promise<void> {
  const { count } = await tx.webhook.deleteMany({ where: { id } })
  if (count === 0) throw notFound('webhook', id)
}

export async function testWebhook(tx: Tx, actor: Actor, id: string, now: Date): Promise<string> {
  await webhookRow(tx, id)
  const messageId = `msg_test_${randomUUID()}`
  await tx.delivery.create({
    data: {
      organizationId: actor.organization.id,
      webhookId: id,
      messageId,
      payload: JSON.stringify({
        type: 'webhook.test',
        timestamp: now.toISOString(),
        data: { sentBy: actor.name },
      }),
      createdAt: now,
      nextAttemptAt: now,
    },
  })
  await wake(tx, { organizationId: actor.organization.id, queue: 'delivery', subject: id })
  return messageId
}

export async function listDeliveries(
  tx: Tx,
  webhookId: string,
): Promise<ResultOf<typeof notificationRoutes.listDeliveries>> {
  await webhookRow(tx, webhookId)
  const rows = await tx.delivery.findMany({ where: { webhookId }, orderBy: { id: 'desc' }, take: 100 })
  return {
    items: rows.map((row) => ({
      id: String(row.id),
      messageId: row.messageId,
      type: (JSON.parse(row.payload) as { type: string }).type,
      createdAt: row.createdAt,
      attempts: row.attempts,
      deliveredAt: row.deliveredAt,
      nextAttemptAt: row.deliveredAt || row.givenUpAt ? null : row.nextAttemptAt,
      lastError: row.lastError,
    })),
  }
}

async function webhookRow(tx: Tx, id: string): Promise<WebhookRow> {
  const row = await tx.webhook.findUnique({ where: { id } })
  if (!row) throw notFound('webhook', id)
  return row
}

function toWebhook({ id, name, url, kinds, active, createdAt, createdBy }: WebhookRow): Webhook {
  return { id, name, url, kinds: kinds as Webhook['kinds'], active, createdAt, createdBy }
}
