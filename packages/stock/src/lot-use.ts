import { usabilityFaults, type CartridgeState } from './usability.ts'

/** What decides whether a cartridge of a lot may be used, as the gate asks it. */
export interface LotCartridge<Reason = string> {
  readonly state: CartridgeState
  readonly effectiveExpiryMs: number
  readonly quarantineReason: Reason | null
}

/**
 * Whether any of a lot may be used:
 * - `onHold`: the lot is held, so none of it;
 * - `usable`: the gate lets at least one cartridge through now;
 * - `away`: none on hand, but one that is on its way or missing would be let through once it is there;
 * - `quarantined`: all that is left and in date waits for somebody's decision;
 * - `expired`: all that is left has expired; `noneLeft`: nothing is left.
 */
export type LotUse = 'onHold' | 'usable' | 'away' | 'quarantined' | 'expired' | 'noneLeft'

/** The worst that can come of it is what counts: one usable cartridge makes the whole lot `usable`. */
export function lotUse<Reason = string>(
  cartridges: readonly LotCartridge<Reason>[],
  holdReason: Reason | null,
  atMs: number,
): LotUse {
  if (holdReason !== null) return 'onHold'
  const each = cartridges.map((cartridge) => useOfOne(cartridge, atMs))
  const mostUsable = (['usable', 'away', 'quarantined', 'expired'] as const).find((use) => each.includes(use))
  return mostUsable ?? 'noneLeft'
}

function useOfOne<Reason>(cartridge: LotCartridge<Reason>, atMs: number): Exclude<LotUse, 'onHold'> {
  const faults = usabilityFaults<Reason | ''>({
    ...cartridge,
    atMs,
    expiryReason: '',
    holdReason: null,
    // Of the lot, not of one job: which gun and how much are asked when somebody takes it.
    fitsDispenser: true,
    remainingMl: 0,
    neededMl: 0,
  }).map(({ kind }) => kind)
  if (faults.includes('usedUp')) return 'noneLeft'
  // What nothing brings back comes before what a decision or an arrival does.
  if (faults.includes('expired')) return 'expired'
  if (faults.includes('quarantined')) return 'quarantined'
  return faults.includes('away') ? 'away' : 'usable'
}
