import { keptName } from '../../foundation/words/kept.ts'
import { message } from '@clampclock/messages'
import type { BodyOf, Operation, operationRoutes, ResultOf } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound, wrongState } from '../../foundation/problems/problem-error.ts'
import { isPlanOutdated } from './changed-orders.ts'
import { bakeOfVehicle, bakesAsNow } from './bake-program.ts'
import { isOfVehicle, stepsToAdd } from './expand.ts'
import { announceOtherWork, lockOperationsOf, number, operationsOf, toOperation } from './operation-store.ts'
import { listRepairTemplates } from './templates.ts'

export async function listOperations(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  now: Date,
): Promise<ResultOf<typeof operationRoutes.listOperations>> {
  const order = await tx.repairOrder.findUnique({ where: { id: repairOrderId } })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'readShop', order.shopId)
  const items = (await operationsOf(tx, repairOrderId)).map(toOperation)
  return { items: await bakesAsNow(tx, items, now), isPlanOutdated: await isPlanOutdated(tx, order) }
}

/** A repair order that takes more operations, from now on nobody else's to change until this transaction is through. */
export async function orderToAddTo(tx: Tx, actor: Actor, repairOrderId: string) {
  await lockOperationsOf(tx, repairOrderId)
  const order = await tx.repairOrder.findUnique({ where: { id: repairOrderId } })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'planWork', order.shopId)
  if (order.state !== 'open') throw wrongState(message('problem.orderDone', { number: order.number }))
  return order
}

export async function requireJointOf(tx: Tx, repairOrderId: string, jointId: string | null): Promise<void> {
  if (jointId !== null && !(await tx.joint.findFirst({ where: { id: jointId, repairOrderId } })))
    throw invalidField('body.jointId', message('plan-problem.noJointOfOrder'))
}

export async function addOperations(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  { template: key, jointId }: BodyOf<typeof operationRoutes.addOperations>,
  now: Date,
): Promise<Operation[]> {
  const order = await orderToAddTo(tx, actor, repairOrderId)
  const template = (await listRepairTemplates(tx, order.shopId)).find((each) => each.key === key)
  if (!template) throw invalidField('body.template', message('plan-problem.noTemplate'))
  if (template.isSetAside) throw invalidField('body.template', message('plan-problem.templateSetAside'))
  await requireJointOf(tx, repairOrderId, jointId)

  const present = await operationsOf(tx, repairOrderId)
  if (jointId !== null && present.some((operation) => operation.jointId === jointId))
    throw wrongState(message('plan-problem.jointHasOperations'), message('plan-problem.changeThoseFix'))
  const steps = stepsToAdd(template.steps, present as Pick<Operation, 'kind'>[], jointId !== null)
  if (steps.length === 0)
    throw wrongState(message('plan-problem.templateAddsNothing'), message('plan-problem.chooseJointFix'))
  const organizationId = actor.organization.id
  const { shopId } = order
  const last = present.at(-1)?.position ?? 0
  for (const [i, { kind, bakeProgram, name, ...step }] of steps.entries()) {
    const asked = bakeProgram && { name, bakeProgram, field: 'body.template' }
    await tx.operation.create({
      data: {
        ...step,
        ...keptName(name),
        ...(asked && { bakeProgram, ...(await bakeOfVehicle(tx, { shopId, repairOrderId }, asked, now)) }),
        kind,
        organizationId,
        shopId,
        repairOrderId,
        // What is done on the vehicle belongs to none of its joints.
        jointId: isOfVehicle(kind) ? null : jointId,
        position: last + 1 + i,
      },
    })
  }
  await number(tx, repairOrderId)
  await announceOtherWork(tx, actor, { shopId, repairOrderId })
  return (await operationsOf(tx, repairOrderId)).map(toOperation)
}
