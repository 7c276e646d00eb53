import { describe, expect, it } from 'vitest'
import { plotRows, pointsAt, tableTemperatures } from './curve-points.ts'

const sheet = {
  points: [
    { temperatureC: 15, workTimeMinutes: 60, handlingTimeMinutes: 480, fullCureMinutes: 2880 },
    { temperatureC: 25, workTimeMinutes: 30, handlingTimeMinutes: 240, fullCureMinutes: 1440 },
  ],
  applicationRangeC: { min: 12, max: 35 },
  lowestCureC: 10,
  highestCureC: 80,
  serviceRangeC: { min: -40, max: 120 },
}

describe('pointsAt', () => {
  it('goes through the published points', () => {
    const [cold, warm] = pointsAt(sheet, [15, 25])
    expect(cold?.handlingTime).toBeCloseTo(480, 6)
    expect(warm?.workTime).toBeCloseTo(30, 6)
    expect(cold?.isBeyond).toBe(false)
  })
  it('marks what is continued beyond them, and gives none below the lowest cure temperature', () => {
    const [still, beyond] = pointsAt(sheet, [5, 40])
    expect(still?.handlingTime).toBeNull()
    expect(beyond).toMatchObject({ isBeyond: true, basis: 'extrapolated' })
  })
})

describe('plotRows', () => {
  it('draws each part once, and both at the published ends so that the line has no gap', () => {
    const rows = plotRows(sheet)
    for (const row of rows) {
      const isEnd = row.temperatureC === 15 || row.temperatureC === 25
      const isBoth = row.handlingTime !== undefined && row.handlingTimeBeyond !== undefined
      expect(row.handlingTimePoint !== undefined).toBe(isEnd)
      expect(isBoth).toBe(isEnd)
    }
  })
})

it('lists round temperatures with the published ones among them', () => {
  expect(tableTemperatures({ ...sheet, points: [{ ...sheet.points[0]!, temperatureC: 23 }] })).toEqual([
    10, 15, 20, 23, 25, 30, 35,
  ])
})
