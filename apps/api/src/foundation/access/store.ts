import type { Membership, Role, TokenScope } from '@clampclock/contracts'
import type { Database, Tx } from '../database/database.ts'
import type { Actor } from '../permissions/actor.ts'
import { hashSecret } from './secrets.ts'

/** A token's last use is kept to the minute: a write a request would cost more than it tells. */
const LAST_USED_STEP_MS = 60_000

/**
 * Who a secret belongs to. This runs before a chain is known, so as the owner of the tables; it reads by the
 * hash of a secret and by nothing else.
 */
export async function actorOfSecret(database: Database, secret: string, now: Date): Promise<Actor | null> {
  const hash = hashSecret(secret)
  if (secret.startsWith('cc_session_')) return actorOfSession(database, hash, now)
  if (secret.startsWith('cc_token_')) return actorOfToken(database, hash, now)
  return null
}

async function actorOfSession({ prisma }: Database, hash: string, now: Date): Promise<Actor | null> {
  const session = await prisma.signInSession.findUnique({
    where: { secretHash: hash },
    include: { person: { include: { memberships: true } } },
  })
  if (!session || session.expiresAt <= now || session.person.disabledAt) return null
  const organization = await prisma.organization.findUniqueOrThrow({ where: { id: session.organizationId } })
  return {
    kind: 'person',
    id: session.person.id,
    name: session.person.name,
    email: session.person.email,
    organization,
    memberships: membershipsOf(session.person),
    token: null,
    sessionHash: hash,
  }
}

async function actorOfToken({ prisma }: Database, hash: string, now: Date): Promise<Actor | null> {
  const token = await prisma.accessToken.findUnique({ where: { secretHash: hash } })
  if (!token || token.revokedAt) return null
  const organization = await prisma.organization.findUniqueOrThrow({ where: { id: token.organizationId } })
  if (!token.lastUsedAt || now.getTime() - token.lastUsedAt.getTime() > LAST_USED_STEP_MS) {
    await prisma.accessToken.update({ where: { id: token.id }, data: { lastUsedAt: now } })
  }
  return {
    kind: 'token',
    id: token.id,
    name: token.name,
    email: null,
    organization,
    memberships: [],
    token: { scope: token.scope as TokenScope, shopId: token.shopId },
    sessionHash: null,
  }
}

export function membershipsOf(person: {
  memberships: readonly { shopId: string | null; role: string }[]
}): Membership[] {
  return person.memberships.map(({ shopId, role }) => ({ shopId, role: role as Role }))
}

export function peopleWithRoles(tx: Tx) {
  return tx.person.findMany({ include: { memberships: true }, orderBy: [{ name: 'asc' }, { id: 'asc' }] })
}

/** Replaces a person's roles. */
export async function setMemberships(
  tx: Tx,
  organizationId: string,
  personId: string,
  memberships: readonly Membership[],
): Promise<void> {
  await tx.membership.deleteMany({ where: { personId } })
  await tx.membership.createMany({ data: memberships.map((each) => ({ ...each, organizationId, personId })) })
}
