import { panelTauMinutes } from '../bonds/panel.ts'
import { amountNeededMl } from '../bonds/joint-store.ts'
import { isRunning, runningBonds, type BondRow } from '../bonds/bond-store.ts'
import { estimateOf } from '../bonds/history.ts'
import { figuresOf, withPoints } from '../catalogue/sheets.ts'
import type { Tx } from '../database/database.ts'
import { Prisma } from '../generated/prisma/client.ts'
import { isoDate } from '../http/dates.ts'
import { shopById } from '../shops/shops.ts'
import { expiryOf, selectCartridges } from '../stock/cartridge-store.ts'
import { bayForecast } from '../temperature/bay-temperature.ts'
import { clampStayOf } from './clamp-stay.ts'
import {
  HORIZON_DAYS,
  type BondFact,
  type ExceptionFact,
  type OperationFact,
  type OrderFact,
  type Progress,
  type ResourceFact,
  type ShopFacts,
  type TakenFact,
} from './facts.ts'

const MINUTE_MS = 60_000
const FORECAST_HOURS = 7 * 24

const WHOLE_ORDER = {
  operations: {
    include: {
      joint: {
        include: {
          bonds: { orderBy: { attempt: 'asc' } },
          product: {
            include: {
              productSheets: {
                include: withPoints,
                orderBy: [{ issuedOn: 'desc' }, { recordedAt: 'desc' }],
                take: 1,
              },
            },
          },
        },
      },
      // Where it stands by the published plan, for what has been started without a place.
      plannedOperations: { where: { plan: { state: 'published' } } },
    },
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  },
  plannedStays: {
    where: { plan: { state: 'published' }, resource: { kind: 'clampSet' } },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  },
} satisfies Prisma.RepairOrderInclude

type OrderRow = Prisma.RepairOrderGetPayload<{ include: typeof WHOLE_ORDER }>
type OperationRow = OrderRow['operations'][number]

/** All that a plan of a shop is made from, as it stands at `now`. */
export async function gatherFacts(tx: Tx, shopId: string, now: Date): Promise<ShopFacts> {
  const { timeZone } = await shopById(tx, shopId)
  const originMs = Math.floor(now.getTime() / MINUTE_MS) * MINUTE_MS
  const resources = await tx.resource.findMany({
    where: { shopId },
    orderBy: [{ kind: 'asc' }, { name: 'asc' }],
  })
  const forecasts = new Map<string, ShopFacts['forecasts'] extends ReadonlyMap<string, infer F> ? F : never>()
  for (const { id, kind } of resources)
    if (kind === 'bay') forecasts.set(id, await bayForecast(tx, id, timeZone, now, FORECAST_HOURS))
  const orders = await tx.repairOrder.findMany({
    where: { shopId, state: 'open', operations: { some: { finishedAt: null } } },
    include: WHOLE_ORDER,
    orderBy: [{ promisedAt: { sort: 'asc', nulls: 'last' } }, { id: 'asc' }],
  })
  const bonds = await runningBonds(tx, { in: [shopId] })
  const endMs = originMs + HORIZON_DAYS * 1440 * MINUTE_MS
  const ready = new Map<string, number>()
  for (const bond of bonds) ready.set(bond.id, Math.min(endMs, await readyMs(tx, bond, timeZone, now)))
  const early = await releasedEarly(tx, shopId)
  return {
    timeZone,
    originMs,
    horizonMinutes: HORIZON_DAYS * 1440,
    resources: resources.map(({ id, kind, name, capacity, attributes, skills, active }) => ({
      id,
      kind: kind as ResourceFact['kind'],
      name,
      capacity,
      attributes: attributes as ResourceFact['attributes'],
      skills: skills as ResourceFact['skills'],
      isActive: active,
    })),
    shifts: await tx.workShift.findMany({
      where: { shopId },
      orderBy: [{ weekday: 'asc' }, { fromMinute: 'asc' }],
    }),
    exceptions: (await tx.dayException.findMany({ where: { shopId } })).map((row) => ({
      ...row,
      kind: row.kind as ExceptionFact['kind'],
      firstDay: isoDate(row.firstDay),
      lastDay: isoDate(row.lastDay),
    })),
    forecasts,
    orders: orders.map((row) => ({
      ...toOrder(row, ready, now),
      bonds: bonds.filter((bond) => isBeside(bond, row)).map((bond) => toBondFact(bond, ready)),
      releasedEarly: early
        .filter(({ joint }) => joint.repairOrderId === row.id)
        .map(({ joint }) => joint.name),
    })),
    taken: [...(await byHand(tx, shopId, now)), ...bonds.flatMap((bond) => keptBy(bond, ready, now))],
    lots: await lotsOf(tx, shopId, now),
  }
}

async function readyMs(tx: Tx, bond: BondRow, timeZone: string, now: Date): Promise<number> {
  const { estimate } = await estimateOf(tx, bond, timeZone, now)
  const { conservative } = estimate.handlingStrength.readyAt
  // With no end in sight it keeps the bay as far as the plan looks.
  return conservative.kind === 'at' ? conservative.atMs : Infinity
}

function releasedEarly(tx: Tx, shopId: string) {
  return tx.bond.findMany({
    where: {
      shopId,
      state: { not: 'abandoned' },
      incidents: { some: { kind: 'earlyRelease', disposition: null } },
    },
    select: { joint: { select: { name: true, repairOrderId: true } } },
  })
}

/** Of this vehicle, on a joint that no planned cure speaks for. */
function isBeside({ joint }: BondRow, { id, operations }: OrderRow): boolean {
  const hasCure = operations.some(({ kind, jointId }) => kind === 'cure' && jointId === joint.id)
  return joint.repairOrderId === id && !hasCure
}

