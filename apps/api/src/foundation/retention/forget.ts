import { forgetBackOff } from '../access/back-off.ts'
import { daysBefore, MOST_AT_ONCE, type Forget } from './retention.ts'

/** What changed: screens that were open then have long asked again. */
export const forgetEvents: Forget = async ({ prisma }, { organizationId, keep, now }) => {
  const before = daysBefore(now, keep.eventsDays)
  const count = await prisma.$executeRaw`
    delete from outbox_event where id in (
      select id from outbox_event where organization_id = ${organizationId}::uuid and created_at < ${before}::timestamptz limit ${MOST_AT_ONCE})`
  return count === MOST_AT_ONCE
}

/** What requests were answered: nobody sends one again after so long. */
export const forgetKeys: Forget = async ({ prisma }, { organizationId, keep, now }) => {
  const before = daysBefore(now, keep.keysDays)
  const count = await prisma.$executeRaw`
    delete from idempotency_key where ctid in (
      select ctid from idempotency_key where organization_id = ${organizationId}::uuid and created_at < ${before}::timestamptz limit ${MOST_AT_ONCE})`
  return count === MOST_AT_ONCE
}

/** Sessions that have run out: nobody can use them. With them what was counted against signing in, which no chain owns. */
export const forgetSessions: Forget = async (database, { organizationId, now }) => {
  await database.prisma.signInSession.deleteMany({ where: { organizationId, expiresAt: { lt: now } } })
  await forgetBackOff(database, now)
  return false
}
