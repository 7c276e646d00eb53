import { expect, it } from 'vitest'
import { barsOf } from './expiry-bars.ts'

it('begins with the month that it is in the shop, and marks what the server calls soon', () => {
  const of = (month: string, cartridges: number, expired: number, soon: number) => ({
    month,
    cartridges,
    volumeMl: cartridges * 200,
    expired,
    soon,
  })
  const bars = barsOf({
    thisMonth: '2031-05',
    soonDays: 30,
    items: [of('2031-04', 2, 2, 0), of('2031-05', 3, 1, 2), of('2031-06', 4, 0, 0), of('2032-06', 5, 0, 0)],
  })
  expect(bars.map(({ label, cartridges, tone }) => [label, cartridges, tone]).slice(0, 3)).toEqual([
    ['Expired', 3, 'dead'],
    ["May '31", 2, 'soon'],
    // The month after this one is not soon by being next.
    ['Jun', 4, 'good'],
  ])
  expect(bars[1]!.spoken).toBe('die in May 2031, 2 of them within 30 days')
  expect(bars.at(-1)).toMatchObject({ label: 'Later', cartridges: 5, tone: 'good' })
  expect(bars).toHaveLength(15)
})
