import { message } from '@clampclock/messages'
import type { Bond } from '@clampclock/contracts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { requireBay } from './gates.ts'
import { finish, runningBond } from './lifecycle.ts'
import { placeVehicle } from './place-vehicle.ts'
import type { Step } from './step.ts'

/**
 * Where the vehicle stands, told after the adhesive was on of a bond that was made in no bay. The air there counts from now
 * on: a word about where it stood before makes nothing ready sooner.
 *
 * @throws {ProblemError} `wrong-state` where the bond has a bay; as `placeVehicle` where the vehicle cannot stand there.
 */
export async function placeBond(step: Step, bondId: string, bayId: string): Promise<Bond> {
  const { tx, actor, now } = step
  const bond = await runningBond(step, bondId, 'makeBonds')
  if (bond.bay)
    throw wrongState(message('cure-problem.hasBay', { joint: bond.joint.name, bay: bond.bay.name }))
  const bay = await requireBay(tx, bayId, bond.shopId)
  const { timeZone } = await shopById(tx, bond.shopId)
  await placeVehicle(step, bond.joint, bayId, timeZone)
  await tx.bond.update({ where: { id: bondId }, data: { bayId, bayFrom: now } })
  const facts = { by: actor.name, bay: bay.name, bayId }
  return finish(step, bond, [{ kind: 'placed', at: now, facts }])
}
