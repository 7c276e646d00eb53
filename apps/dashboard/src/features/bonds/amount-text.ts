import { formatRecordedVolume, formatVolume } from '../../lib/measures.ts'
import { t } from '../../lib/reader.ts'

interface Need {
  readonly neededMl: number
  readonly by: string
  /** Why less went on; null where enough did. */
  readonly reason: string | null
}

/** What went on a joint, held against what it needed then where that is known. */
export function amountText(amountMl: number, need: Need | undefined): string {
  const recorded = formatRecordedVolume(amountMl)
  if (need === undefined) return recorded
  const ofNeed = t('features.theJointNeeds', { recorded, needed: formatVolume(need.neededMl, 'up') })
  return need.reason === null
    ? ofNeed
    : t('features.lessThanNeededConfirmedByBecause', { ofNeed, by: need.by, reason: need.reason })
}
