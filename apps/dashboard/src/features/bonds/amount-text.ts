import { wholeMl } from '@clampclock/quantities'
import { t } from '../../lib/reader.ts'

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
  const ofNeed = t('features.theJointNeedsMl', { recorded, neededMl: wholeMl(need.neededMl) })
  return need.reason === null
    ? ofNeed
    : t('features.lessThanNeededConfirmedByBecause', { ofNeed, by: need.by, reason: need.reason })
}
