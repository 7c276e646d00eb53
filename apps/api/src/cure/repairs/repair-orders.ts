import { message } from '@clampclock/messages'
import { sentences } from '../../foundation/words/params.ts'
import type {
  BodyOf,
  Joint,
  QueryOf,
  RepairOrder,
  RepairOrderDetail,
  repairRoutes,
  ResultOf,
} from '@clampclock/contracts'
import { requireIn, visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import { bondsOfRepairOrder, bondsOfRepairOrders, type BondRow } from '../estimates/bond-store.ts'
import { amountNeededMl, heldReasons, isRunning, procedureOf } from '../../work/index.ts'
import { standingOfJoint, vehicleCheck } from '../estimates/move-check.ts'
import { toBonds } from '../estimates/to-bond.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField, notFound, ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import { requireVersion } from '../../foundation/http/versions.ts'
import { announce } from '../../foundation/live/hub.ts'
import { recordCorrection } from '../records/vehicle-correction.ts'
import { endForOrder } from '../../supply/index.ts'
import { ordersOfVehicle, seenFrom } from './same-vehicle.ts'

function summary(now: Date) {
  return {
    joints: {
      include: {
        product: true,
        bonds: { select: { state: true, bay: { select: { id: true, name: true } } } },
      },
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
    },
    bookings: {
      where: {
        cancelledAt: null,
        startsAt: { lte: now },
        endsAt: { gt: now },
        resource: { kind: { in: ['bay', 'oven'] } },
      },
      include: { resource: true },
      orderBy: { startsAt: 'desc' },
      take: 1,
    },
  } satisfies Prisma.RepairOrderInclude
}

type OrderRow = NonNullable<Awaited<ReturnType<typeof findOrder>>>

function findOrder(tx: Tx, id: string, now: Date) {
  return tx.repairOrder.findUnique({ where: { id }, include: summary(now) })
}

export async function orderRow(tx: Tx, id: string, now: Date): Promise<OrderRow> {
  const row = await findOrder(tx, id, now)
  if (!row) throw notFound('repair order', id)
  return row
}

/** Promised first is first; those without a promise come last. */
const ORDER: Prisma.RepairOrderOrderByWithRelationInput[] = [
  { promisedAt: { sort: 'asc', nulls: 'last' } },
  { id: 'asc' },
]

export async function listRepairOrders(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof repairRoutes.listRepairOrders>,
  now: Date,
): Promise<ResultOf<typeof repairRoutes.listRepairOrders>> {
  const shops = visibleShops(actor, query.shopId)
  const rows = await tx.repairOrder.findMany({
    where: {
      AND: [
        shops ? { shopId: shops } : {},
        query.state ? { state: query.state } : {},
        query.number ? { number: { contains: query.number, mode: 'insensitive' } } : {},
        query.cursor ? afterCursor(query.cursor) : {},
      ],
    },
    include: summary(now),
    orderBy: ORDER,
    take: query.limit + 1,
  })
  return toPage(rows, query.limit, toSummary, (row) => [row.promisedAt?.toISOString() ?? '', row.id])
}

function afterCursor(cursor: string) {
  const [promised, id] = unpackCursor(cursor, 2).map(String)
  if (!id || !/^[0-9a-f-]{36}$/.test(id)) throw invalidField('query.cursor', message('problem.badCursor'))
  if (promised === '') return { promisedAt: null, id: { gt: id } }
  const at = new Date(String(promised))
  if (Number.isNaN(at.getTime())) throw invalidField('query.cursor', message('problem.badCursor'))
  return { OR: [{ promisedAt: { gt: at } }, { promisedAt: at, id: { gt: id } }, { promisedAt: null }] }
}

export async function getRepairOrder(
  tx: Tx,
  actor: Actor,
  id: string,
  now: Date,
): Promise<RepairOrderDetail> {
  const row = await orderRow(tx, id, now)
  requireIn(actor, 'readShop', row.shopId)
  return toDetail(tx, row, now)
}

export async function addRepairOrder(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: BodyOf<typeof repairRoutes.addRepairOrder>,
  now: Date,
): Promise<RepairOrderDetail> {
  requireIn(actor, 'planWork', shopId)
  if (!(await tx.shop.findUnique({ where: { id: shopId } }))) throw notFound('shop', shopId)
  const organizationId = actor.organization.id
  const { id } = await tx.repairOrder.create({ data: { ...body, organizationId, shopId, createdAt: now } })
  await announce(tx, { organizationId, shopId, topic: 'repairs', subjectId: id })
  return toDetail(tx, await orderRow(tx, id, now), now)
}

export async function editRepairOrder(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof repairRoutes.editRepairOrder>,
  version: number,
  now: Date,
): Promise<RepairOrderDetail> {
  // A bond or a reservation that is being made on it is there when we look, or finds it done.
  await tx.$queryRaw`select 1 from repair_order where id = ${id}::uuid for no key update`
  const before = await orderRow(tx, id, now)
  requireIn(actor, 'planWork', before.shopId)
  if (body.state === 'done' && before.state !== 'done') requireFinished(await bondsOfRepairOrder(tx, id))
  const { count } = await tx.repairOrder.updateMany({
    where: { id, version },
    data: {
      ...(body.vehicle === undefined ? {} : { vehicle: body.vehicle }),
      ...(body.vin === undefined ? {} : { vin: body.vin }),
      ...(body.plate === undefined ? {} : { plate: body.plate }),
      ...(body.ovenLimitC === undefined ? {} : { ovenLimitC: body.ovenLimitC }),
      ...(body.promisedAt === undefined ? {} : { promisedAt: body.promisedAt }),
      ...(body.priority === undefined ? {} : { priority: body.priority }),
      ...(body.note === undefined ? {} : { note: body.note }),
      ...(body.state === undefined ? {} : { state: body.state }),
      version: { increment: 1 },
    },
  })
  const row = await orderRow(tx, id, now)
  requireVersion(count, row.version)
  await recordCorrection(tx, actor, before, row, now)
  if (row.state === 'done')
    await endForOrder(tx, { organizationId: actor.organization.id, name: actor.name }, id, now)
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: row.shopId,
    topic: 'repairs',
    subjectId: id,
  })
  return toDetail(tx, row, now)
}

