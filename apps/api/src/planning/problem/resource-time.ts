import { message } from '@clampclock/messages'
import type { QueryOf, planRoutes, ResultOf } from '@clampclock/contracts'
import type { Tx } from '../../foundation/database/database.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { absences, workingTime } from './calendars.ts'
import type { ExceptionFact } from './facts.ts'
import type { Interval } from './intervals.ts'

const LONGEST_DAYS = 62

type ResourceTimes = ResultOf<typeof planRoutes.getResourceTime>['items']

/** When the shop, and each technician, bay and oven of it, works or is away in a period. */
export async function resourceTime(
  tx: Tx,
  shopId: string,
  { from, to }: QueryOf<typeof planRoutes.getResourceTime>,
): Promise<ResourceTimes> {
  if (to <= from) throw invalidField('query.to', message('problem.afterFrom'))
  const minutes = Math.ceil((to.getTime() - from.getTime()) / 60_000)
  if (minutes > LONGEST_DAYS * 1440)
    throw invalidField('query.to', message('problem.daysAfterFrom', { days: LONGEST_DAYS }))
  const { timeZone } = await shopById(tx, shopId)
  const exceptions = (await tx.dayException.findMany({ where: { shopId } })).map((row) => ({
    ...row,
    kind: row.kind as ExceptionFact['kind'],
    firstDay: isoDate(row.firstDay),
    lastDay: isoDate(row.lastDay),
  }))
  const clock = {
    timeZone,
    originMs: from.getTime(),
    horizonMinutes: minutes,
    shifts: await tx.workShift.findMany({ where: { shopId } }),
    exceptions,
  }
  const resources = await tx.resource.findMany({ where: { shopId, active: true }, orderBy: { name: 'asc' } })
  const periods = (intervals: readonly Interval[]) =>
    intervals.map(([start, end]) => ({
      startsAt: new Date(clock.originMs + start * 60_000),
      endsAt: new Date(clock.originMs + end * 60_000),
    }))
  return [null, ...resources.map(({ id }) => id)].map((resourceId) => {
    const { shifts, overtime } = workingTime(clock, resourceId)
    return {
      resourceId,
      shifts: periods(shifts),
      overtime: periods(overtime),
      absent: periods(absences(clock, resourceId)),
    }
  })
}
