import { message } from '@clampclock/messages'
import type { accessRoutes, BodyOf } from '@clampclock/contracts'
import type { Database, Tx } from '../database/database.ts'
import { invalidField, ProblemError } from '../problems/problem-error.ts'
import type { Actor } from '../permissions/actor.ts'
import { beginAttempt } from './back-off.ts'
import { requireGoodPassword } from './passwords.ts'
import { hashPassword, verifyPassword } from './secrets.ts'
import { endSessions, ownSession } from './sessions.ts'

/**
 * Looks at the present password and hashes the new one, before a transaction is open.
 *
 * @throws {ProblemError} `invalid-request` when the present one is wrong or the new one is no good; `too-many-requests`
 *   after too many wrong ones, counted with those of signing in.
 */
export async function preparePassword(
  database: Database,
  actor: Actor,
  { present, password }: BodyOf<typeof accessRoutes.changePassword>,
  address: string,
  now: Date,
): Promise<string> {
  ownSession(actor)
  const { email, passwordHash } = await database.prisma.person.findUniqueOrThrow({ where: { id: actor.id } })
  const attempt = await beginAttempt(database, { account: email, address }, now)
  const isRight = await verifyPassword(present, passwordHash).catch(async (error: unknown) => {
    await attempt.withdrawn()
    throw error
  })
  if (!isRight) throw invalidField('body.present', message('setup-problem.presentWrong'))
  await attempt.succeeded()
  if (present === password) throw sameAgain()
  requireGoodPassword(password, [actor.name, email])
  return hashPassword(password)
}

function sameAgain(): ProblemError {
  return invalidField(
    'body.password',
    message('setup-problem.passwordSame'),
    message('setup-problem.passwordFix'),
  )
}

/** Whoever else was signed in with the password before is out. */
export async function changePassword(tx: Tx, actor: Actor, passwordHash: string): Promise<null> {
  const session = ownSession(actor)
  await tx.person.update({ where: { id: actor.id }, data: { passwordHash, mustChangePassword: false } })
  await endSessions(tx, actor.id, session.id)
  return null
}
