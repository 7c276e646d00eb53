import * as z from 'zod'
import { AlertKind } from './alerts.ts'
import { defineRoute } from '../foundation/route.ts'
import { Id, Instant, Label } from '../foundation/values.ts'

export const Webhook = z
  .object({
    id: Id,
    name: z.string(),
    url: z.string(),
    kinds: z.array(AlertKind).describe('Empty: every kind of alert'),
    active: z.boolean(),
    createdAt: Instant,
    createdBy: z.string(),
  })
  .meta({ id: 'Webhook' })
export type Webhook = z.output<typeof Webhook>

export const Delivery = z
  .object({
    id: z.string(),
    messageId: z.string(),
    type: z.string(),
    createdAt: Instant,
    attempts: z.number().int(),
    deliveredAt: Instant.nullable(),
    nextAttemptAt: Instant.nullable().describe('Null once it has arrived or was given up'),
    lastError: z.string().nullable(),
  })
  .meta({ id: 'Delivery' })

const Address = z
  .url({ protocol: /^https?$/, error: 'must be an address such as https://example.com/hook' })
  .max(500)
const webhookParams = z.object({ webhookId: Id })

export const notificationRoutes = {
  listWebhooks: defineRoute({
    method: 'GET',
    path: '/v1/webhooks',
    operationId: 'listWebhooks',
    tag: 'alerts',
    summary: 'Who is told of alerts',
    access: 'manageChain',
    reach: 'chain',
    status: 200,
    response: z.object({ items: z.array(Webhook) }),
  }),
  addWebhook: defineRoute({
    method: 'POST',
    path: '/v1/webhooks',
    operationId: 'addWebhook',
    tag: 'alerts',
    summary: 'Tell another service of alerts',
    description:
      'Messages are signed as Standard Webhooks says (standardwebhooks.com): headers webhook-id, webhook-timestamp, webhook-signature. The secret is shown once. ' +
      'What does not answer with 2xx is tried again for a day.',
    access: 'manageChain',
    reach: 'chain',
    body: z.strictObject({ name: Label, url: Address, kinds: z.array(AlertKind).max(50).default([]) }),
    answer: 'The webhook with its secret, which is shown this once',
    status: 201,
    response: Webhook.extend({ secret: z.string().describe('whsec_ and base64') }),
    answerIsSecret: true,
  }),
  removeWebhook: defineRoute({
    method: 'DELETE',
    path: '/v1/webhooks/:webhookId',
    operationId: 'removeWebhook',
    tag: 'alerts',
    summary: 'Tell it no more; what is still to be sent is dropped',
    access: 'manageChain',
    reach: 'chain',
    params: webhookParams,
    status: 204,
    response: z.null(),
  }),
  testWebhook: defineRoute({
    method: 'POST',
    path: '/v1/webhooks/:webhookId/test',
    operationId: 'testWebhook',
    tag: 'alerts',
    summary: 'Send it a message to try it with',
    access: 'manageChain',
    reach: 'chain',
    params: webhookParams,
    answer: 'The id of the message, to find it by among the deliveries',
    status: 201,
    response: z.object({ messageId: z.string() }),
  }),
  listDeliveries: defineRoute({
    method: 'GET',
    path: '/v1/webhooks/:webhookId/deliveries',
    operationId: 'listDeliveries',
    tag: 'alerts',
    summary: 'The last hundred messages to it, and how they went',
    access: 'manageChain',
    reach: 'chain',
    params: webhookParams,
    status: 200,
    response: z.object({ items: z.array(Delivery) }),
  }),
  getDigest: defineRoute({
    method: 'GET',
    path: '/v1/me/digest',
    operationId: 'getDigest',
    tag: 'alerts',
    summary: 'At which hour the daily mail of open alerts comes to me',
    access: 'signedIn',
    status: 200,
    response: z.object({
      hour: z.number().int().nullable().describe("By the clock of one's first shop; null: never"),
      canSend: z.boolean().describe('Whether this installation has a mail server'),
    }),
  }),
  setDigest: defineRoute({
    method: 'PUT',
    path: '/v1/me/digest',
    operationId: 'setDigest',
    tag: 'alerts',
    summary: 'Have open alerts by mail once a day, or not',
    access: 'signedIn',
    body: z.strictObject({ hour: z.number().int().min(0).max(23).nullable() }),
    answer: 'The hour that is set, or null',
    status: 200,
    response: z.object({ hour: z.number().int().nullable(), canSend: z.boolean() }),
  }),
}
