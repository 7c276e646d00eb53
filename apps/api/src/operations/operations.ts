import type { BodyOf, Operation, operationRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../access/actor.ts'
import { STILL_ON } from '../bonds/bond-store.ts'
import type { Tx } from '../database/database.ts'
import { Prisma } from '../generated/prisma/client.ts'
import { invalidField, notFound, wrongState } from '../http/problem-error.ts'
import { requireVersion } from '../http/versions.ts'
import { announce } from '../live/hub.ts'
import { storedProgram } from '../schedule/oven-window.ts'
import { bakeChanges, bakeOfVehicle } from './bake-program.ts'
import { inOrder, isOfVehicle, stepsToAdd } from './expand.ts'
import { listRepairTemplates } from './templates.ts'

const withJoint = { joint: { select: { name: true } } } satisfies Prisma.OperationInclude
type OperationRow = Prisma.OperationGetPayload<{ include: typeof withJoint }>

export async function operationsOf(tx: Tx, repairOrderId: string): Promise<OperationRow[]> {
  return tx.operation.findMany({
    where: { repairOrderId },
    include: withJoint,
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  })
}

export async function listOperations(tx: Tx, actor: Actor, repairOrderId: string): Promise<Operation[]> {
  const order = await tx.repairOrder.findUnique({ where: { id: repairOrderId } })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'readShop', order.shopId)
  return (await operationsOf(tx, repairOrderId)).map(toOperation)
}

export async function addOperations(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  { template: key, jointId }: BodyOf<typeof operationRoutes.addOperations>,
  now: Date,
): Promise<Operation[]> {
  await lockOperationsOf(tx, repairOrderId)
  const order = await tx.repairOrder.findUnique({ where: { id: repairOrderId } })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'planWork', order.shopId)
  if (order.state !== 'open') throw wrongState(`The repair order ${order.number} is done`)
  const template = (await listRepairTemplates(tx, order.shopId)).find((each) => each.key === key)
  if (!template) throw invalidField('body.template', 'names no template of this shop')
  if (template.isSetAside) throw invalidField('body.template', 'names a template that is set aside')
  if (jointId !== null && !(await tx.joint.findFirst({ where: { id: jointId, repairOrderId } })))
    throw invalidField('body.jointId', 'names no joint of this repair order')

  const present = await operationsOf(tx, repairOrderId)
  if (jointId !== null && present.some((operation) => operation.jointId === jointId))
    throw wrongState('The joint has operations already', 'Change those, or remove them first')
  const steps = stepsToAdd(template.steps, present as Pick<Operation, 'kind'>[], jointId !== null)
  if (steps.length === 0)
    throw wrongState('The template has nothing to add', 'Choose the joint that it is for')
  const organizationId = actor.organization.id
  const { shopId } = order
  const last = present.at(-1)?.position ?? 0
  for (const [i, { kind, bakeProgram, ...step }] of steps.entries()) {
    const asked = bakeProgram && { name: step.name, bakeProgram, field: 'body.template' }
    await tx.operation.create({
      data: {
        ...step,
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
  await announce(tx, { organizationId, shopId, topic: 'repairs', subjectId: repairOrderId })
  return (await operationsOf(tx, repairOrderId)).map(toOperation)
}

export async function editOperation(
  tx: Tx,
  actor: Actor,
  id: string,
  changes: BodyOf<typeof operationRoutes.editOperation>,
  version: number,
  now: Date,
): Promise<Operation> {
  const before = await operationRow(tx, id)
  requireIn(actor, 'planWork', before.shopId)
  requireFits(before, changes)
  const { bakeProgram, ...figures } = changes
  const { count } = await tx.operation.updateMany({
    where: { id, version },
    data: {
      ...Object.fromEntries(Object.entries(figures).filter(([, value]) => value !== undefined)),
      ...(await bakeChanges(tx, before, changes, now)),
      ...(bakeProgram === undefined ? {} : { bakeProgram: bakeProgram ?? Prisma.DbNull }),
      version: { increment: 1 },
    },
  })
  const row = await operationRow(tx, id)
  requireVersion(count, row.version)
  await announceChange(tx, actor, row)
  return toOperation(row)
}

function requireFits(
  { kind, name, finishedAt }: OperationRow,
  changes: BodyOf<typeof operationRoutes.editOperation>,
): void {
  if (finishedAt) throw wrongState(`${name} is finished`)
  if (kind === 'cure' && changes.workMinutes !== undefined)
    throw invalidField('body.workMinutes', 'a cure takes as long as the data sheet and the forecast say')
  const isUnattended = kind === 'cure' || kind === 'bake' || kind === 'cool'
  if (changes.technicians !== undefined && isUnattended !== (changes.technicians === 0))
    throw invalidField(
      'body.technicians',
      isUnattended ? 'nobody is needed for it: 0' : 'somebody does it: at least 1',
    )
  for (const field of ['highestMetalC', 'bakeProgram'] as const)
    if (changes[field] !== undefined && kind !== 'bake')
      throw invalidField(`body.${field}`, 'is only for a bake')
}

/** Whoever changes the steps of a vehicle, or starts a bond on it, comes after the one before: each step of the vehicle comes once. */
async function lockOperationsOf(tx: Tx, repairOrderId: string): Promise<void> {
  await tx.$queryRaw`select 1 from repair_order where id = ${repairOrderId}::uuid for no key update`
}

export async function removeOperation(tx: Tx, actor: Actor, id: string): Promise<void> {
  const found = await operationRow(tx, id)
  requireIn(actor, 'planWork', found.shopId)
  await lockOperationsOf(tx, found.repairOrderId)
  const row = await operationRow(tx, id)
  const pair = ['bondAndClamp', 'cure']
  const going = pair.includes(row.kind)
    ? { repairOrderId: row.repairOrderId, jointId: row.jointId, kind: { in: pair } }
    : { id }
  if (await tx.operation.findFirst({ where: { ...going, startedAt: { not: null } } }))
    throw wrongState(`${row.name} was started: it stays on record`)
  // These two begin with the bond itself.
  const { jointId, joint } = row
  const isBonded =
    pair.includes(row.kind) &&
    jointId !== null &&
    (await tx.bond.findFirst({ where: { jointId, ...STILL_ON } }))
  if (isBonded) throw wrongState(`${joint?.name} is bonded: ${row.name} stays on record`)
  await tx.operation.deleteMany({ where: going })
  await number(tx, row.repairOrderId)
  await announceChange(tx, actor, row)
}

export async function operationRow(tx: Tx, id: string): Promise<OperationRow> {
  const row = await tx.operation.findUnique({ where: { id }, include: withJoint })
  if (!row) throw notFound('operation', id)
  return row
}

async function announceChange(tx: Tx, actor: Actor, { shopId, repairOrderId }: OperationRow): Promise<void> {
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId,
    topic: 'repairs',
    subjectId: repairOrderId,
  })
}

/** Numbers the operations of a vehicle in the order in which they are done. */
async function number(tx: Tx, repairOrderId: string): Promise<void> {
  const rows = (await operationsOf(tx, repairOrderId)).map(toOperation)
  for (const [i, { id, position }] of inOrder(rows).entries())
    if (position !== i + 1) await tx.operation.update({ where: { id }, data: { position: i + 1 } })
}

export function toOperation({ joint, ...row }: OperationRow): Operation {
  return {
    ...row,
    jointName: joint?.name ?? null,
    kind: row.kind as Operation['kind'],
    place: row.place as Operation['place'],
    skill: row.skill as Operation['skill'],
    attributes: row.attributes as Operation['attributes'],
    bakeProgram: storedProgram(row.bakeProgram),
  }
}
