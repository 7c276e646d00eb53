export type CartridgeState = 'sealed' | 'opened' | 'empty' | 'discarded' | 'inTransit' | 'missing'

/** `Reason`: what the caller has to say of an expiry, a hold or a quarantine, in whatever form. */
export interface UsabilityQuestion<Reason = string> {
  readonly state: CartridgeState
  readonly remainingMl: number
  readonly neededMl: number
  readonly effectiveExpiryMs: number
  readonly expiryReason: Reason
  readonly holdReason: Reason | null
  /** Why the cartridge itself is quarantined, until somebody entitled decides. */
  readonly quarantineReason: Reason | null
  readonly fitsDispenser: boolean
  /** When it will be used. */
  readonly atMs: number
}

export type UsabilityFault<Reason = string> =
  | { readonly kind: 'usedUp'; readonly state: 'empty' | 'discarded' }
  /** On its way to another shop, or nobody knows where. */
  | { readonly kind: 'away'; readonly state: 'inTransit' | 'missing' }
  | { readonly kind: 'expired'; readonly reason: Reason; readonly atMs: number }
  | { readonly kind: 'onHold'; readonly reason: Reason }
  | { readonly kind: 'quarantined'; readonly reason: Reason }
  | { readonly kind: 'noDispenserFits' }
  | { readonly kind: 'tooLittle'; readonly remainingMl: number; readonly neededMl: number }

/** Nothing overrides these: an expired or held cartridge is never used (rule 1). */
export const NEVER_OVERRIDABLE: ReadonlySet<UsabilityFault['kind']> = new Set([
  'usedUp',
  'away',
  'expired',
  'onHold',
  'quarantined',
])

/** Why a cartridge may not be used then; empty when it may. All reasons at once, the gravest first. */
export function usabilityFaults<Reason>(
  question: UsabilityQuestion<Reason>,
): readonly UsabilityFault<Reason>[] {
  const { state, remainingMl, neededMl, holdReason } = question
  const faults: UsabilityFault<Reason>[] = []
  if (state === 'empty' || state === 'discarded') faults.push({ kind: 'usedUp', state })
  if (state === 'inTransit' || state === 'missing') faults.push({ kind: 'away', state })
  if (question.effectiveExpiryMs <= question.atMs)
    faults.push({ kind: 'expired', reason: question.expiryReason, atMs: question.effectiveExpiryMs })
  if (holdReason !== null) faults.push({ kind: 'onHold', reason: holdReason })
  if (question.quarantineReason !== null)
    faults.push({ kind: 'quarantined', reason: question.quarantineReason })
  if (!question.fitsDispenser) faults.push({ kind: 'noDispenserFits' })
  if (remainingMl < neededMl && faults[0]?.kind !== 'usedUp' && faults[0]?.kind !== 'away')
    faults.push({ kind: 'tooLittle', remainingMl, neededMl })
  return faults
}
