import { message } from '@clampclock/messages'
import type { BodyOf, WorkingHours, workingTimeRoutes } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { WorkShift as ShiftRow } from '../../generated/prisma/client.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { clockTimeOf, minuteOf } from './clock-time.ts'

function shiftsOfShop(tx: Tx, shopId: string): Promise<ShiftRow[]> {
  return tx.workShift.findMany({
    where: { shopId },
    orderBy: [{ weekday: 'asc' }, { fromMinute: 'asc' }],
  })
}

/** The shop first, then whoever has hours of their own. */
export async function listWorkingHours(tx: Tx, shopId: string): Promise<WorkingHours[]> {
  const rows = await shiftsOfShop(tx, shopId)
  const owners = [null, ...new Set(rows.flatMap(({ resourceId }) => resourceId ?? []))]
  return owners.map((resourceId) => toHours(resourceId, rows))
}

export async function setWorkingHours(
  tx: Tx,
  actor: Actor,
  shopId: string,
  { resourceId, shifts }: BodyOf<typeof workingTimeRoutes.setWorkingHours>,
): Promise<WorkingHours> {
  // Two people who set hours of one shop at once do so one after the other.
  await tx.$queryRaw`select 1 from shop where id = ${shopId}::uuid for no key update`
  if (resourceId !== null) await requireTechnician(tx, shopId, resourceId)
  requireApart(shifts)
  const organizationId = actor.organization.id
  await tx.workShift.deleteMany({ where: { shopId, resourceId } })
  await tx.workShift.createMany({
    data: shifts.map(({ weekday, from, until }) => ({
      organizationId,
      shopId,
      resourceId,
      weekday,
      fromMinute: minuteOf(from),
      untilMinute: minuteOf(until),
    })),
  })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: resourceId ?? shopId })
  return toHours(resourceId, await shiftsOfShop(tx, shopId))
}

async function requireTechnician(tx: Tx, shopId: string, resourceId: string): Promise<void> {
  const resource = await tx.resource.findFirst({ where: { id: resourceId, shopId, kind: 'technician' } })
  if (!resource) throw invalidField('body.resourceId', message('plan-problem.noTechnician'))
}

function requireApart(shifts: WorkingHours['shifts']): void {
  shifts.forEach((shift, i) => {
    const other = shifts.findIndex(
      (each, k) =>
        k < i && each.weekday === shift.weekday && each.from < shift.until && shift.from < each.until,
    )
    if (other < 0) return
    const { from, until } = shifts[other]!
    throw invalidField(
      `body.shifts.${i}.from`,
      message('plan-problem.shiftsOverlap', { from, until, day: shift.weekday }),
    )
  })
}

function toHours(resourceId: string | null, rows: readonly ShiftRow[]): WorkingHours {
  return {
    resourceId,
    shifts: rows
      .filter((row) => row.resourceId === resourceId)
      .map(({ weekday, fromMinute, untilMinute }) => ({
        weekday,
        from: clockTimeOf(fromMinute),
        until: clockTimeOf(untilMinute),
      })),
  }
}
