import type { Bond } from '../types.ts'
import type { ActAbout } from './act.ts'

export function aboutBond(bond: ActAbout & Pick<Bond, 'id'>): ActAbout {
  const { shopId, repairOrderId, repairOrderNumber, vehicle, jointId, jointName } = bond
  return { shopId, repairOrderId, repairOrderNumber, vehicle, jointId, jointName }
}