/** Rule 3, to the end: nothing cures on it, and nothing waits for a person. */
function requireFinished(rows: readonly BondRow[]): void {
  const running = rows.filter(isRunning)
  if (running.length > 0) {
    throw wrongState(
      message('cure-problem.stillCuringOnOrder', { bonds: running.length }),
      message('cure-problem.releaseFirstFix'),
    )
  }
  const reasons = heldReasons(rows)
  if (reasons.length > 0)
    throw new ProblemError('wrong-state', sentences(reasons.map((each) => each.message)), reasons)
}

export async function toDetail(tx: Tx, row: OrderRow, now: Date): Promise<RepairOrderDetail> {
  const rows = await bondsOfRepairOrders(tx, await ordersOfVehicle(tx, row))
  const bonds = await toBonds(tx, rows, now)
  const attempts = rows.map((attempt, i) => ({ row: attempt, check: bonds[i]!.moveCheck }))
  const ofVehicle = attempts.map((attempt) => seenFrom(row.id, attempt))
  const joints: Joint[] = row.joints.map((joint) => ({
    id: joint.id,
    repairOrderId: row.id,
    name: joint.name,
    panelMaterial: joint.panelMaterial as Joint['panelMaterial'],
    panelThicknessMm: joint.panelThicknessMm,
    safetyClass: joint.safetyClass as Joint['safetyClass'],
    productId: joint.productId,
    productName: joint.product.name,
    lengthMm: joint.lengthMm,
    flangeWidthMm: joint.flangeWidthMm,
    beadDiameterMm: joint.beadDiameterMm,
    procedure: procedureOf(joint),
    amountNeededMl: amountNeededMl(joint),
    state: standingOfJoint(attempts.filter((each) => each.row.jointId === joint.id)).state,
    bonds: bonds.filter((bond) => bond.jointId === joint.id),
  }))
  return {
    ...toSummary(row),
    joints,
    moveCheck: vehicleCheck(ofVehicle, now),
    nextBay: await nextBayOf(tx, row.id, now),
  }
}

async function nextBayOf(tx: Tx, repairOrderId: string, now: Date): Promise<RepairOrderDetail['nextBay']> {
  const next = await tx.booking.findFirst({
    where: {
      repairOrderId,
      cancelledAt: null,
      startsAt: { gt: now },
      resource: { kind: 'bay', active: true },
    },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
    include: { resource: true },
  })
  return next && { id: next.resource.id, name: next.resource.name, from: next.startsAt }
}

/** While a joint cures the vehicle is where its bond was made, whatever is booked, unless it is baked. */
function standsIn({ bookings: [booked], joints }: OrderRow): RepairOrder['bay'] {
  const curing = joints.flatMap(({ bonds }) => bonds).find((bond) => isRunning(bond) && bond.bay !== null)
  if (curing?.bay && booked?.resource.kind !== 'oven') return curing.bay
  return booked ? { id: booked.resource.id, name: booked.resource.name } : null
}

function toSummary(row: OrderRow): RepairOrder {
  return {
    id: row.id,
    shopId: row.shopId,
    number: row.number,
    vehicle: row.vehicle,
    vin: row.vin,
    plate: row.plate,
    ovenLimitC: row.ovenLimitC,
    promisedAt: row.promisedAt,
    priority: row.priority as RepairOrder['priority'],
    note: row.note,
    state: row.state as RepairOrder['state'],
    bay: standsIn(row),
    jointCount: row.joints.length,
    curingCount: row.joints.flatMap(({ bonds }) => bonds).filter(isRunning).length,
    version: row.version,
  }
}
