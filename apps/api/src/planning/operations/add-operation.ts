import { keptName } from '../../foundation/words/kept.ts'
import { param } from '../../foundation/words/params.ts'
import { message, type Told } from '@clampclock/messages'
import type { BodyOf, Operation, operationChangeRoutes } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { arrange } from './arrange.ts'
import { bakeOfVehicle } from './bake-program.ts'
import { announceOtherWork, number, operationsOf, toOperation } from './operation-store.ts'
import { orderToAddTo, requireJointOf } from './operations.ts'

type Body = BodyOf<typeof operationChangeRoutes.addOperation>

/** One operation more than the templates of the vehicle have; a bond comes with its cure. */
export async function addOperation(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  { afterId, ...step }: Body,
  now: Date,
): Promise<Operation[]> {
  const { shopId } = await orderToAddTo(tx, actor, repairOrderId)
  await requireJointOf(tx, repairOrderId, step.jointId)
  const present = (await operationsOf(tx, repairOrderId)).map(toOperation)
  requireRoomFor(present, step)
  const added: string[] = []
  for (const { bakeProgram, name, ...each } of [step, ...cureOf(step)] as Added[]) {
    const asked = bakeProgram && { name, bakeProgram, field: 'body.bakeProgram' }
    const bake = asked && (await bakeOfVehicle(tx, { shopId, repairOrderId }, asked, now))
    const { id } = await tx.operation.create({
      data: {
        ...each,
        ...keptName(name),
        ...(asked && { bakeProgram, ...bake }),
        organizationId: actor.organization.id,
        shopId,
        repairOrderId,
        position: present.length + added.length + 1,
      },
    })
    added.push(id)
  }
  const all = (await operationsOf(tx, repairOrderId)).map(toOperation)
  const [first, ...rest] = all.filter(({ id }) => added.includes(id))
  const others = all.filter(({ id }) => !added.includes(id))
  const arrangement = arrange(others, [first!, ...rest], afterId)
  if (arrangement.kind === 'refused') throw invalidField('body.afterId', arrangement.message, arrangement.fix)
  await number(tx, repairOrderId, arrangement.items)
  await announceOtherWork(tx, actor, { shopId, repairOrderId })
  return (await operationsOf(tx, repairOrderId)).map(toOperation)
}

type Added = Omit<Body, 'afterId' | 'name'> & { readonly name: Told }

/** A joint is bonded once, and the oven's booking has the heat of one bake. */
function requireRoomFor(
  present: readonly Operation[],
  { kind, jointId }: Body | Omit<Body, 'afterId'>,
): void {
  const same = present.find((each) => each.kind === kind && each.jointId === jointId)
  if (same && kind === 'bondAndClamp')
    throw invalidField(
      'body.kind',
      message('plan-problem.hasBond', { joint: same.jointName ?? '' }),
      message('plan-problem.changeFix', { name: param(same.name) }),
    )
  if (same && kind === 'bake')
    throw invalidField(
      'body.kind',
      message('plan-problem.hasBake'),
      message('plan-problem.changeFix', { name: param(same.name) }),
    )
}

function cureOf({ kind, place, attributes, jointId }: Omit<Body, 'afterId'>): Added[] {
  if (kind !== 'bondAndClamp') return []
  return [
    {
      kind: 'cure',
      name: message('template.cure'),
      place,
      attributes,
      jointId,
      workMinutes: null,
      technicians: 0,
      skill: null,
      clampSets: 0,
      highestMetalC: null,
      bakeProgram: null,
    },
  ]
}
