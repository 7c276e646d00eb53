import type { ShopFacts } from './facts.ts'

/** The end of a vehicle's last stay: a task of no length after everything else. */
export const leaveOf = (orderId: string) => `${orderId}/leave`
/** The hold of a vehicle on a bay or oven, from the operation that begins it. */
export const stayOf = (operationId: string) => `${operationId}/stay`
/** The hold on clamp sets, from the bond that takes them. */
export const clampsOf = (operationId: string) => `${operationId}/clamps`
/** A running bond that is the cure of no operation. */
export const BESIDE = 'beside/'
export const bondTaskOf = (bondId: string) => `${BESIDE}${bondId}`

export function toMinute({ originMs }: Pick<ShopFacts, 'originMs'>, ms: number): number {
  return Math.max(0, Math.round((ms - originMs) / 60_000))
}
