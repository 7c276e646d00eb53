import { message } from '@clampclock/messages'
import type { BodyOf, Joint, repairRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { dayIn } from '../../foundation/http/dates.ts'
import { procedureColumns } from '../../work/index.ts'
import { orderRow, toDetail } from './repair-orders.ts'

export async function addJoint(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  { procedure, ...figures }: BodyOf<typeof repairRoutes.addJoint>,
  now: Date,
): Promise<Joint> {
  const order = await orderRow(tx, repairOrderId, now)
  requireIn(actor, 'planWork', order.shopId)
  if (order.state !== 'open') throw wrongState(message('problem.orderDone', { number: order.number }))
  if (!(await tx.product.findUnique({ where: { id: figures.productId } })))
    throw invalidField('body.productId', message('problem.noProductOfChain'))
  requirePast(procedure, 'body.procedure', now)
  const organizationId = actor.organization.id
  const { id } = await tx.joint.create({
    data: {
      ...figures,
      ...procedureColumns(procedure),
      organizationId,
      shopId: order.shopId,
      repairOrderId,
      createdAt: now,
    },
  })
  await announce(tx, { organizationId, shopId: order.shopId, topic: 'repairs', subjectId: repairOrderId })
  return jointOf(tx, repairOrderId, id, now)
}

export async function setProcedure(
  tx: Tx,
  actor: Actor,
  jointId: string,
  procedure: BodyOf<typeof repairRoutes.setProcedure>,
  now: Date,
): Promise<Joint> {
  const joint = await tx.joint.findUnique({ where: { id: jointId } })
  if (!joint) throw notFound('joint', jointId)
  requireIn(actor, 'makeBonds', joint.shopId)
  requirePast(procedure, 'body', now)
  await tx.joint.update({ where: { id: jointId }, data: procedureColumns(procedure) })
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: joint.shopId,
    topic: 'repairs',
    subjectId: joint.repairOrderId,
  })
  return jointOf(tx, joint.repairOrderId, jointId, now)
}

/** The zone whose day comes first: whoever looked it up may have been in another than the shop. */
const FIRST_ZONE = 'Pacific/Kiritimati'

/** What was looked up on a day to come was not looked up. */
function requirePast(procedure: { readonly lookedUpOn: string } | null, field: string, now: Date): void {
  if (procedure !== null && procedure.lookedUpOn > dayIn(now, FIRST_ZONE))
    throw invalidField(`${field}.lookedUpOn`, message('problem.inFuture'))
}

async function jointOf(tx: Tx, repairOrderId: string, jointId: string, now: Date): Promise<Joint> {
  const { joints } = await toDetail(tx, await orderRow(tx, repairOrderId, now), now)
  const joint = joints.find(({ id }) => id === jointId)
  if (!joint) throw notFound('joint', jointId)
  return joint
}
