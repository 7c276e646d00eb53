import { message } from '@clampclock/messages'
import { qualificationsFor, holdsAt } from '../../foundation/access/qualifications.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import type { BondRow } from '../estimates/bond-store.ts'
import { asksOfDisposal } from '../../work/index.ts'

interface Inspector {
  readonly id: string
  readonly name: string
}

/** People who work in the shop and may inspect a joint of the class, by name. */
export async function inspectorsFor(
  tx: Tx,
  shopId: string,
  safetyClass: string,
  at: Date,
  timeZone: string,
): Promise<Inspector[]> {
  const people = await tx.person.findMany({
    where: { disabledAt: null, memberships: { some: { OR: [{ shopId }, { shopId: null }] } } },
    select: { id: true, name: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  })
  if (!asksOfDisposal(safetyClass).qualified) return people
  const able: Inspector[] = []
  for (const person of people) {
    const held = await qualificationsFor(tx, person.id, safetyClass)
    if (held.some((row) => holdsAt(row, at, timeZone))) able.push(person)
  }
  return able
}

/** Who made the joint, by name: nobody approves of his own work where it can hurt somebody. */
export function makersOf({
  appliedBy,
  clampedBy,
  releasedBy,
}: Pick<BondRow, 'appliedBy' | 'clampedBy' | 'releasedBy'>): string[] {
  return [appliedBy, clampedBy, releasedBy].flatMap((name) => name ?? [])
}

/** @throws {ProblemError} `invalid-request` for somebody who may not inspect a joint of its class. */
export async function requireInspector(
  tx: Tx,
  inspectorId: string,
  bond: BondRow,
  at: Date,
  timeZone: string,
): Promise<Inspector> {
  const { shopId, joint } = bond
  const able = await inspectorsFor(tx, shopId, joint.safetyClass, at, timeZone)
  const inspector = able.find(({ id }) => id === inspectorId)
  const { secondPerson } = asksOfDisposal(joint.safetyClass)
  if (inspector && secondPerson && makersOf(bond).includes(inspector.name))
    throw invalidField(
      'body.inspectorId',
      message('cure-problem.madeJoint', { person: inspector.name }),
      message('problem.somebodyElseFix'),
    )
  if (inspector) return inspector
  const who = await tx.person.findUnique({ where: { id: inspectorId }, select: { name: true } })
  throw invalidField(
    'body.inspectorId',
    who
      ? message('cure-problem.notQualifiedHere', { person: who.name, class: joint.safetyClass })
      : message('problem.nobodyOfChain'),
    message('cure-problem.nameQualifiedFix'),
  )
}
