import { nameOf, toldOf } from '../../foundation/words/kept.ts'
import { message } from '@clampclock/messages'
import type { myWorkRoutes, ResultOf, Task } from '@clampclock/contracts'
import { runningBondsOf, toBonds } from '../../cure/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { waitsFor } from '../operations/waits-for.ts'

type MyWork = ResultOf<typeof myWorkRoutes.getMyWork>

const HOUR_MS = 3_600_000
/** Today's and tomorrow's: what is further away changes with the next plan. */
const AHEAD_MS = 48 * HOUR_MS
/** Where that holds nothing, as over a weekend: the day on which work goes on, if it is one of the next two weeks. */
const NEXT_DAY_MS = 12 * HOUR_MS
const FURTHEST_MS = 14 * 24 * HOUR_MS
/** What was to be done since yesterday and was not begun is not forgotten. */
const BEHIND_MS = 24 * HOUR_MS

const WHOLE_OPERATION = {
  repairOrder: { select: { number: true, vehicle: true } },
  joint: {
    select: {
      name: true,
      product: { select: { id: true, name: true } },
      bonds: { orderBy: { attempt: 'desc' }, take: 1, select: { state: true } },
    },
  },
  where: { select: { name: true } },
  plannedOperations: {
    where: { plan: { state: 'published' } },
    take: 1,
    select: { startsAt: true, endsAt: true, expectedEndAt: true, place: { select: { name: true } } },
  },
} satisfies Prisma.OperationInclude

type OperationRow = Prisma.OperationGetPayload<{ include: typeof WHOLE_OPERATION }>

/** What a person is on and what comes next, in the shops in which he may be told of it. */
export async function myWork(tx: Tx, actor: Actor, now: Date): Promise<MyWork> {
  const shops = visibleShops(actor, undefined)
  const inShops = shops ? { shopId: shops } : {}
  const person = actor.kind === 'person' ? actor.id : null
  const technicians =
    person === null
      ? []
      : await tx.resource.findMany({
          where: { ...inShops, kind: 'technician', personId: person, active: true },
          select: { id: true },
        })
  const ids = technicians.map(({ id }) => id)
  const bonds = person === null ? [] : await runningBondsOf(tx, person, shops)
  return {
    asOf: now,
    isTechnician: ids.length > 0,
    bonds: await toBonds(tx, bonds, now),
    tasks: ids.length === 0 ? [] : [...(await begun(tx, ids)), ...(await planned(tx, ids, now))],
  }
}

async function begun(tx: Tx, technicianIds: string[]): Promise<Task[]> {
  const rows = await tx.operation.findMany({
    where: {
      technicianIds: { hasSome: technicianIds },
      startedAt: { not: null },
      finishedAt: null,
      repairOrder: { state: 'open' },
    },
    include: WHOLE_OPERATION,
    orderBy: [{ startedAt: 'asc' }, { id: 'asc' }],
  })
  return rows.map((row) => {
    const [plan] = row.plannedOperations
    return {
      ...factsOf(row),
      state: 'underWay',
      startsAt: row.startedAt!,
      endsAt: row.expectedEndAt ?? plan?.expectedEndAt ?? plan?.endsAt ?? null,
      waitsFor: null,
    }
  })
}

async function planned(tx: Tx, technicianIds: string[], now: Date): Promise<Task[]> {
  const mine = { resourceId: { in: technicianIds }, cancelledAt: null, repairOrder: { state: 'open' } }
  const tasks = await plannedUntil(tx, mine, now, now.getTime() + AHEAD_MS)
  if (tasks.some(({ state }) => state !== 'late')) return tasks
  const next = await tx.booking.findFirst({
    where: { ...mine, startsAt: { gt: now, lt: new Date(now.getTime() + FURTHEST_MS) } },
    orderBy: { startsAt: 'asc' },
    select: { startsAt: true },
  })
  return next === null ? tasks : plannedUntil(tx, mine, now, next.startsAt.getTime() + NEXT_DAY_MS)
}

