import { estimateBond } from '@clampclock/cure'
import { describe, expect, it } from 'vitest'
import { cureEnd, cureRates, CURE_WORK } from './cure-profile.ts'
import { JOINT, MONDAY_MS, steady } from './testing.ts'

const HOUR = 3_600_000
const swing = (hours = 96) =>
  Array.from({ length: hours + 1 }, (_, hour) => {
    const lowC = 16 - 6 * Math.cos((2 * Math.PI * hour) / 24)
    return { atMs: MONDAY_MS + hour * HOUR, lowC, expectedC: lowC + 2, highC: lowC + 4 }
  })

it('gives the time of the sheet where the bay is as warm as the sheet says', () => {
  const end = cureEnd(cureRates(JOINT.sheet, steady(23), MONDAY_MS, 4), 0)!
  expect(end).toBeGreaterThanOrEqual(180)
  expect(end).toBeLessThanOrEqual(181)
})

it('never ends below the lowest cure temperature', () => {
  expect(cureEnd(cureRates(JOINT.sheet, steady(4), MONDAY_MS, 4), 0)).toBeNull()
  expect(cureEnd(cureRates(JOINT.sheet, [], MONDAY_MS, 4), 0)).toBeNull()
})

it('never ends earlier for a later start', () => {
  const rates = cureRates(JOINT.sheet, swing(), MONDAY_MS, 4)
  let before = 0
  for (let start = 0; start < 5000; start += 7) {
    const end = cureEnd(rates, start)!
    expect(end).toBeGreaterThanOrEqual(before)
    before = end
  }
})

describe('beside the clock at the bay', () => {
  it.each([0, 3, 9, 15, 21])(
    'is never shorter, and at most an hour longer, for a bond at hour %i',
    (hour) => {
      const forecast = swing()
      const appliedAtMs = MONDAY_MS + hour * HOUR
      const { handlingStrength } = estimateBond({
        sheet: JOINT.sheet,
        appliedAtMs,
        readings: [],
        // What is expected of this forecast is the cold side of the other. The gate's own line also counts lags of the
        // panel that nobody has measured, and may be later: docs/decisions/0152.
        forecast: forecast.map(({ atMs, lowC }) => ({ atMs, lowC, expectedC: lowC, highC: lowC })),
        nowMs: MONDAY_MS,
        panelTauMinutes: 4,
      })
      const ready = handlingStrength.readyAt.expected
      const planned = cureEnd(cureRates(JOINT.sheet, forecast, MONDAY_MS, 4), hour * 60)!
      expect(ready.kind).toBe('at')
      if (ready.kind !== 'at') return
      const clock = (ready.atMs - MONDAY_MS) / 60_000
      expect(planned).toBeGreaterThanOrEqual(Math.floor(clock))
      expect(planned).toBeLessThanOrEqual(clock + 60)
    },
  )
})

it('goes on beyond the forecast as in the coldest hour of its last day', () => {
  const rates = cureRates(JOINT.sheet, swing(24), MONDAY_MS, 4)
  const cold = cureRates(JOINT.sheet, steady(10), MONDAY_MS, 4)[0]!.ratePerMinute
  expect(rates.at(-1)).toEqual({ atMinute: 1440, ratePerMinute: cold })
  expect(rates.every(({ ratePerMinute }) => ratePerMinute < CURE_WORK)).toBe(true)
})
