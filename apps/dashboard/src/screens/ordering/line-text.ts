import { formatVolume } from '../../lib/measures.ts'
import type { ReplenishmentLine } from '../../api/types.ts'
import { t } from '../../lib/reader.ts'

/** What is there and coming: '3 sealed, 1 opened (540 mL), 6 on the way'. */
export function standsText({ sealed, opened, onHandMl, onOrder }: ReplenishmentLine): string {
  const there = [
    ...(sealed > 0 ? [t('ordering.sealed', { sealed })] : []),
    ...(opened > 0 ? [t('ordering.opened', { opened })] : []),
  ].join(', ')
  const onHand = there === '' ? t('ordering.none') : `${there} (${formatVolume(onHandMl)})`
  return onOrder > 0 ? t('ordering.onTheWay', { onHand, onOrder }) : onHand
}

/** How fast it goes and how long it lasts; where the shelf life, not the demand, sets the level. */
export function levelText(line: ReplenishmentLine): string {
  const { consumptionPerDayMl, lastsDays, isCutByShelfLife, bookedMl } = line
  const planned = bookedMl > 0 ? t('ordering.planned', { booked: formatVolume(bookedMl) }) : ''
  if (consumptionPerDayMl === null) return planned || t('ordering.notYet')
  const rate = t('ordering.aWeek', { amount: formatVolume(consumptionPerDayMl * 7) })
  const lasts =
    lastsDays === null
      ? ''
      : t('ordering.lasts', {
          lastsDays:
            lastsDays >= 365
              ? t('ordering.overAYear')
              : t('ordering.days', { lastsDays: Math.floor(lastsDays) }),
        })
  const cut = isCutByShelfLife ? t('ordering.noMoreKeeps') : ''
  return [rate, lasts, planned, cut].filter((part) => part !== '').join(', ')
}
