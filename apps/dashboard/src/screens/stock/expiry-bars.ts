import type { ROUTES } from '@clampclock/contracts'
import type { ResultOf } from '../../api/types.ts'
import { monthName, shortMonth } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'

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
  const [year = 0, month = 0] = thisMonth.split('-').map(Number)
  const months = Array.from({ length: MONTHS }, (_, i) => monthAfter(year, month, i))
  const last = months.at(-1)!.key
  return [
    { label: t('stock.expired'), cartridges: expired, tone: 'dead', spoken: 'expired' },
    ...months.map(({ key, year, month }, i): Bar => {
      const found = items.find((item) => item.month === key)
      const soon = found?.soon ?? 0
      return {
        label: `${shortMonth(month)}${i === 0 || month === 1 ? ` '${String(year).slice(2)}` : ''}`,
        cartridges: found === undefined ? 0 : found.cartridges - found.expired,
        tone: soon > 0 ? 'soon' : 'good',
        spoken:
          soon > 0
            ? t('stock.dieInSoon', { month: monthName(month), year, soon, soonDays })
            : t('stock.dieIn', { month: monthName(month), year }),
      }
    }),
    {
      label: t('stock.later'),
      cartridges: sum(items.filter(({ month }) => month > last)),
      tone: 'good',
      spoken: t('stock.dieLater'),
    },
  ]
}

function monthAfter(year: number, month: number, by: number) {
  const first = new Date(Date.UTC(year, month - 1 + by))
  return {
    key: first.toISOString().slice(0, 7),
    year: first.getUTCFullYear(),
    month: first.getUTCMonth() + 1,
  }
}
