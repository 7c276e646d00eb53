import { message } from '@clampclock/messages'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { lockedJoint } from '../../work/index.ts'

/** What a photo or note is of: the vehicle where joint and bond are null. */
export interface Subject {
  readonly organizationId: string
  readonly shopId: string
  readonly repairOrderId: string
  readonly jointId: string | null
  readonly bondId: string | null
}

/**
 * Finds what is meant, and locks its joint (or the repair order), so that a bond that starts at the same moment either tells
 * of the attachment or is told of it.
 *
 * @throws {ProblemError} `not-found` for a repair order of no shop that the actor sees; `invalid-request` for a joint or bond
 *   that is not of this repair order.
 */
export async function lockedSubject(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  { jointId, bondId }: { readonly jointId: string | null; readonly bondId: string | null },
): Promise<Subject> {
  const order = await tx.repairOrder.findUnique({
    where: { id: repairOrderId },
    select: { shopId: true, organizationId: true },
  })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'documentWork', order.shopId)
  const scope = { ...order, repairOrderId }
  if (bondId !== null) {
    const bond = await tx.bond.findFirst({
      where: { id: bondId, joint: { repairOrderId }, ...(jointId === null ? {} : { jointId }) },
      select: { jointId: true },
    })
    if (!bond) throw invalidField('body.bondId', message('attachment.noBondOfIt'))
    await lockedJoint(tx, bond.jointId)
    return { ...scope, jointId: bond.jointId, bondId }
  }
  if (jointId !== null) {
    const joint = await tx.joint.findFirst({ where: { id: jointId, repairOrderId }, select: { id: true } })
    if (!joint) throw invalidField('body.jointId', message('attachment.noJointOfIt'))
    await lockedJoint(tx, jointId)
    return { ...scope, jointId, bondId: null }
  }
  await tx.$queryRaw`select 1 from repair_order where id = ${repairOrderId}::uuid for no key update`
  return { ...scope, jointId: null, bondId: null }
}
