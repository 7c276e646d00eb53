import { message } from '@clampclock/messages'
import type { BodyOf, DayException, QueryOf, workingTimeRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { DayException as ExceptionRow } from '../../generated/prisma/client.ts'
import { dateOf, isoDate } from '../../foundation/http/dates.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { clockTimeOf, minuteOf } from './clock-time.ts'

/** Those that end on `from` or later. */
export async function listDayExceptions(
  tx: Tx,
  shopId: string,
  { from }: QueryOf<typeof workingTimeRoutes.listDayExceptions>,
): Promise<DayException[]> {
  const rows = await tx.dayException.findMany({
    where: { shopId, ...(from === undefined ? {} : { lastDay: { gte: dateOf(from) } }) },
    orderBy: [{ firstDay: 'asc' }, { id: 'asc' }],
  })
  return rows.map(toException)
}

export async function addDayException(
  tx: Tx,
  actor: Actor,
  shopId: string,
  { firstDay, lastDay, from, until, ...facts }: BodyOf<typeof workingTimeRoutes.addDayException>,
): Promise<DayException> {
  if (facts.resourceId !== null) {
    const resource = await tx.resource.findFirst({ where: { id: facts.resourceId, shopId } })
    if (!resource) throw invalidField('body.resourceId', message('plan-problem.nobodyNothing'))
    if (facts.kind === 'overtime' && resource.kind !== 'technician')
      throw invalidField('body.resourceId', message('plan-problem.noOvertime', { name: resource.name }))
  }
  const organizationId = actor.organization.id
  const row = await tx.dayException.create({
    data: {
      ...facts,
      organizationId,
      shopId,
      firstDay: dateOf(firstDay),
      lastDay: dateOf(lastDay),
      fromMinute: from === null ? null : minuteOf(from),
      untilMinute: until === null ? null : minuteOf(until),
    },
  })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: row.id })
  return toException(row)
}

export async function removeDayException(tx: Tx, actor: Actor, id: string): Promise<void> {
  const row = await tx.dayException.findUnique({ where: { id } })
  if (!row) throw notFound('day exception', id)
  requireIn(actor, 'planWork', row.shopId)
  await tx.dayException.deleteMany({ where: { id } })
  const { organizationId, shopId } = row
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: id })
}

function toException(row: ExceptionRow): DayException {
  return {
    id: row.id,
    shopId: row.shopId,
    resourceId: row.resourceId,
    kind: row.kind as DayException['kind'],
    firstDay: isoDate(row.firstDay),
    lastDay: isoDate(row.lastDay),
    from: row.fromMinute === null ? null : clockTimeOf(row.fromMinute),
    until: row.untilMinute === null ? null : clockTimeOf(row.untilMinute),
    note: row.note,
  }
}