async function plannedUntil(
  tx: Tx,
  mine: Prisma.BookingWhereInput,
  now: Date,
  untilMs: number,
): Promise<Task[]> {
  const rows = await tx.booking.findMany({
    where: {
      ...mine,
      startsAt: { lt: new Date(untilMs) },
      endsAt: { gt: new Date(now.getTime() - BEHIND_MS) },
    },
    include: { operation: { include: WHOLE_OPERATION }, repairOrder: true },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  })
  const tasks: Task[] = []
  const told = new Set<string>()
  for (const { operation, repairOrder, startsAt, endsAt, note, noteSaid } of rows) {
    if (operation === null) {
      // Nothing tells whether it was done: once its time is over it is out of sight.
      if (endsAt > now) tasks.push(byHand({ repairOrder, startsAt, endsAt, note, noteSaid }, now))
      continue
    }
    // A night between two shifts makes two bookings of one operation.
    if (isUnderWayOrDone(operation) || told.has(operation.id)) continue
    told.add(operation.id)
    const waits = await waitsFor(tx, operation)
    tasks.push({
      ...factsOf(operation),
      state: stateAt(now, startsAt, endsAt),
      startsAt,
      endsAt,
      waitsFor: waits?.message ?? null,
      note: toldOf(note, noteSaid),
    })
  }
  return tasks
}

/** What adhesive on the joint has overtaken, whether anybody said that it was done or not, as the planner has it. */
const UP_TO_THE_BOND: ReadonlySet<string> = new Set(['prepare', 'dryFit', 'bondAndClamp'])

/** A bond is begun at its joint: until it is clamped it is told as a bond. */
function isUnderWayOrDone({ kind, joint, startedAt, finishedAt }: OperationRow): boolean {
  const attempt = joint?.bonds[0]?.state
  const isBonded = UP_TO_THE_BOND.has(kind) && attempt !== undefined && attempt !== 'abandoned'
  return startedAt !== null || finishedAt !== null || isBonded
}

function stateAt(now: Date, startsAt: Date, endsAt: Date): Task['state'] {
  if (endsAt <= now) return 'late'
  return startsAt <= now ? 'now' : 'next'
}

function factsOf(row: OperationRow): Omit<Task, 'state' | 'startsAt' | 'endsAt' | 'waitsFor'> {
  return {
    operationId: row.id,
    kind: row.kind as Task['kind'],
    name: nameOf(row),
    shopId: row.shopId,
    repairOrderId: row.repairOrderId,
    repairOrderNumber: row.repairOrder.number,
    vehicle: row.repairOrder.vehicle,
    jointId: row.jointId,
    jointName: row.joint?.name ?? null,
    productId: row.joint?.product.id ?? null,
    productName: row.joint?.product.name ?? null,
    placeName: row.where?.name ?? row.plannedOperations[0]?.place?.name ?? null,
    note: '',
  }
}

interface Booked {
  readonly repairOrder: {
    readonly id: string
    readonly shopId: string
    readonly number: string
    readonly vehicle: string
  }
  readonly startsAt: Date
  readonly endsAt: Date
  readonly note: string
  readonly noteSaid: unknown
}

function byHand({ repairOrder, startsAt, endsAt, note, noteSaid }: Booked, now: Date): Task {
  return {
    operationId: null,
    kind: null,
    name: message('plan-reason.booked'),
    state: stateAt(now, startsAt, endsAt),
    shopId: repairOrder.shopId,
    repairOrderId: repairOrder.id,
    repairOrderNumber: repairOrder.number,
    vehicle: repairOrder.vehicle,
    jointId: null,
    jointName: null,
    productId: null,
    productName: null,
    placeName: null,
    startsAt,
    endsAt,
    waitsFor: null,
    note: toldOf(note, noteSaid),
  }
}
