import { message } from '@clampclock/messages'
import nodemailer from 'nodemailer'
import type { App } from '../../foundation/http/app-type.ts'
import type { Queue } from '../../foundation/jobs/queue.ts'
import { MAIL } from './outgoing.ts'
import { deliverDue, nextAttempt, type Senders, type SendMail } from './deliver.ts'
import { poster } from './post.ts'

/** How long a mail server may be silent: less than a message stays claimed, so that no two processes send it. */
const MAIL_PATIENCE_MS = 10_000

/** Sends what is due to one receiver: another that is slow or silent keeps nobody waiting. */
export function deliveryQueue({ database, config }: Pick<App, 'database' | 'config'>): Queue {
  const senders: Senders = {
    sendMail: mailer(config.smtpUrl, config.mailFrom),
    post: poster(config.webhookPrivateAddresses),
  }
  return {
    name: 'delivery',
    slots: 8,
    slotsOfChain: 3,
    whenItFails: message('alert.failsDelivery'),
    run: async (job) => {
      if (job.subject === MAIL && !senders.sendMail) return null
      await deliverDue(database, senders, job.now, job)
      return nextAttempt(database, job)
    },
  }
}

/** Off unless a mail server is named. */
export function mailer(
  smtpUrl: string | undefined,
  from: string,
  patienceMs = MAIL_PATIENCE_MS,
): SendMail | undefined {
  if (smtpUrl === undefined) return undefined
  const transport = nodemailer.createTransport({
    url: smtpUrl,
    connectionTimeout: patienceMs,
    greetingTimeout: patienceMs,
    socketTimeout: patienceMs,
  })
  return async ({ to, subject, text, messageId }) => {
    // The same id on a second try, so that a mail program shows it once.
    await transport.sendMail({ from, to, subject, text, messageId: `<${messageId}@clampclock>` })
  }
}
