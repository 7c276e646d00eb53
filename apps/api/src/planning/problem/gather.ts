import { bayForecast, type BondRow, keptEstimateOf, runningBonds } from '../../cure/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { expiryOf, selectCartridges } from '../../supply/index.ts'
import { coldestC } from '../operations/planned-bake.ts'
import { HORIZON_DAYS } from '../operations/horizon.ts'
import {
  type BondFact,
  type ExceptionFact,
  type ResourceFact,
  type ShopFacts,
  type TakenFact,
} from './facts.ts'
import { toOrder, WHOLE_ORDER, type OrderRow } from './gather-order.ts'

const MINUTE_MS = 60_000
const FORECAST_HOURS = 7 * 24

/** All that a plan of a shop is made from, as it stands at `now`. */
export async function gatherFacts(tx: Tx, shopId: string, now: Date): Promise<ShopFacts> {
  const { timeZone, temperatureUnit: unit } = await shopById(tx, shopId)
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
  const inUse = resources.filter(({ active }) => active).flatMap(({ id }) => forecasts.get(id) ?? [])
  const bakeWith = { coldestBayC: coldestC(inUse), reader: { timeZone, unit } }
  return {
    timeZone,
    temperatureUnit: unit,
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
      ...toOrder(row, ready, bakeWith, now),
      bonds: bonds.filter((bond) => isBeside(bond, row)).map((bond) => toBondFact(bond, ready)),
    })),
    taken: [...(await byHand(tx, shopId, now)), ...bonds.flatMap((bond) => keptBy(bond, ready, now))],
    lots: await lotsOf(tx, shopId, now),
  }
}

async function readyMs(tx: Tx, bond: BondRow, timeZone: string, now: Date): Promise<number> {
  const { estimate } = await keptEstimateOf(tx, bond, timeZone, now)
  const { conservative } = estimate.handlingStrength.readyAt
  // With no end in sight it keeps the bay as far as the plan looks.
  return conservative.kind === 'at' ? conservative.atMs : Infinity
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
      and c.expires_at > ${now} and l.hold_reason is null and q.id is null`,
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
