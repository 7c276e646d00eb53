import { daysBefore, MOST_AT_ONCE, type Forget } from '../../foundation/retention/retention.ts'

/** What has arrived or was given up; what is still to be sent stays. */
export const forgetDeliveries: Forget = async ({ prisma }, { organizationId, keep, now }) => {
  const before = daysBefore(now, keep.deliveriesDays)
  const count = await prisma.$executeRaw`
    delete from delivery where id in (
      select id from delivery
       where organization_id = ${organizationId}::uuid and created_at < ${before}::timestamptz
         and (delivered_at is not null or given_up_at is not null) limit ${MOST_AT_ONCE})`
  return count === MOST_AT_ONCE
}
