import { type Membership, Preferences, Role, TokenScope } from '@clampclock/contracts'
import * as z from 'zod'
import type { Database, Tx } from '../database/database.ts'
import { defineRead, instant, readBeforeChain } from '../database/read.ts'
import { NO_PREFERENCES, type Actor } from '../permissions/actor.ts'
import { hashSecret } from './secrets.ts'

/** The last use is kept to the minute: a write a request would cost more than it tells. */
const LAST_USED_STEP_MS = 60_000

function isOld(lastUsedAt: string | null, now: Date): boolean {
  return lastUsedAt === null || now.getTime() - Date.parse(lastUsedAt) > LAST_USED_STEP_MS
}

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

const SESSION = defineRead(
  z.strictObject({
    id: z.uuid(),
    name: z.string(),
    email: z.string(),
    organizationId: z.uuid(),
    organizationName: z.string(),
    ...Preferences.shape,
    memberships: z.array(z.strictObject({ shopId: z.uuid().nullable(), role: Role })),
    sessionId: z.uuid(),
    mustChangePassword: z.boolean(),
    isToRotate: z.boolean(),
    lastUsedAt: instant.nullable(),
  }),
  {
    id: 'p.id',
    name: 'p.name',
    email: 'p.email',
    organizationId: 'o.id',
    organizationName: 'o.name',
    language: 'p.language',
    temperature: 'p.temperature_unit',
    volume: 'p.volume_unit',
    length: 'p.length_unit',
    clock: 'p.clock',
    firstDay: 'p.first_day',
    memberships: `(select coalesce(json_agg(json_build_object('shopId', m.shop_id, 'role', m.role) order by m.id), '[]')
                     from membership m where m.person_id = p.id)`,
    sessionId: 's.id',
    mustChangePassword: 'p.must_change_password',
    isToRotate: 's.is_to_rotate',
    lastUsedAt: 's.last_used_at',
  },
  `from sign_in_session s join person p on p.id = s.person_id join organization o on o.id = s.organization_id
    where (s.secret_hash = $1 or (s.previous_hash = $1 and s.previous_until > $2::timestamptz))
      and s.expires_at > $2::timestamptz and p.disabled_at is null`,
)

async function actorOfSession(database: Database, hash: string, now: Date): Promise<Actor | null> {
  const [session] = await readBeforeChain(database, SESSION, [hash, now.toISOString()])
  if (!session) return null
  const { id, name, email, organizationId, organizationName, memberships, ...rest } = session
  const { sessionId, mustChangePassword, isToRotate, lastUsedAt, ...preferences } = rest
  if (isOld(lastUsedAt, now))
    await database.prisma.signInSession.updateMany({ where: { id: sessionId }, data: { lastUsedAt: now } })
  return {
    kind: 'person',
    id,
    name,
    email,
    organization: { id: organizationId, name: organizationName },
    memberships,
    preferences,
    token: null,
    session: { id: sessionId, mustChangePassword, isToRotate },
  }
}

const TOKEN = defineRead(
  z.strictObject({
    id: z.uuid(),
    name: z.string(),
    organizationId: z.uuid(),
    organizationName: z.string(),
    scope: TokenScope,
    shopId: z.uuid().nullable(),
    lastUsedAt: instant.nullable(),
  }),
  {
    id: 't.id',
    name: 't.name',
    organizationId: 'o.id',
    organizationName: 'o.name',
    scope: 't.scope',
    shopId: 't.shop_id',
    lastUsedAt: 't.last_used_at',
  },
  `from access_token t join organization o on o.id = t.organization_id where t.secret_hash = $1 and t.revoked_at is null`,
)

async function actorOfToken(database: Database, hash: string, now: Date): Promise<Actor | null> {
  const [token] = await readBeforeChain(database, TOKEN, [hash])
  if (!token) return null
  const { id, name, organizationId, organizationName, scope, shopId, lastUsedAt } = token
  if (isOld(lastUsedAt, now))
    await database.prisma.accessToken.update({ where: { id }, data: { lastUsedAt: now } })
  return {
    kind: 'token',
    id,
    name,
    email: null,
    organization: { id: organizationId, name: organizationName },
    memberships: [],
    preferences: NO_PREFERENCES,
    token: { scope, shopId },
    session: null,
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
