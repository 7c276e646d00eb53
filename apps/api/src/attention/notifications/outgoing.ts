/** The subject of jobs for what goes out by mail, and to no webhook. */
export const MAIL = 'mail'

/** Who is sent to: a webhook by its id, or `MAIL`. */
export interface Receiver {
  readonly organizationId: string
  readonly subject: string
}

/** The mail of a day as it is kept in the outbox. */
export interface DigestMail {
  readonly to: string
  readonly subject: string
  readonly text: string
}
