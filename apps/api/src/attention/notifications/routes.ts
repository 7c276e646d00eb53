import { message } from '@clampclock/messages'
import { notificationRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { wake } from '../../foundation/jobs/wake.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { addWebhook, listDeliveries, listWebhooks, removeWebhook, testWebhook } from './webhooks.ts'

export async function notificationRoutes(app: App): Promise<void> {
  bind(app, contracts.listWebhooks, async ({ tx }) => ({ items: await listWebhooks(tx) }))
  bind(app, contracts.addWebhook, ({ tx, actor, body, now }) => addWebhook(tx, actor, body, now))
  bind(app, contracts.removeWebhook, async ({ tx, params }) => {
    await removeWebhook(tx, params.webhookId)
    return null
  })
  bind(app, contracts.testWebhook, async ({ tx, actor, params, now }) => ({
    messageId: await testWebhook(tx, actor, params.webhookId, now),
  }))
  bind(app, contracts.listDeliveries, ({ tx, params }) => listDeliveries(tx, params.webhookId))

  const canSend = app.config.smtpUrl !== undefined
  bind(app, contracts.getDigest, async ({ tx, actor }) => {
    const row = await tx.digestSubscription.findUnique({ where: { personId: actor.id } })
    return { hour: row?.hour ?? null, canSend }
  })
  bind(app, contracts.setDigest, async ({ tx, actor, body: { hour } }) => {
    if (actor.kind !== 'person') throw wrongState(message('setup-problem.tokenNoMail'))
    const personId = actor.id
    if (hour === null) await tx.digestSubscription.deleteMany({ where: { personId } })
    else
      await tx.digestSubscription.upsert({
        where: { personId },
        create: { organizationId: actor.organization.id, personId, hour },
        update: { hour },
      })
    await wake(tx, { organizationId: actor.organization.id, queue: 'digest' })
    return { hour, canSend }
  })
}
