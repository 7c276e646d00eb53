import { message } from '@clampclock/messages'
import type { figureRoutes, PlanFigures, QueryOf, ResultOf } from '@clampclock/contracts'
import { visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import { STILL_ON } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toCsv } from '../../foundation/http/csv.ts'
import type { Answered } from '../../foundation/http/bind.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { clip, type Interval, resourceTime, union } from '../../planning/index.ts'
import { sumOf, withShares, type Counts } from './counts.ts'

const LONGEST_DAYS = 400
const HOUR_MS = 3_600_000

type Query = QueryOf<typeof figureRoutes.getPlanFigures>
interface Period {
  readonly from: Date
  readonly to: Date
}

export async function planFigures(
  tx: Tx,
  actor: Actor,
  { shopId, from, to }: Query,
  now: Date,
): Promise<ResultOf<typeof figureRoutes.getPlanFigures>> {
  if (to <= from) throw invalidField('query.to', message('problem.afterFrom'))
  if (to.getTime() - from.getTime() > LONGEST_DAYS * 24 * HOUR_MS)
    throw invalidField('query.to', message('problem.daysAfterFrom', { days: LONGEST_DAYS }))
  const visible = visibleShops(actor, shopId)
  const shops = await tx.shop.findMany({ where: visible ? { id: visible } : {}, orderBy: { name: 'asc' } })
  const counted: { id: string; name: string; counts: Counts }[] = []
  for (const { id, name } of shops)
    counted.push({ id, name, counts: await countsOf(tx, id, { from, to }, now) })
  return {
    items: counted.map(({ id, name, counts }) => withShares(id, name, counts)),
    total: withShares(null, 'All shops', sumOf(counted.map(({ counts }) => counts))),
  }
}

export function figuresCsv({ items, total }: ResultOf<typeof figureRoutes.getPlanFigures>): Answered {
  const columns: Partial<Record<keyof PlanFigures, string>> = {
    shopName: 'shop',
    promised: 'promised',
    onTime: 'onTime',
    onTimeShare: 'onTimeShare',
    bayHours: 'bayHours',
    bayHoursBooked: 'bayHoursBooked',
    bayUse: 'bayUse',
    ovenHours: 'ovenHours',
    ovenHoursBooked: 'ovenHoursBooked',
    ovenUse: 'ovenUse',
    bondsReleased: 'bondsReleased',
    cureHours: 'cureHours',
    earlyReleases: 'earlyReleases',
    earlyReleaseShare: 'earlyReleaseShare',
    operationsPlanned: 'operationsPlanned',
    operationsMoved: 'operationsMoved',
    movedShare: 'movedShare',
    hoursMoved: 'hoursMoved',
  }
  return { name: 'plan-figures.csv', render: async () => toCsv([...items, total], columns) }
}

async function countsOf(tx: Tx, shopId: string, period: Period, now: Date): Promise<Counts> {
  return {
    ...(await promises(tx, shopId, period, now)),
    ...(await use(tx, shopId, period)),
    ...(await cures(tx, shopId, period)),
    ...(await stability(tx, shopId, period)),
  }
}

/** Promised for the period and due by now: through in time when every operation was, a bond by its clamps, a cure by its release. */
async function promises(tx: Tx, shopId: string, { from, to }: Period, now: Date) {
  const orders = await tx.repairOrder.findMany({
    where: { shopId, promisedAt: { gte: from, lt: to, lte: now }, operations: { some: {} } },
    select: {
      promisedAt: true,
      operations: {
        select: {
          kind: true,
          finishedAt: true,
          joint: {
            select: {
              bonds: { where: STILL_ON, orderBy: { attempt: 'desc' }, take: 1 },
            },
          },
        },
      },
    },
  })
  const isOnTime = ({ promisedAt, operations }: (typeof orders)[number]) =>
    operations.every(({ kind, finishedAt, joint }) => {
      const bond = joint?.bonds[0]
      const through =
        kind === 'bondAndClamp' ? bond?.clampedAt : kind === 'cure' ? bond?.releasedAt : finishedAt
      return through !== null && through !== undefined && through <= promisedAt!
    })
  return { promised: orders.length, onTime: orders.filter(isOnTime).length }
}

