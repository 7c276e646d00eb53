import type { ROUTES } from '@clampclock/contracts'
import { DateTime } from 'luxon'
import type { ResultOf } from '../../api/types.ts'

type Expiries = ResultOf<typeof ROUTES.listExpiries>
type Month = Expiries['items'][number]

interface Bar {
  readonly label: string
  readonly cartridges: number
  readonly tone: 'dead' | 'soon' | 'good'
  readonly spoken: string
}

const MONTHS = 13

/** What is dead already, a year ahead from the month that it is in the shop, and all that is later in one bar. */
export function barsOf({ items, thisMonth, soonDays }: Expiries): Bar[] {
  const sum = (months: readonly Month[]) => months.reduce((total, { cartridges }) => total + cartridges, 0)
  const expired = items.reduce((total, each) => total + each.expired, 0)
  const first = DateTime.fromFormat(thisMonth, 'yyyy-MM').setLocale('en')
  const months = Array.from({ length: MONTHS }, (_, i) => first.plus({ months: i }))
  const last = months.at(-1)!.toFormat('yyyy-MM')
  return [
    { label: 'Dead', cartridges: expired, tone: 'dead', spoken: 'expired' },
    ...months.map((month, i): Bar => {
      const key = month.toFormat('yyyy-MM')
      const found = items.find((item) => item.month === key)
      const soon = found?.soon ?? 0
      return {
        label: month.toFormat(i === 0 || month.month === 1 ? "LLL ''yy" : 'LLL'),
        cartridges: found === undefined ? 0 : found.cartridges - found.expired,
        tone: soon > 0 ? 'soon' : 'good',
        spoken: `die in ${month.toFormat('LLLL yyyy')}${soon > 0 ? `, ${soon} of them within ${soonDays} days` : ''}`,
      }
    }),
    {
      label: 'Later',
      cartridges: sum(items.filter(({ month }) => month > last)),
      tone: 'good',
      spoken: 'die later',
    },
  ]
}
