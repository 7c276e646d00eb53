import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fallbackBandC, forecastBayTemperature } from './forecast.ts'
import { hourlyGrid, localClock, weekdayAndHour, type PastTemperature } from './forecast-grid.ts'
import { between } from '../testing.ts'

const HOUR_MS = 3_600_000
/** A Monday at noon in Chicago. */
const NOW_MS = Date.parse('2026-03-02T18:00:00Z')
const ZONE = 'America/Chicago'

/** Hourly readings up to now, warmest at 16:00 local, as far back as asked for. */
function pattern(
  days: number,
  at: (localHour: number, weekday: number, i: number) => number,
): PastTemperature[] {
  const clock = localClock(ZONE)
  return Array.from({ length: days * 24 + 1 }, (_, i) => {
    const atMs = NOW_MS - (days * 24 - i) * HOUR_MS
    const [weekday, hour] = weekdayAndHour(clock(atMs))
    return { atMs, temperatureC: at(hour, weekday, i) }
  })
}
const wave = (hour: number): number => 18 + 4 * Math.cos(((hour - 16) / 24) * 2 * Math.PI)

describe('forecastBayTemperature', () => {
  it('starts with the latest reading and has a point for every hour', () => {
    const forecast = forecastBayTemperature(pattern(20, wave), NOW_MS, 24, ZONE)
    expect(forecast).toHaveLength(25)
    expect(forecast[0]!.expectedC).toBeCloseTo(wave(12), 9)
    expect(forecast.map((point) => point.atMs)).toEqual(forecast.map((_, hour) => NOW_MS + hour * HOUR_MS))
  })

  it('knows a day that repeats itself, with hardly any band', () => {
    const forecast = forecastBayTemperature(pattern(20, wave), NOW_MS, 36, ZONE)
    forecast.forEach((point, hour) => {
      expect(point.expectedC).toBeCloseTo(wave(12 + hour), 6)
      expect(point.highC - point.lowC).toBeLessThan(0.01)
    })
  })

  it('learns the week: a shop that is heated from Monday to Friday', () => {
    const shop = (hour: number, weekday: number): number => (weekday <= 5 && hour >= 7 && hour < 18 ? 20 : 12)
    const past = pattern(42, shop)
    const forecast = forecastBayTemperature(past, NOW_MS, 24 * 6, ZONE)
    const at = (days: number): number => forecast[days * 24]!.expectedC
    expect(at(1)).toBeGreaterThan(18)
    expect(at(4)).toBeGreaterThan(17)
    expect(at(5)).toBeLessThan(14)
  })

  it('lets an odd day fade: close to the latest reading soon, close to the pattern later', () => {
    // Weather that forgets nine parts in ten within half a day.
    let [off, seed] = [0, 1]
    const past = pattern(30, (hour) => {
      seed = (seed * 16_807) % 2_147_483_647
      off = 0.83 * off + seed / 2_147_483_647 - 0.5
      return wave(hour) + off
    })
    const odd = past.map((reading, i) =>
      i > past.length - 4 ? { ...reading, temperatureC: reading.temperatureC + 6 } : reading,
    )
    const [plain, moved] = [past, odd].map((readings) => forecastBayTemperature(readings, NOW_MS, 24, ZONE))
    const shift = (hour: number): number => moved![hour]!.expectedC - plain![hour]!.expectedC
    expect(shift(0)).toBeCloseTo(6, 6)
    expect(shift(2)).toBeGreaterThan(2)
    expect(Math.abs(shift(20))).toBeLessThan(1)
  })

  it('follows the shop’s own clock through daylight saving', () => {
    // 2026-03-08 in Chicago: clocks go from 02:00 to 03:00.
    const nowMs = Date.parse('2026-03-09T18:00:00Z')
    const past = pattern(20, wave)
    const shifted = past.map((reading) => ({ ...reading, atMs: reading.atMs + 7 * 24 * HOUR_MS }))
    const clock = localClock(ZONE)
    const really = shifted.map(({ atMs }) => ({ atMs, temperatureC: wave(weekdayAndHour(clock(atMs))[1]) }))
    const forecast = forecastBayTemperature(really, nowMs, 24, ZONE)
    for (const point of forecast) {
      expect(point.expectedC).toBeCloseTo(wave(weekdayAndHour(clock(point.atMs))[1]), 0)
    }
  })

  it('says nothing of nothing', () => {
    expect(forecastBayTemperature([], NOW_MS, 24, ZONE)).toEqual([])
    expect(
      forecastBayTemperature(
        pattern(1, wave).map((r) => ({ ...r, atMs: r.atMs + 9e9 })),
        NOW_MS,
        24,
        ZONE,
      ),
    ).toEqual([])
  })

  it('holds the latest reading with a wide band while it has seen too little', () => {
    const forecast = forecastBayTemperature(pattern(1, wave), NOW_MS, 9, ZONE)
    const half = fallbackBandC(9)
    expect(forecast[9]!.expectedC).toBeCloseTo(wave(12), 9)
    expect(forecast[9]!.lowC).toBeCloseTo(wave(12) - half, 9)
    expect(half).toBeCloseTo(5.5, 12)
  })

  it('counts the lead from the last reading, not from now', () => {
    const late = forecastBayTemperature(pattern(1, wave), NOW_MS + 5.5 * HOUR_MS, 1, ZONE)
    expect(late[0]!.highC - late[0]!.expectedC).toBeCloseTo((fallbackBandC(5) + fallbackBandC(6)) / 2, 9)
  })

  it('has its band around it, whatever it was given', () => {
    const past = fc.array(
      fc.record({
        hours: between(0.05, 9),
        temperatureC: between(-20, 45),
      }),
      { minLength: 1, maxLength: 300 },
    )
    fc.assert(
      fc.property(past, between(0, 30), (steps, age) => {
        let atMs = NOW_MS - steps.reduce((sum, step) => sum + step.hours, age) * HOUR_MS
        const readings = steps.map(({ hours, temperatureC }) => ({
          atMs: (atMs += hours * HOUR_MS),
          temperatureC,
        }))
        for (const point of forecastBayTemperature(readings, NOW_MS, 30, ZONE)) {
          expect(point.lowC).toBeLessThanOrEqual(point.expectedC)
          expect(point.expectedC).toBeLessThanOrEqual(point.highC)
        }
      }),
      { numRuns: 25 },
    )
  })

  it('refuses by name what it cannot use', () => {
    const past = pattern(2, wave)
    expect(() => forecastBayTemperature(past, NaN, 24, ZONE)).toThrow(/nowMs is NaN/)
    expect(() => forecastBayTemperature(past, NOW_MS, 400, ZONE)).toThrow(/horizonHours is 400/)
    expect(() => forecastBayTemperature(past, NOW_MS, 24, 'Nowhere/At-all')).toThrow(/timeZone is 'Nowhere/)
    expect(() => forecastBayTemperature(past.toReversed(), NOW_MS, 24, ZONE)).toThrow(
      /pastReadings\[1\]\.atMs/,
    )
    expect(() => forecastBayTemperature(past, NOW_MS, 24, ZONE, { historyDays: 0 })).toThrow(
      /historyDays is 0/,
    )
    const broken = past.with(3, { ...past[3]!, temperatureC: 900 })
    expect(() => forecastBayTemperature(broken, NOW_MS, 24, ZONE)).toThrow(
      /pastReadings\[3\]\.temperatureC is 900/,
    )
  })
})

describe('hourlyGrid', () => {
  it('joins readings that are close and leaves gaps as they are', () => {
    const minutes = (m: number, temperatureC: number): PastTemperature => ({
      atMs: NOW_MS + m * 60_000,
      temperatureC,
    })
    const past = [minutes(-600, 10), minutes(-330, 20), minutes(-210, 22), minutes(-90, 24), minutes(0, 30)]
    const { temperaturesC } = hourlyGrid(past, (atMs) => atMs, 11)
    // 10 h ago 10; then a gap of 4.5 h, longer than is joined; from 5 h ago on every hour.
    expect(Array.from(temperaturesC.subarray(0, 5))).toEqual([10, NaN, NaN, NaN, NaN])
    expect(Array.from(temperaturesC.subarray(5), (c) => Math.round(c * 10) / 10)).toEqual([
      20.5, 21.5, 22.5, 23.5, 26, 30,
    ])
  })

  it('knows the day of the week', () => {
    expect(weekdayAndHour(Date.parse('2026-11-25T13:30:00Z'))).toEqual([3, 13.5])
    expect(weekdayAndHour(Date.parse('1969-12-28T00:00:00Z'))).toEqual([7, 0])
  })
})
