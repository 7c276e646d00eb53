import { nameOf } from '../../foundation/words/kept.ts'
import { message } from '@clampclock/messages'
import { sentences, param } from '../../foundation/words/params.ts'
import type { BodyOf, Operation, operationRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import { bondsOfRepairOrder, requireNotElsewhere } from '../../cure/index.ts'
import { heldReasons } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { HORIZON_DAYS } from './horizon.ts'
import { operationRow, toOperation } from './operation-store.ts'
import { waitsFor } from './waits-for.ts'

const DAY_MS = 86_400_000

type OperationRow = Awaited<ReturnType<typeof operationRow>>

/** Work begins: from now on the plan takes it for a fact. */
export async function startOperation(
  tx: Tx,
  actor: Actor,
  id: string,
  { placeId, technicianIds }: BodyOf<typeof operationRoutes.startOperation>,
  now: Date,
): Promise<Operation> {
  const row = await locked(tx, actor, id)
  if (row.kind === 'bondAndClamp' || row.kind === 'cure')
    throw wrongState(message('plan-problem.bondStartsAtJoint'), message('plan-problem.startBondThereFix'))
  if (row.startedAt) throw wrongState(message('plan-problem.begunAlready', { name: param(nameOf(row)) }))
  await requireBefore(tx, row)
  if (row.kind === 'bake') await requireNothingHeld(tx, row.repairOrderId)
  await requireOfShop(tx, row, placeId, technicianIds)
  const planned = await tx.plannedOperation.findFirst({
    where: { operationId: id, plan: { state: 'published' } },
  })
  const place = placeId ?? planned?.placeId ?? null
  if (row.place === 'bay' && place !== null) {
    const { number } = await tx.repairOrder.findUniqueOrThrow({ where: { id: row.repairOrderId } })
    await requireNotElsewhere(tx, { repairOrderId: row.repairOrderId, number }, place, 'body.placeId')
  }
  return keep(tx, actor, row, {
    startedAt: now,
    placeId: place,
    technicianIds: technicianIds.length > 0 ? technicianIds : (planned?.technicianIds ?? []),
  })
}

export async function finishOperation(tx: Tx, actor: Actor, id: string, now: Date): Promise<Operation> {
  const row = await locked(tx, actor, id)
  if (!row.startedAt)
    throw wrongState(
      message('plan-problem.notBegun', { name: param(nameOf(row)) }),
      message('plan-problem.startFirstFix'),
    )
  if (row.finishedAt) throw wrongState(message('plan-problem.finishedAlready', { name: param(nameOf(row)) }))
  return keep(tx, actor, row, { finishedAt: now, expectedEndAt: null })
}

export async function delayOperation(
  tx: Tx,
  actor: Actor,
  id: string,
  expectedEndAt: Date,
  now: Date,
): Promise<Operation> {
  const row = await locked(tx, actor, id)
  if (!row.startedAt || row.finishedAt)
    throw wrongState(message('plan-problem.notUnderWay', { name: param(nameOf(row)) }))
  if (expectedEndAt <= now) throw invalidField('body.expectedEndAt', message('plan-problem.overFinishIt'))
  if (expectedEndAt.getTime() >= now.getTime() + HORIZON_DAYS * DAY_MS)
    throw invalidField('body.expectedEndAt', message('plan-problem.beyondFourWeeks'))
  return keep(tx, actor, row, { expectedEndAt })
}

async function locked(tx: Tx, actor: Actor, id: string): Promise<OperationRow> {
  await tx.$queryRaw`select 1 from operation where id = ${id}::uuid for no key update`
  const row = await operationRow(tx, id)
  requireIn(actor, 'makeBonds', row.shopId)
  return row
}

async function requireBefore(tx: Tx, row: OperationRow): Promise<void> {
  const waits = await waitsFor(tx, row)
  if (waits) throw wrongState(waits.message, waits.fix)
}

/** Into the oven goes no joint that waits for a person: adhesive that was left on the vehicle would be baked with it. */
async function requireNothingHeld(tx: Tx, repairOrderId: string): Promise<void> {
  const reasons = heldReasons(await bondsOfRepairOrder(tx, repairOrderId))
  if (reasons.length > 0)
    throw new ProblemError('bake-refused', sentences(reasons.map((each) => each.message)), reasons)
}

async function requireOfShop(
  tx: Tx,
  { shopId, place }: OperationRow,
  placeId: string | null,
  technicianIds: readonly string[],
): Promise<void> {
  if (placeId !== null && !(await tx.resource.findFirst({ where: { id: placeId, shopId, kind: place } })))
    throw invalidField('body.placeId', message('plan-problem.noPlaceOfShop', { place }))
  const known = await tx.resource.count({
    where: { id: { in: [...technicianIds] }, shopId, kind: 'technician' },
  })
  if (known !== new Set(technicianIds).size)
    throw invalidField('body.technicianIds', message('plan-problem.noTechnician'))
}

async function keep(
  tx: Tx,
  actor: Actor,
  { id, shopId, repairOrderId }: OperationRow,
  data: {
    startedAt?: Date
    finishedAt?: Date
    expectedEndAt?: Date | null
    placeId?: string | null
    technicianIds?: string[]
  },
): Promise<Operation> {
  await tx.operation.update({ where: { id }, data: { ...data, version: { increment: 1 } } })
  const organizationId = actor.organization.id
  await announce(tx, { organizationId, shopId, topic: 'repairs', subjectId: repairOrderId })
  await announce(tx, { organizationId, shopId, topic: 'plans', subjectId: null })
  return toOperation(await operationRow(tx, id))
}
