import type { OwnSession } from '@clampclock/contracts'
import { message } from '@clampclock/messages'
import type { Database, Tx } from '../database/database.ts'
import { notFound, wrongState } from '../problems/problem-error.ts'
import type { Actor } from '../permissions/actor.ts'
import { hashSecret, newSecret } from './secrets.ts'

/** The secret before the last: long enough for what a page asks for at once. */
const PREVIOUS_HOLDS_MS = 60_000

/** The session of a person. @throws {ProblemError} `wrong-state` for a token, which has none. */
export function ownSession(actor: Actor): NonNullable<Actor['session']> {
  if (!actor.session) throw wrongState(message('setup-problem.tokenNoSession'))
  return actor.session
}

export async function listSessions(tx: Tx, actor: Actor, now: Date): Promise<OwnSession[]> {
  const { id: current } = ownSession(actor)
  const rows = await tx.signInSession.findMany({
    where: { personId: actor.id, expiresAt: { gt: now } },
    orderBy: [{ createdAt: 'desc' }, { id: 'asc' }],
  })
  return rows
    .map(({ id, device, createdAt, lastUsedAt, expiresAt }) => ({
      id,
      device: { kind: kindOf(device), userAgent: device },
      createdAt,
      lastUsedAt: lastUsedAt ?? createdAt,
      expiresAt,
      isCurrent: id === current,
    }))
    .toSorted((one, other) => Number(other.isCurrent) - Number(one.isCurrent))
}

export async function endSession(tx: Tx, actor: Actor, sessionId: string): Promise<void> {
  ownSession(actor)
  const { count } = await tx.signInSession.deleteMany({ where: { id: sessionId, personId: actor.id } })
  if (count === 0) throw notFound('session', sessionId)
}

/** Every one, or every other one. */
export async function endSessions(tx: Tx, personId: string, but?: string): Promise<void> {
  await tx.signInSession.deleteMany({
    where: { personId, ...(but === undefined ? {} : { id: { not: but } }) },
  })
}

/** From now on a stolen secret of this person is worth a minute: roles have changed. */
export async function askToRotate(tx: Tx, personId: string): Promise<void> {
  await tx.signInSession.updateMany({ where: { personId }, data: { isToRotate: true } })
}

/** The new secret of a session, to whoever asks first; undefined to the others. */
export async function rotateSession(
  { prisma }: Database,
  sessionId: string,
  now: Date,
): Promise<string | undefined> {
  const secret = newSecret('session')
  const previousUntil = new Date(now.getTime() + PREVIOUS_HOLDS_MS)
  const changed = await prisma.$executeRaw`
    update sign_in_session
       set previous_hash = secret_hash, previous_until = ${previousUntil}::timestamptz,
           secret_hash = ${hashSecret(secret)}, is_to_rotate = false
     where id = ${sessionId}::uuid and is_to_rotate`
  return changed === 1 ? secret : undefined
}

/** By what programs say of themselves: every browser begins with `Mozilla/`, those of phones say `Mobi` (MDN). */
function kindOf(userAgent: string): OwnSession['device']['kind'] {
  if (/Mobi|Tablet/i.test(userAgent)) return 'phone'
  return userAgent.startsWith('Mozilla/') ? 'computer' : 'program'
}
