import { wholeMl } from '@clampclock/quantities'

interface Need {
  readonly neededMl: number
  readonly by: string
  /** Why less went on; null where enough did. */
  readonly reason: string | null
}

/** What went on a joint, held against what it needed then where that is known. */
export function amountText(amountMl: number, need: Need | undefined): string {
  const recorded = `${Number(amountMl.toFixed(1))} mL`
  if (need === undefined) return recorded
  const ofNeed = `${recorded}; the joint needs ${wholeMl(need.neededMl)} mL`
  return need.reason === null
    ? ofNeed
    : `${ofNeed}. Less than needed, confirmed by ${need.by} because: ${need.reason}`
}
