import type { ProblemReason } from '@clampclock/contracts'
import { bondsOfRepairOrder, type BondRow } from '../bonds/bond-store.ts'
import { estimateOf } from '../bonds/history.ts'
import { shopTime } from '../bonds/notes.ts'
import { formatTemperature } from '@clampclock/quantities'
import type { Tx } from '../database/database.ts'
import { shopById } from '../shops/shops.ts'

/**
 * Rule 4: why a vehicle must not go into the oven then; empty when it may. Each joint and each limit is named: handling strength by
 * the start (conservatively), the rated range of every product on it, and the vehicle's own limit.
 */
export async function bakeReasons(
  tx: Tx,
  repairOrderId: string,
  bake: { readonly startsAt: Date; readonly highestMetalC: number },
  now: Date,
): Promise<ProblemReason[]> {
  const order = await tx.repairOrder.findUniqueOrThrow({ where: { id: repairOrderId } })
  const { timeZone, temperatureUnit } = await shopById(tx, order.shopId)
  const degrees = (c: number) => formatTemperature(c, temperatureUnit)
  const reasons: ProblemReason[] = []
  const { highestMetalC, startsAt } = bake
  if (order.ovenLimitC !== null && highestMetalC > order.ovenLimitC) {
    reasons.push({
      code: 'vehicle-limit',
      field: 'body.highestMetalC',
      message: `The metal would reach ${degrees(highestMetalC)}; the vehicle's own limit is ${degrees(order.ovenLimitC)}`,
      fix: 'Bake cooler and longer, as the paint allows',
    })
  }
  const bonds = (await bondsOfRepairOrder(tx, repairOrderId)).filter(({ state }) => state !== 'abandoned')
  reasons.push(...bonds.flatMap(earlyReleaseReasons))
  for (const bond of bonds) {
    if (highestMetalC > bond.sheet.serviceMaxC) {
      reasons.push({
        code: 'service-range',
        field: 'body.highestMetalC',
        message: `The metal would reach ${degrees(highestMetalC)}; ${bond.sheet.product.name} on ${bond.joint.name} is rated to ${degrees(bond.sheet.serviceMaxC)}`,
        fix: 'Bake cooler',
      })
    }
    if (bond.state === 'released') continue
    const { estimate } = await estimateOf(tx, bond, timeZone, now)
    const ready = estimate.handlingStrength.readyAt.conservative
    if (ready.kind === 'at' && ready.atMs <= startsAt.getTime()) continue
    const when = ready.kind === 'at' ? `only ${shopTime(ready.atMs, timeZone)}` : 'not within the forecast'
    reasons.push({
      code: 'handling-strength',
      field: 'body.startsAt',
      message: `${bond.joint.name} reaches handling strength ${when} on the careful estimate`,
      fix: 'Bake later',
    })
  }
  return reasons
}

/** A joint that was pulled early has not been seen to reach handling strength, until somebody has looked at it and accepted it. */
export function earlyReleaseReasons(bond: BondRow): ProblemReason[] {
  const isOpen = bond.incidents.some(({ kind, disposition }) => kind === 'earlyRelease' && !disposition)
  if (!isOpen) return []
  return [
    {
      code: 'early-release',
      message: `${bond.joint.name} was released before it was ready, and nobody has disposed of that yet`,
      fix: 'Have somebody entitled inspect it',
    },
  ]
}
