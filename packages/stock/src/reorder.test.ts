import { describe, expect, it } from 'vitest'
import { economicOrderQuantity, fillRate, newsvendor, reorderLevels } from './reorder.ts'

/** 10 mL a day with a deviation of 3, eight days of lead with one of 2, looked at each six days, 97.5 %. */
const input = {
  demandPerPeriod: 10,
  demandDeviation: 3,
  leadPeriods: 8,
  leadDeviation: 2,
  reviewPeriods: 6,
  serviceLevel: 0.9750021048517795,
  usableBeforeExpiry: null,
}
/** Of that service level, by the distribution function of the normal (mpmath 1.3). */
const Z = 1.96
const OVER_LEAD = Math.sqrt(8 * 3 ** 2 + 10 ** 2 * 2 ** 2)
const OVER_REVIEW = Math.sqrt(14 * 3 ** 2 + 10 ** 2 * 2 ** 2)

describe('reorder levels', () => {
  it('are demand over the time that is bridged and so many deviations of it', () => {
    const levels = reorderLevels(input)
    expect(levels.safetyStock).toBeCloseTo(Z * OVER_LEAD, 8)
    expect(levels.reorderPoint).toBeCloseTo(80 + Z * OVER_LEAD, 8)
    expect(levels.orderUpTo).toBeCloseTo(140 + Z * OVER_REVIEW, 8)
    expect(levels.cutByShelfLife).toBe(false)
  })

  it('are cut by what can be used before it expires, and say so', () => {
    const { orderUpTo } = reorderLevels(input)
    expect(reorderLevels({ ...input, usableBeforeExpiry: 90 })).toMatchObject({
      reorderPoint: 90,
      orderUpTo: 90,
      cutByShelfLife: true,
    })
    expect(reorderLevels({ ...input, usableBeforeExpiry: orderUpTo })).toMatchObject({
      orderUpTo,
      cutByShelfLife: false,
    })
    expect(reorderLevels({ ...input, usableBeforeExpiry: orderUpTo + 1 })).toMatchObject({
      orderUpTo,
      cutByShelfLife: false,
    })
  })

  it('keep no safety stock below a service level of a half, and no less than the mean', () => {
    expect(reorderLevels({ ...input, serviceLevel: 0.1 })).toMatchObject({
      safetyStock: 0,
      reorderPoint: 80,
      orderUpTo: 140,
    })
  })

  it.each(['demandPerPeriod', 'demandDeviation', 'leadPeriods', 'leadDeviation', 'reviewPeriods'] as const)(
    'refuse a %s below zero, by its name, and take zero',
    (field) => {
      for (const value of [-0.1, Number.NaN])
        expect(() => reorderLevels({ ...input, [field]: value })).toThrow(
          new RangeError(`${field} is ${value}: give 0 or more`),
        )
      expect(() => reorderLevels({ ...input, [field]: 0 })).not.toThrow()
    },
  )
})

describe('the fill rate', () => {
  it('is all of it where demand is sure', () => {
    expect(fillRate(0, 0, 50)).toEqual({ shortPerCycle: 0, fill: 1 })
  })

  it('is what the unit normal loss leaves of an order', () => {
    // Loss at one deviation 0.0833154705876863 (mpmath 1.3).
    const { shortPerCycle, fill } = fillRate(20, 20, 100)
    expect(shortPerCycle).toBeCloseTo(20 * 0.0833154705876863, 10)
    expect(fill).toBeCloseTo(1 - 0.01 * 20 * 0.0833154705876863, 12)
  })
})

describe('refusals by name', () => {
  it.each([
    ['orderCost', [0, 10, 1]],
    ['demandPerPeriod', [8, 0, 1]],
    ['holdingCost', [8, 10, -1]],
  ] as const)('an economic order quantity without %s', (field, [cost, demand, holding]) => {
    expect(() => economicOrderQuantity(cost, demand, holding)).toThrow(
      new RegExp(`^${field} is .*: give a figure above 0$`),
    )
  })

  it.each([
    ['overCost', [0, 10, 1]],
    ['underCost', [8, 0, 1]],
    ['deviation', [8, 10, 0]],
  ] as const)('a newsvendor without %s', (field, [over, under, deviation]) => {
    expect(() => newsvendor(over, under, 100, deviation)).toThrow(
      new RegExp(`^${field} is .*: give a figure above 0$`),
    )
  })
})
