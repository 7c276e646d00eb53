import { param } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { BodyOf, Operation, operationChangeRoutes } from '@clampclock/contracts'
import { UNATTENDED } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import { invalidField, wrongState } from '../../foundation/problems/problem-error.ts'
import { requireVersion } from '../../foundation/http/versions.ts'
import { arrange, isOfBond } from './arrange.ts'
import { bakeChanges } from './bake-program.ts'
import {
  announceOperations,
  announceOtherWork,
  lockOperationsOf,
  number,
  operationRow,
  operationsOf,
  toOperation,
  type OperationRow,
} from './operation-store.ts'

type Changes = BodyOf<typeof operationChangeRoutes.editOperation>

export async function editOperation(
  tx: Tx,
  actor: Actor,
  id: string,
  changes: Changes,
  version: number,
  now: Date,
): Promise<Operation> {
  const before = await openOperation(tx, actor, id)
  requireVersion(before.version === version ? 1 : 0, before.version)
  requireFits(before, changes)
  const { bakeProgram, ...figures } = changes
  await tx.operation.update({
    where: { id },
    data: {
      ...Object.fromEntries(Object.entries(figures).filter(([, value]) => value !== undefined)),
      ...(await bakeChanges(tx, before, changes, now)),
      ...(bakeProgram === undefined ? {} : { bakeProgram: bakeProgram ?? Prisma.DbNull }),
      ...(changes.name === undefined ? {} : { nameSaid: Prisma.DbNull }),
      version: { increment: 1 },
    },
  })
  const isOnlyNamed = Object.entries(changes).every(
    ([field, value]) => field === 'name' || value === undefined,
  )
  await (isOnlyNamed ? announceOperations : announceOtherWork)(tx, actor, before)
  return toOperation(await operationRow(tx, id))
}

function requireFits({ kind }: OperationRow, changes: Changes): void {
  if (kind === 'cure' && changes.workMinutes !== undefined)
    throw invalidField('body.workMinutes', message('plan-problem.cureAsLong'))
  const isUnattended = UNATTENDED.includes(kind as Operation['kind'])
  if (changes.technicians !== undefined && isUnattended !== (changes.technicians === 0))
    throw invalidField(
      'body.technicians',
      isUnattended ? message('plan-problem.nobodyNeeded') : message('plan-problem.somebodyNeeded'),
    )
  for (const field of ['highestMetalC', 'bakeProgram'] as const)
    if (changes[field] !== undefined && kind !== 'bake')
      throw invalidField(`body.${field}`, message('plan-problem.bakeOnly'))
}

/** Elsewhere among what is done on its joint; a bond takes its cure along. Answers all operations of the vehicle. */
export async function orderOperation(
  tx: Tx,
  actor: Actor,
  id: string,
  { afterId }: BodyOf<typeof operationChangeRoutes.orderOperation>,
  version: number,
): Promise<Operation[]> {
  const row = await openOperation(tx, actor, id)
  requireVersion(row.version === version ? 1 : 0, row.version)
  const { repairOrderId } = row
  const all = (await operationsOf(tx, repairOrderId)).map(toOperation)
  const goes = (each: Operation) => each.id === id || isWith(row, each)
  const [first, ...rest] = all.filter(goes)
  const others = all.filter((each) => !goes(each))
  const arrangement = arrange(others, [first!, ...rest], afterId)
  if (arrangement.kind === 'refused') throw invalidField('body.afterId', arrangement.message, arrangement.fix)
  await number(tx, repairOrderId, arrangement.items)
  await tx.operation.updateMany({
    where: { id: { in: [first!, ...rest].map((each) => each.id) } },
    data: { version: { increment: 1 } },
  })
  await announceOtherWork(tx, actor, row)
  return (await operationsOf(tx, repairOrderId)).map(toOperation)
}

export async function removeOperation(tx: Tx, actor: Actor, id: string): Promise<void> {
  const row = await openOperation(tx, actor, id)
  const { repairOrderId } = row
  const all = (await operationsOf(tx, repairOrderId)).map(toOperation)
  const going = all.filter((each) => each.id === id || isWith(row, each))
  await tx.operation.deleteMany({ where: { id: { in: going.map((each) => each.id) } } })
  await number(tx, repairOrderId)
  await announceOtherWork(tx, actor, row)
}

/** A bond and the cure of its joint. */
function isWith(row: Pick<OperationRow, 'kind' | 'jointId'>, { kind, jointId }: Operation): boolean {
  return isOfBond(row.kind as Operation['kind']) && isOfBond(kind) && row.jointId === jointId
}

/**
 * The operation, nobody else's to change, start or bond until this transaction is through.
 *
 * @throws {ProblemError} `wrong-state` when it has begun, or the other one of a bond and its cure has.
 */
async function openOperation(tx: Tx, actor: Actor, id: string): Promise<OperationRow> {
  const found = await operationRow(tx, id)
  requireIn(actor, 'planWork', found.shopId)
  await lockOperationsOf(tx, found.repairOrderId)
  const row = await operationRow(tx, id)
  const { hasBegun, name, jointName, startedAt, finishedAt } = toOperation(row)
  if (finishedAt) throw wrongState(message('plan-problem.finishedStays', { name: param(name) }))
  if (startedAt)
    throw wrongState(
      message('plan-problem.begunStays', { name: param(name) }),
      message('plan-problem.sayOnPlanFix'),
    )
  if (hasBegun)
    throw wrongState(message('plan-problem.bondedStays', { joint: jointName ?? '', name: param(name) }))
  return row
}
