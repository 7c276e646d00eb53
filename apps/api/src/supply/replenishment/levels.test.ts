import { describe, expect, it } from 'vitest'
import { inEnglish } from '../../foundation/words/words.ts'
import { suggestion as suggestionOf } from './levels.ts'

const levels = { reorderPointMl: 500, orderUpToMl: 1400, isCutByShelfLife: false, consumptionPerDayMl: 20 }
const stands = { onHandMl: 450, onOrder: 0, cartridgeMl: 200, bookedMl: 0 }

const suggestion = (...asked: Parameters<typeof suggestionOf>) => {
  const { reason, ...rest } = suggestionOf(...asked)
  return { ...rest, reason: inEnglish(reason) }
}

describe('suggestion', () => {
  it('orders up to the level in whole boxes once the reorder point is reached', () => {
    expect(suggestion(stands, levels, { boxOf: 1 }).suggestedCartridges).toBe(5)
    expect(suggestion(stands, levels, { boxOf: 6 }).suggestedCartridges).toBe(6)
    expect(suggestion({ ...stands, onHandMl: 501 }, levels, { boxOf: 1 }).suggestedCartridges).toBe(0)
  })

  it('counts what is under way', () => {
    expect(suggestion({ ...stands, onOrder: 3 }, levels, { boxOf: 1 }).suggestedCartridges).toBe(0)
  })

  it('orders for planned joints that what is there and coming does not cover, whatever the levels say', () => {
    const booked = { ...stands, onHandMl: 600, bookedMl: 1100 }
    expect(suggestion(booked, levels, { boxOf: 1 })).toMatchObject({
      suggestedCartridges: 3,
      reason: expect.stringContaining('Planned joints take 1100 mL'),
    })
    expect(suggestion(booked, null, null).suggestedCartridges).toBe(3)
  })

  it('says what it does not know', () => {
    expect(suggestion(stands, null, null).reason).toContain('where it is ordered')
    expect(suggestion(stands, null, { boxOf: 1 }).reason).toContain('never used here')
  })
})
