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
  const hours = [0, 3, 9, 15, 21]
  const sheets = {
    'the sheet': JOINT.sheet,
    'a sheet of one temperature': { ...JOINT.sheet, points: JOINT.sheet.points.slice(1, 2) },
  }
  const cases = Object.entries(sheets).flatMap(([name, sheet]) =>
    hours.flatMap((hour) => [4, 30, null].map((tau) => ({ name, sheet, hour, tau }))),
  )
  it.each(cases)(
    'is never shorter than the gate counts, and not much longer: $name at hour $hour, lag $tau',
    ({ name, sheet, hour, tau }) => {
      const forecast = swing()
      const appliedAtMs = MONDAY_MS + hour * HOUR
      const { handlingStrength } = estimateBond({
        sheet,
        appliedAtMs,
        readings: [],
        forecast,
        nowMs: MONDAY_MS,
        ...(tau === null ? {} : { panelTauMinutes: tau }),
      })
      const ready = handlingStrength.readyAt.conservative
      const planned = cureEnd(cureRates(sheet, forecast, MONDAY_MS, tau), hour * 60)!
      expect(ready.kind).toBe('at')
      if (ready.kind !== 'at') return
      const clock = (ready.atMs - MONDAY_MS) / 60_000
      expect(planned).toBeGreaterThanOrEqual(Math.floor(clock))
      // Of a panel nobody knows the estimate without any reading takes it to be as warm as the air; no gate does.
      const spare = name === 'the sheet' ? 60 : 100
      if (tau !== null) expect(planned).toBeLessThanOrEqual(clock + spare)
    },
  )
})

it('goes on beyond the forecast as in the coldest hour of its last day', () => {
  const rates = cureRates(JOINT.sheet, swing(24), MONDAY_MS, 4)
  const cold = cureRates(JOINT.sheet, steady(10), MONDAY_MS, 4)[0]!.ratePerMinute
  expect(rates.at(-1)).toEqual({ atMinute: 1440, ratePerMinute: cold })
  expect(rates.every(({ ratePerMinute }) => ratePerMinute < CURE_WORK)).toBe(true)
})