/** Of the hours in which the shop is open, those for which a bay or oven is booked. */
async function use(tx: Tx, shopId: string, { from, to }: Period) {
  const open = await openHours(tx, shopId, from, to)
  const resources = await tx.resource.findMany({
    where: { shopId, kind: { in: ['bay', 'oven'] }, active: true },
  })
  const bookings = await tx.booking.findMany({
    where: {
      resourceId: { in: resources.map(({ id }) => id) },
      cancelledAt: null,
      startsAt: { lt: to },
      endsAt: { gt: from },
    },
    select: { resourceId: true, startsAt: true, endsAt: true },
  })
  const openHoursSum = hoursIn(open)
  const hours = (kind: string) => {
    const ids = resources.filter((each) => each.kind === kind).map(({ id }) => id)
    const booked = ids.map((id) => {
      const own = bookings.filter(({ resourceId }) => resourceId === id)
      const taken = union(own.map(({ startsAt, endsAt }): Interval => [startsAt.getTime(), endsAt.getTime()]))
      return taken.reduce((sum, each) => sum + hoursIn(clip(open, each)), 0)
    })
    return { all: ids.length * openHoursSum, booked: booked.reduce((sum, each) => sum + each, 0) }
  }
  const bays = hours('bay')
  const ovens = hours('oven')
  return {
    bayHours: bays.all,
    bayHoursBooked: bays.booked,
    ovenHours: ovens.all,
    ovenHoursBooked: ovens.booked,
  }
}

/** When the shop is open, as ms; looked up a month at a time. */
async function openHours(tx: Tx, shopId: string, from: Date, to: Date): Promise<Interval[]> {
  const open: Interval[] = []
  for (let start = from; start < to; start = new Date(start.getTime() + 30 * 24 * HOUR_MS)) {
    const end = new Date(Math.min(to.getTime(), start.getTime() + 30 * 24 * HOUR_MS))
    const [shop] = await resourceTime(tx, shopId, { from: start, to: end })
    const periods = [...(shop?.shifts ?? []), ...(shop?.overtime ?? [])]
    open.push(...periods.map(({ startsAt, endsAt }): Interval => [startsAt.getTime(), endsAt.getTime()]))
  }
  return union(open)
}

function hoursIn(intervals: readonly Interval[]): number {
  return intervals.reduce((sum, [a, b]) => sum + (b - a) / HOUR_MS, 0)
}

async function cures(tx: Tx, shopId: string, { from, to }: Period) {
  const bonds = await tx.bond.findMany({
    where: { shopId, state: 'released', releasedAt: { gte: from, lt: to } },
    select: { appliedAt: true, releasedAt: true },
  })
  const earlyReleases = await tx.incident.count({
    where: { shopId, kind: 'earlyRelease', at: { gte: from, lt: to } },
  })
  return {
    bondsReleased: bonds.length,
    cureHours: bonds.reduce(
      (sum, each) => sum + (each.releasedAt!.getTime() - each.appliedAt.getTime()) / HOUR_MS,
      0,
    ),
    earlyReleases,
  }
}

/** How much of what was published for the period was moved afterwards. */
async function stability(tx: Tx, shopId: string, { from, to }: Period) {
  const planned = await tx.planChange.findMany({
    where: { shopId, kind: { in: ['added', 'moved'] }, startsAt: { gte: from, lt: to } },
    select: { operationId: true },
    distinct: ['operationId'],
  })
  const moves = await tx.planChange.findMany({
    where: { shopId, kind: 'moved', wasStartsAt: { gte: from, lt: to } },
    select: { operationId: true, wasStartsAt: true, startsAt: true },
  })
  const ids = new Set([...planned, ...moves].map(({ operationId }) => operationId))
  return {
    operationsPlanned: ids.size,
    operationsMoved: new Set(moves.map(({ operationId }) => operationId)).size,
    hoursMoved: moves.reduce(
      (sum, { wasStartsAt, startsAt }) =>
        sum + Math.abs(startsAt!.getTime() - wasStartsAt!.getTime()) / HOUR_MS,
      0,
    ),
  }
}
