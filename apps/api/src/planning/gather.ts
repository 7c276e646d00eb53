import { panelTauMinutes } from '../bonds/panel.ts'
import { amountNeededMl } from '../bonds/joint-store.ts'
import { isRunning, runningBonds, type BondRow } from '../bonds/bond-store.ts'
import { estimateOf } from '../bonds/history.ts'
import { figuresOf, withPoints } from '../catalogue/sheets.ts'
import type { Tx } from '../database/database.ts'
import type { Prisma } from '../generated/prisma/client.ts'
import { isoDate } from '../http/dates.ts'
import { shopById } from '../shops/shops.ts'
import { bayForecast } from '../temperature/bay-temperature.ts'
import type {
  ExceptionFact,
  OperationFact,
  OrderFact,
  Progress,
  ResourceFact,
  ShopFacts,
  TakenFact,
} from './facts.ts'

/** Four weeks: a shop with more work than that plans again before it matters. */
const HORIZON_DAYS = 28
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
  const ready = new Map<string, number>()
  for (const bond of bonds) ready.set(bond.id, await readyMs(tx, bond, timeZone, now))
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
    orders: orders.map((row) => toOrder(row, ready, now)),
    taken: [...(await byHand(tx, shopId, now)), ...bonds.flatMap((bond) => keptBy(bond, ready, now))],
    lots: await lotsOf(tx, shopId, now),
  }
}

async function readyMs(tx: Tx, bond: BondRow, timeZone: string, now: Date): Promise<number> {
  const { estimate } = await estimateOf(tx, bond, timeZone, now)
  const { conservative } = estimate.handlingStrength.readyAt
  // With no end in sight it keeps the bay as far as the plan looks.
  return conservative.kind === 'at' ? conservative.atMs : now.getTime() + HORIZON_DAYS * 86_400_000
}

function toOrder(row: OrderRow, ready: ReadonlyMap<string, number>, now: Date): OrderFact {
  return {
    id: row.id,
    number: row.number,
    priority: row.priority as OrderFact['priority'],
    promisedAtMs: row.promisedAt?.getTime() ?? null,
    ovenLimitC: row.ovenLimitC,
    operations: row.operations.map((operation) => toOperationFact(operation, ready, now)),
  }
}

function toOperationFact(row: OperationRow, ready: ReadonlyMap<string, number>, now: Date): OperationFact {
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

async function lotsOf(tx: Tx, shopId: string, now: Date): Promise<ShopFacts['lots']> {
  const rows = await tx.cartridge.findMany({
    where: { shopId, state: { in: ['sealed', 'opened'] }, remainingUl: { gt: 0 }, expiresAt: { gt: now } },
    include: { lot: { select: { productId: true } } },
    orderBy: { id: 'asc' },
  })
  return rows.map(({ id, remainingUl, expiresAt, lot }) => ({
    id,
    productId: lot.productId,
    amountUl: remainingUl,
    expiresAtMs: expiresAt.getTime(),
  }))
}
