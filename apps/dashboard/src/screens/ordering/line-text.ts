import type { ReplenishmentLine } from '../../api/types.ts'

/** What is there and coming: '3 sealed, 1 opened (540 mL), 6 on the way'. */
export function standsText({ sealed, opened, onHandMl, onOrder }: ReplenishmentLine): string {
  const there = [
    ...(sealed > 0 ? [`${sealed} sealed`] : []),
    ...(opened > 0 ? [`${opened} opened`] : []),
  ].join(', ')
  const onHand = there === '' ? 'none' : `${there} (${Math.round(onHandMl)} mL)`
  return onOrder > 0 ? `${onHand}, ${onOrder} on the way` : onHand
}

/** How fast it goes and how long it lasts; where the shelf life, not the demand, sets the level. */
export function levelText(line: ReplenishmentLine): string {
  const { consumptionPerDayMl, lastsDays, isCutByShelfLife, bookedMl } = line
  const planned = bookedMl > 0 ? `${Math.round(bookedMl)} mL planned` : ''
  if (consumptionPerDayMl === null) return planned || 'not yet'
  const rate = `${(consumptionPerDayMl * 7).toFixed(0)} mL a week`
  const lasts =
    lastsDays === null ? '' : `lasts ${lastsDays >= 365 ? 'over a year' : `${Math.floor(lastsDays)} days`}`
  const cut = isCutByShelfLife ? 'no more keeps' : ''
  return [rate, lasts, planned, cut].filter((part) => part !== '').join(', ')
}
