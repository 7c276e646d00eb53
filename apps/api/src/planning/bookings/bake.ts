import type { ProblemReason } from '@clampclock/contracts'
import { judgeBake, type BakedBond, type BondEstimate, type ReadyInstant } from '@clampclock/cure'
import {
  type BakeReader,
  type BondRow,
  bondsOfRepairOrder,
  estimateOf,
  refusalReason,
} from '../../cure/index.ts'
import { figuresOf, heldBy, isStillOn } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { shopById } from '../../foundation/shops/shops.ts'

/** Rule 4 for a bake whose metal temperature somebody gave: why the vehicle must not go into the oven then; empty when it may. */
export async function bakeReasons(
  tx: Tx,
  repairOrderId: string,
  bake: { readonly startsAt: Date; readonly highestMetalC: number },
  now: Date,
): Promise<ProblemReason[]> {
  const order = await tx.repairOrder.findUniqueOrThrow({ where: { id: repairOrderId } })
  const { timeZone, temperatureUnit } = await shopById(tx, order.shopId)
  const bonds: BakedBond[] = []
  for (const bond of await bondsToBake(tx, repairOrderId)) {
    const { estimate } = await estimateOf(tx, bond, timeZone, now)
    bonds.push(bakedBond(bond, estimate))
  }
  const { refusals } = judgeBake({
    moveAtMs: bake.startsAt.getTime(),
    metal: [{ panel: null, peakC: bake.highestMetalC }],
    bonds,
    vehicleLimitC: order.ovenLimitC,
  })
  const fields = { program: 'body', heat: 'body.highestMetalC', moveAt: 'body.startsAt' }
  const reader: BakeReader = { timeZone, unit: temperatureUnit, fields }
  return refusals.map((refusal) => refusalReason(refusal, reader))
}

/** What is scraped off is not baked. */
export async function bondsToBake(tx: Tx, repairOrderId: string): Promise<BondRow[]> {
  return (await bondsOfRepairOrder(tx, repairOrderId)).filter(isStillOn)
}

/**
 * Ready as the estimate says; clamps that came off before, and were accepted, count from then.
 */
function readyOf(bond: BondRow, estimate: BondEstimate): ReadyInstant {
  const ready = estimate.handlingStrength.readyAt.conservative
  const off = bond.releasedAt?.getTime()
  return off === undefined || (ready.kind === 'at' && ready.atMs <= off) ? ready : { kind: 'at', atMs: off }
}

/** Never closed within its work time: it cures, and joins nothing. */
function isLeftOpen({ state }: BondRow, { workTime }: BondEstimate): boolean {
  return state === 'applied' && workTime.progress.earliest >= 1
}

/** A bond as the judge of rule 4 asks about it, on a panel that nothing is known of. */
export function bakedBond(bond: BondRow, estimate: BondEstimate): BakedBond {
  return {
    joint: bond.joint.name,
    product: bond.sheet.product.name,
    serviceRangeC: figuresOf(bond.sheet).serviceRangeC,
    panel: null,
    handlingReadyAt: readyOf(bond, estimate),
    heldBy: heldBy([bond]) ?? (isLeftOpen(bond, estimate) ? 'open' : null),
  }
}
