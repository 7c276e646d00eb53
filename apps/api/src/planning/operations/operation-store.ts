import { toldOf } from '../../foundation/words/kept.ts'
import type { Operation } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import { STILL_ON } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { storedProgram } from '../../cure/index.ts'
import { isOfBond } from './arrange.ts'
import { inOrder } from './expand.ts'

const WITH_JOINT = {
  joint: { select: { name: true, bonds: { where: STILL_ON, select: { id: true }, take: 1 } } },
} satisfies Prisma.OperationInclude

export type OperationRow = Prisma.OperationGetPayload<{ include: typeof WITH_JOINT }>

export async function operationsOf(tx: Tx, repairOrderId: string): Promise<OperationRow[]> {
  return tx.operation.findMany({
    where: { repairOrderId },
    include: WITH_JOINT,
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  })
}

export async function operationRow(tx: Tx, id: string): Promise<OperationRow> {
  const row = await tx.operation.findUnique({ where: { id }, include: WITH_JOINT })
  if (!row) throw notFound('operation', id)
  return row
}

/**
 * Whoever changes the operations of a vehicle, starts one, or starts a bond on it, comes after the one before: each step of
 * the vehicle comes once, and what has begun stays on record.
 */
export async function lockOperationsOf(tx: Tx, repairOrderId: string): Promise<void> {
  await tx.$queryRaw`select 1 from repair_order where id = ${repairOrderId}::uuid for no key update`
  await tx.$queryRaw`select 1 from operation where repair_order_id = ${repairOrderId}::uuid order by id for update`
}

/** Numbers the operations of a vehicle in the order in which they are done; the list as it is unless another is given. */
export async function number(
  tx: Tx,
  repairOrderId: string,
  ordered?: readonly { readonly id: string; readonly position: number }[],
): Promise<void> {
  const rows = ordered ?? inOrder((await operationsOf(tx, repairOrderId)).map(toOperation))
  for (const [i, { id, position }] of rows.entries())
    if (position !== i + 1) await tx.operation.update({ where: { id }, data: { position: i + 1 } })
}

interface Changed {
  readonly shopId: string
  readonly repairOrderId: string
}

/** A plan that has the vehicle as it was before is told to be outdated from now on. */
export async function announceOtherWork(tx: Tx, actor: Actor, changed: Changed): Promise<void> {
  const { shopId, repairOrderId } = changed
  await tx.repairOrder.update({ where: { id: repairOrderId }, data: { workVersion: { increment: 1 } } })
  await announceOperations(tx, actor, changed)
  await announce(tx, { organizationId: actor.organization.id, shopId, topic: 'plans', subjectId: null })
}

export async function announceOperations(
  tx: Tx,
  actor: Actor,
  { shopId, repairOrderId }: Changed,
): Promise<void> {
  const organizationId = actor.organization.id
  await announce(tx, { organizationId, shopId, topic: 'repairs', subjectId: repairOrderId })
}

export function toOperation({ joint, nameSaid, ...row }: OperationRow): Operation {
  const kind = row.kind as Operation['kind']
  const isBonded = isOfBond(kind) && joint !== null && joint.bonds.length > 0
  return {
    ...row,
    name: toldOf(row.name, nameSaid),
    kind,
    jointName: joint?.name ?? null,
    place: row.place as Operation['place'],
    skill: row.skill as Operation['skill'],
    attributes: row.attributes as Operation['attributes'],
    bakeProgram: storedProgram(row.bakeProgram),
    hasBegun: row.startedAt !== null || isBonded,
  }
}
