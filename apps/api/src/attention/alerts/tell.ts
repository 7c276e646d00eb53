import type { Tx } from '../../foundation/database/database.ts'
import { inEnglish } from '../../foundation/words/words.ts'
import { saidBy } from './alerts.ts'
import { wake } from '../../foundation/jobs/wake.ts'
import type { Alert as AlertRow } from '../../generated/prisma/client.ts'

type EventType = 'alert.opened' | 'alert.closed'

/**
 * Puts a message for each webhook that wants it into the outbox, in the transaction of what it tells of. The body is that
 * of Standard Webhooks: type, timestamp, data; it says what is needed to act without asking back.
 */
export async function tellWebhooks(tx: Tx, type: EventType, alert: AlertRow, now: Date): Promise<void> {
  const webhooks = await tx.webhook.findMany({
    where: { active: true, OR: [{ kinds: { isEmpty: true } }, { kinds: { has: alert.kind } }] },
    select: { id: true },
  })
  if (webhooks.length === 0) return
  const payload = JSON.stringify({
    type,
    timestamp: now.toISOString(),
    data: {
      alertId: alert.id,
      shopId: alert.shopId,
      kind: alert.kind,
      severity: alert.severity,
      message: inEnglish(saidBy(alert)),
      said: { message: saidBy(alert) },
      subject: { kind: alert.subjectKind, id: alert.subjectId },
      repairOrderId: alert.repairOrderId,
      openedAt: alert.openedAt.toISOString(),
      closedAt: alert.closedAt?.toISOString() ?? null,
    },
  })
  await tx.delivery.createMany({
    data: webhooks.map(({ id: webhookId }) => ({
      organizationId: alert.organizationId,
      webhookId,
      // One message an event and webhook, however often the watch looks.
      messageId: `msg_${type.replace('.', '_')}_${alert.id}_${webhookId}`,
      payload,
      createdAt: now,
      nextAttemptAt: now,
    })),
    skipDuplicates: true,
  })
  for (const { id: subject } of webhooks)
    await wake(tx, { organizationId: alert.organizationId, queue: 'delivery', subject })
}
