import { describe, expect, it } from 'vitest'
import { habitsOf } from './air-habits.ts'

const MINUTE = 60_000
const past = (temperatures: readonly number[], stepMinutes = 15) =>
  temperatures.map((temperatureC, i) => ({ atMs: i * stepMinutes * MINUTE, temperatureC, accuracyC: 1 }))
const days = (count: number) => Array.from({ length: count * 96 + 1 }, (_, i) => 20 + (i % 2) * 0.1)

describe('what a thermometer does of itself', () => {
  it('is the longest that it showed the same digits, and the furthest it rose at once', () => {
    const log = days(4)
    log.splice(100, 5, 21, 21, 21, 21, 23.5)
    expect(habitsOf(past(log))).toEqual({ longestRunMinutes: 45, largestRiseC: 2.5 })
  })

  it('leaves out the run that still goes on: that is what is asked about', () => {
    const log = days(4)
    log.splice(-20, 20, ...Array.from({ length: 20 }, () => 21))
    expect(habitsOf(past(log))!.longestRunMinutes).toBe(0)
  })

  it('is not known of three days, nor from readings far apart', () => {
    expect(habitsOf([])).toBeUndefined()
    expect(habitsOf(past(days(2)))).toBeUndefined()
    expect(habitsOf(past([10, 20, 30, 40], 1441))!.largestRiseC).toBe(0)
  })
})
