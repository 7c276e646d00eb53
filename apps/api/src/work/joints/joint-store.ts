import { beadAmount, USUAL_WASTE_SHARE } from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import type { Joint, Prisma, Product } from '../../generated/prisma/client.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { ATTEMPT_ROW } from './standing.ts'
import { toMl } from '../../foundation/database/volumes.ts'

const WHOLE_JOINT = {
  product: true,
  repairOrder: true,
  bonds: {
    select: { attempt: true, ...ATTEMPT_ROW },
    orderBy: { attempt: 'asc' },
  },
} satisfies Prisma.JointInclude

export type JointRow = Awaited<ReturnType<typeof jointRow>>

export async function jointRow(tx: Tx, id: string) {
  const row = await tx.joint.findUnique({ where: { id }, include: WHOLE_JOINT })
  if (!row) throw notFound('joint', id)
  return row
}

export async function lockedJoint(tx: Tx, id: string): Promise<JointRow> {
  // The vehicle first: nobody moves it while adhesive goes on, and nobody starts while it is being moved.
  await tx.$queryRaw`
    select 1 from repair_order where id = (select repair_order_id from joint where id = ${id}::uuid) for share`
  await tx.$queryRaw`select 1 from joint where id = ${id}::uuid for no key update`
  return jointRow(tx, id)
}

/** What a joint takes, mL: bead, skim coat on the flange, nozzle and waste (packages/cure). */
export function amountNeededMl(joint: Joint & { product: Product }): number {
  return beadAmount({
    shape: 'round',
    diameterMm: joint.beadDiameterMm,
    lengthMm: joint.lengthMm,
    skimWidthMm: joint.flangeWidthMm,
    skimFilmMm: joint.product.glassBeadMm,
    nozzleHoldUpMl: toMl(joint.product.nozzleHoldUpUl),
    wasteShare: USUAL_WASTE_SHARE,
    cartridgeMl: toMl(joint.product.cartridgeUl),
    flangeWidthMm: joint.flangeWidthMm,
    glassBeadMm: joint.product.glassBeadMm,
  }).totalMl
}
