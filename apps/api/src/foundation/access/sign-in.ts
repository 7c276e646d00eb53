import { message } from '@clampclock/messages'
import type { Me } from '@clampclock/contracts'
import type { Database } from '../database/database.ts'
import { ProblemError } from '../problems/problem-error.ts'
import type { Actor } from '../permissions/actor.ts'
import { beginAttempt } from './back-off.ts'
import { hashSecret, newSecret, verifyNothing, verifyPassword } from './secrets.ts'
import { actorOfSecret } from './store.ts'

/** A working fortnight: a technician's phone stays signed in over a shift, a lost one not for ever. */
export const SESSION_DAYS = 14
/** Signs of what a browser says of itself. */
const MOST_OF_DEVICE = 200

/** What a browser sends of itself, and what it had before: a sign-in never goes on with an older secret. */
export interface Device {
  readonly userAgent: string
  readonly secret: string | undefined
}

interface Credentials {
  readonly email: string
  readonly password: string
  readonly address: string
  readonly device: Device
}

export interface SignedIn {
  readonly me: Me
  readonly token: string
  readonly expiresAt: Date
}

/**
 * @throws {ProblemError} `wrong-credentials`, the same for an unknown address, a wrong password and a shut-out person;
 *   `too-many-requests` after too many of them; `overloaded` while too many sign in at once.
 */
export async function signIn(
  database: Database,
  { email, password, address, device }: Credentials,
  now: Date,
): Promise<SignedIn> {
  const attempt = await beginAttempt(database, { account: email, address }, now)
  const person = await database.prisma.person.findUnique({ where: { email } })
  const isRight = await (
    person ? verifyPassword(password, person.passwordHash) : verifyNothing(password)
  ).catch(async (error: unknown) => {
    await attempt.withdrawn()
    throw error
  })
  if (!person || !isRight || person.disabledAt) {
    throw new ProblemError('wrong-credentials', message('problem.title.wrong-credentials'))
  }
  await attempt.succeeded()
  return startSession(database, person, device, now)
}

export async function startSession(
  database: Database,
  person: { id: string; organizationId: string },
  { userAgent, secret }: Device,
  now: Date,
): Promise<SignedIn> {
  const token = newSecret('session')
  const expiresAt = new Date(now.getTime() + SESSION_DAYS * 86_400_000)
  await database.prisma.signInSession.deleteMany({ where: { personId: person.id, expiresAt: { lte: now } } })
  if (secret !== undefined)
    await database.prisma.signInSession.deleteMany({ where: { secretHash: hashSecret(secret) } })
  await database.prisma.signInSession.create({
    data: {
      secretHash: hashSecret(token),
      organizationId: person.organizationId,
      personId: person.id,
      createdAt: now,
      lastUsedAt: now,
      device: userAgent.slice(0, MOST_OF_DEVICE),
      expiresAt,
    },
  })
  const actor = await actorOfSecret(database, token, now)
  if (!actor) throw new Error('the session just made is not there')
  return { me: meOf(actor), token, expiresAt }
}

export function meOf(actor: Actor): Me {
  const { kind, id, name, email, organization, memberships, token, preferences, session } = actor
  return {
    kind,
    id,
    name,
    email,
    organization,
    memberships: [...memberships],
    scope: token?.scope ?? null,
    preferences,
    mustChangePassword: session?.mustChangePassword ?? false,
  }
}
