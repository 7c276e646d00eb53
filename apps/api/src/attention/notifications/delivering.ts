import nodemailer from 'nodemailer'
import type { App } from '../../foundation/http/app-type.ts'
import { deliverDue, type Senders, type SendMail } from './deliver.ts'
import { queueDigests } from './digest.ts'
import { poster } from './post.ts'

const EVERY_MS = 5_000
/** How long a mail server may be silent: less than a message stays claimed, so that no two processes send it. */
const MAIL_PATIENCE_MS = 10_000

/** Sends what is due every few seconds; answers how to stop. Any number of processes may do so. */
export function startDelivering(app: App): () => Promise<void> {
  const senders = {
    sendMail: mailer(app.config.smtpUrl, app.config.mailFrom),
    post: poster(app.config.webhookPrivateAddresses),
  }
  let running: Promise<void> | undefined
  const look = () => {
    running ??= work(app, senders)
      .catch((error: unknown) => app.log.error({ err: error }, 'delivering failed'))
      .finally(() => {
        running = undefined
      })
  }
  const timer = setInterval(look, EVERY_MS)
  look()
  return async () => {
    clearInterval(timer)
    await running
  }
}

async function work(app: App, senders: Senders): Promise<void> {
  const now = app.clock()
  if (senders.sendMail) await queueDigests(app.database, app.config.publicUrl, now)
  await deliverDue(app.database, senders, now)
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