function toBondFact({ id, joint, bayId, appliedAt }: BondRow, ready: ReadonlyMap<string, number>): BondFact {
  return {
    id,
    jointName: joint.name,
    placeId: bayId,
    startMs: appliedAt.getTime(),
    readyMs: ready.get(id)!,
  }
}

function toOrder(
  row: OrderRow,
  ready: ReadonlyMap<string, number>,
  now: Date,
): Omit<OrderFact, 'bonds' | 'releasedEarly'> {
  return {
    id: row.id,
    number: row.number,
    priority: row.priority as OrderFact['priority'],
    promisedAtMs: row.promisedAt?.getTime() ?? null,
    ovenLimitC: row.ovenLimitC,
    operations: row.operations.map((operation) => ({
      ...toOperationFact(operation, ready, now),
      clampSetId: clampSetOf(row, operation),
    })),
  }
}

function clampSetOf({ operations, plannedStays }: OrderRow, { id, clampSets }: OperationRow): string | null {
  if (clampSets === 0) return null
  const kept = {
    operations: operations.flatMap(({ plannedOperations }) => plannedOperations),
    stays: plannedStays,
  }
  return clampStayOf(kept, operations, id)?.resourceId ?? null
}

function toOperationFact(
  row: OperationRow,
  ready: ReadonlyMap<string, number>,
  now: Date,
): Omit<OperationFact, 'clampSetId'> {
  const { joint } = row
  const sheet = joint?.product.productSheets[0]
  return {
    id: row.id,
    kind: row.kind as OperationFact['kind'],
    name: row.name,
    jointId: row.jointId,
    place: row.place as OperationFact['place'],
    workMinutes: row.workMinutes,
    technicians: row.technicians,
    skill: row.skill as OperationFact['skill'],
    clampSets: row.clampSets,
    attributes: row.attributes as OperationFact['attributes'],
    highestMetalC: row.highestMetalC,
    joint:
      joint && sheet
        ? {
            productId: joint.productId,
            productName: joint.product.name,
            sheet: figuresOf(sheet),
            panelTauMinutes: panelTauMinutes(joint),
            amountUl: Math.round(amountNeededMl(joint) * 1000),
          }
        : null,
    progress: progressOf(row, ready, now),
  }
}

/** What was told of the operation, or what the bond on its joint says: a bond that runs is its cure under way. */
function progressOf(row: OperationRow, ready: ReadonlyMap<string, number>, now: Date): Progress {
  const planned = row.plannedOperations[0]
  const bond = row.joint?.bonds.findLast(({ state }) => state !== 'abandoned')
  const placeId = row.placeId ?? bond?.bayId ?? planned?.placeId ?? null
  if (bond && (row.kind === 'cure' || row.kind === 'bondAndClamp')) {
    const from = row.kind === 'cure' ? (bond.clampedAt ?? bond.appliedAt) : bond.appliedAt
    const end =
      row.kind === 'cure'
        ? (bond.releasedAt?.getTime() ?? ready.get(bond.id)!)
        : (bond.clampedAt ?? bond.appliedAt).getTime()
    const kind = row.kind === 'cure' && isRunning(bond) ? 'running' : 'done'
    return { kind, startMs: from.getTime(), endMs: end, placeId, technicianIds: [] }
  }
  if (!row.startedAt) return { kind: 'open' }
  const startMs = row.startedAt.getTime()
  if (row.finishedAt)
    return { kind: 'done', startMs, endMs: row.finishedAt.getTime(), placeId, technicianIds: [] }
  // Until somebody says otherwise it takes what was planned for it; one that is overdue ends any minute now.
  const length = planned
    ? planned.endsAt.getTime() - planned.startsAt.getTime()
    : (row.workMinutes ?? 0) * MINUTE_MS
  const endMs = Math.max(row.expectedEndAt?.getTime() ?? startMs + length, now.getTime() + MINUTE_MS)
  const technicianIds = row.technicianIds.length > 0 ? row.technicianIds : (planned?.technicianIds ?? [])
  return { kind: 'running', startMs, endMs, placeId, technicianIds }
}

async function byHand(tx: Tx, shopId: string, now: Date): Promise<TakenFact[]> {
  const rows = await tx.booking.findMany({
    where: { shopId, cancelledAt: null, planId: null, endsAt: { gt: now } },
  })
  return rows.map(({ resourceId, repairOrderId, units, startsAt, endsAt }) => ({
    resourceId,
    repairOrderId,
    units,
    fromMs: startsAt.getTime(),
    untilMs: endsAt.getTime(),
  }))
}

function keptBy({ id, bayId, joint }: BondRow, ready: ReadonlyMap<string, number>, now: Date): TakenFact[] {
  if (!bayId) return []
  const { repairOrderId } = joint
  return [{ resourceId: bayId, repairOrderId, units: 1, fromMs: now.getTime(), untilMs: ready.get(id)! }]
}

/** More than any shop has on its shelves. */
const MOST_CARTRIDGES = 50_000

/** What a joint could be promised (reservations/reserve.ts): in date, in a gun that the shop has, and not on hold. */
async function lotsOf(tx: Tx, shopId: string, now: Date): Promise<ShopFacts['lots']> {
  const rows = await selectCartridges(
    tx,
    Prisma.sql`c.shop_id = ${shopId}::uuid and c.state in ('sealed', 'opened') and c.remaining_ul > 0
      and c.expires_at > ${now} and l.hold_reason is null`,
    MOST_CARTRIDGES,
  )
  return rows
    .filter(({ fits }) => fits)
    .map((row) => ({
      id: row.id,
      productId: row.product_id,
      amountUl: row.remaining_ul,
      expiresAtMs: expiryOf(row).atMs,
    }))
}
