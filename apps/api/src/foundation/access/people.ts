import { message } from '@clampclock/messages'
import type { accessRoutes, BodyOf, Membership, ResultOf } from '@clampclock/contracts'
import type { Tx } from '../database/database.ts'
import { invalidField, notFound, ProblemError, wrongState } from '../problems/problem-error.ts'
import { announce } from '../live/hub.ts'
import { visibleShops, type Actor } from '../permissions/actor.ts'
import { requireToCover, requireToGrant } from '../permissions/reach.ts'
import { requireGoodPassword } from './passwords.ts'
import { askToRotate, endSessions } from './sessions.ts'
import { membershipsOf, peopleWithRoles, setMemberships } from './store.ts'

type Person = ResultOf<typeof accessRoutes.addPerson>
type PersonRow = Awaited<ReturnType<typeof peopleWithRoles>>[number]

/** Those who work in a shop that the actor sees, or in every shop; who sees the chain sees all, also who has no role now. */
export async function listPeople(tx: Tx, actor: Actor): Promise<Person[]> {
  const visible = visibleShops(actor)
  const people = (await peopleWithRoles(tx)).map(toPerson)
  if (!visible) return people
  return people.filter(
    ({ id, memberships }) =>
      id === actor.id || memberships.some(({ shopId }) => shopId === null || visible.in.includes(shopId)),
  )
}

export async function addPerson(
  tx: Tx,
  actor: Actor,
  body: BodyOf<typeof accessRoutes.addPerson>,
  passwordHash: string,
): Promise<Person> {
  await requireShops(tx, body.memberships)
  for (const { shopId, role } of body.memberships) requireToGrant(actor, { shopId, holder: role })
  const organizationId = actor.organization.id
  const person = await tx.person.create({
    data: {
      organizationId,
      name: body.name,
      email: body.email,
      passwordHash,
      mustChangePassword: body.mustChangePassword,
    },
  })
  await setMemberships(tx, organizationId, person.id, body.memberships)
  await announce(tx, { organizationId, shopId: null, topic: 'people', subjectId: person.id })
  return personById(tx, person.id)
}

/**
 * A new password or a shut door ends the person's sessions: whoever holds one is out.
 *
 * What the person is in a shop is for who keeps that shop; name, password and door are for who has all that the person has.
 */
export async function editPerson(
  tx: Tx,
  actor: Actor,
  personId: string,
  body: BodyOf<typeof accessRoutes.editPerson> & { readonly passwordHash: string | undefined },
  now: Date,
): Promise<Person> {
  const organizationId = actor.organization.id
  await oneAtATime(tx, organizationId)
  const before = await personById(tx, personId)
  if (body.memberships) {
    await requireShops(tx, body.memberships)
    for (const { shopId, role } of differences(before.memberships, body.memberships))
      requireToGrant(actor, { shopId, holder: role })
    await setMemberships(tx, organizationId, personId, body.memberships)
    if (differences(before.memberships, body.memberships).length > 0) await askToRotate(tx, personId)
  }
  const isShutOut = before.disabledAt !== null
  if (body.password !== undefined) {
    if (personId === actor.id)
      throw wrongState(message('setup-problem.ownPassword'), message('setup-problem.ownPasswordFix'))
    requireGoodPassword(body.password, [body.name ?? before.name, before.email])
  }
  const changesSignIn =
    (body.name !== undefined && body.name !== before.name) ||
    body.password !== undefined ||
    (body.disabled !== undefined && body.disabled !== isShutOut)
  if (changesSignIn && personId !== actor.id) requireToCover(actor, before.memberships)
  await tx.person.update({
    where: { id: personId },
    data: {
      ...(body.name === undefined ? {} : { name: body.name }),
      // Whoever set it knows it: it is good for choosing another.
      ...(body.passwordHash === undefined
        ? {}
        : { passwordHash: body.passwordHash, mustChangePassword: true }),
      ...(body.disabled === undefined
        ? {}
        : { disabledAt: body.disabled ? (before.disabledAt ?? now) : null }),
    },
  })
  if (body.password !== undefined || body.disabled) await endSessions(tx, personId)
  await requireAnOwner(tx)
  await announce(tx, { organizationId, shopId: null, topic: 'people', subjectId: personId })
  return personById(tx, personId)
}

/** Who changes people waits for whoever else does: two owners who shut each other out at once would leave none. */
async function oneAtATime(tx: Tx, organizationId: string): Promise<void> {
  await tx.$executeRaw`select pg_advisory_xact_lock(hashtextextended('people of ' || ${organizationId}, 0))`
}

/** The roles that are given and those that are taken away. */
function differences(before: readonly Membership[], after: readonly Membership[]): Membership[] {
  const lacks = (list: readonly Membership[]) => (each: Membership) =>
    !list.some(({ shopId, role }) => shopId === each.shopId && role === each.role)
  return [...after.filter(lacks(before)), ...before.filter(lacks(after))]
}

async function personById(tx: Tx, id: string): Promise<Person> {
  const person = await tx.person.findUnique({ where: { id }, include: { memberships: true } })
  if (!person) throw notFound('person', id)
  return toPerson(person)
}

function toPerson(person: PersonRow): Person {
  const { id, name, email, disabledAt } = person
  return { id, name, email, disabledAt, memberships: membershipsOf(person) }
}

async function requireShops(tx: Tx, memberships: readonly { shopId: string | null }[]): Promise<void> {
  const wanted = [...new Set(memberships.flatMap(({ shopId }) => shopId ?? []))]
  const there = await tx.shop.count({ where: { id: { in: wanted } } })
  if (there !== wanted.length) throw invalidField('body.memberships', message('setup-problem.noSuchShop'))
}

/** A chain without an owner could never be put right from inside. */
async function requireAnOwner(tx: Tx): Promise<void> {
  const owner = await tx.membership.findFirst({
    where: { role: 'owner', shopId: null, person: { disabledAt: null } },
  })
  if (!owner) throw new ProblemError('wrong-state', message('setup-problem.lastOwner'))
}
