import { expect, it } from 'vitest'
import { sumOf, withShares, type Counts } from './counts.ts'

const counts = (more: Partial<Counts>): Counts => ({ ...sumOf([]), ...more })

it('takes the shares of all shops from their sums, not from their shares', () => {
  const small = counts({ promised: 1, onTime: 0, bayHours: 10, bayHoursBooked: 10 })
  const large = counts({ promised: 9, onTime: 9, bayHours: 90, bayHoursBooked: 45 })
  expect(withShares(null, 'All', sumOf([small, large]))).toMatchObject({
    promised: 10,
    onTime: 9,
    onTimeShare: 0.9,
    bayUse: 0.55,
  })
})

it('has no share of nothing', () => {
  expect(withShares(null, 'All', sumOf([]))).toMatchObject({
    onTimeShare: null,
    bayUse: null,
    movedShare: null,
  })
})
