import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BondEstimate, ReadyInstant } from './estimate-figures.ts'
import { estimateBond, type BondHistory } from './estimate.ts'
import type { DataSheet } from '../sheet/data-sheet.ts'
import { anyHistory, anySheet, between, MINUTE_MS, SHEET, START_MS } from '../testing.ts'

const LINES = ['earliest', 'expected', 'conservative'] as const
const when = (ready: ReadyInstant): number => (ready.kind === 'at' ? ready.atMs : Infinity)

/** A sheet with every time multiplied. */
const times = (sheet: DataSheet, factor: number): DataSheet => ({
  ...sheet,
  points: sheet.points.map((point) => ({
    temperatureC: point.temperatureC,
    workTimeMinutes: point.workTimeMinutes * factor,
    handlingTimeMinutes: point.handlingTimeMinutes * factor,
    fullCureMinutes: point.fullCureMinutes * factor,
  })),
})

/** At 23 degC since the start, for ever. */
const STEADY: BondHistory = {
  sheet: SHEET,
  appliedAtMs: START_MS,
  readings: [{ atMs: START_MS, temperatureC: 23, accuracyC: 0.5, source: 'metalProbe' }],
  forecast: [0, 100].map((hours) => ({
    atMs: START_MS + hours * 60 * MINUTE_MS,
    lowC: 23,
    expectedC: 23,
    highC: 23,
  })),
  nowMs: START_MS,
}

describe('a bond by several revisions of its data sheet', () => {
  const expectedMinutes = (estimate: BondEstimate, milestone: 'workTime' | 'handlingStrength') =>
    (when(estimate[milestone].readyAt.expected) - START_MS) / MINUTE_MS

  it('goes to handling strength by the slower one, and keeps the shorter work time', () => {
    const slower = estimateBond({ ...STEADY, alsoSheets: [times(SHEET, 1.5)] })
    expect(expectedMinutes(slower, 'handlingStrength')).toBeCloseTo(360, 0)
    expect(expectedMinutes(slower, 'workTime')).toBeCloseTo(45, 0)
    const faster = estimateBond({ ...STEADY, alsoSheets: [times(SHEET, 0.5)] })
    expect(expectedMinutes(faster, 'handlingStrength')).toBeCloseTo(240, 0)
    expect(expectedMinutes(faster, 'workTime')).toBeCloseTo(22.5, 0)
  })

  const expectTheSlowest = (numRuns: number) => {
    fc.assert(
      fc.property(anyHistory, anySheet, anySheet, (history, second, third) => {
        const sheets = [history.sheet, second, third]
        const whole = estimateBond({ ...history, alsoSheets: [second, third] })
        const each = sheets.map((sheet) => estimateBond({ ...history, sheet }))
        for (const line of LINES) {
          for (const milestone of ['handlingStrength', 'fullCure'] as const) {
            const all = each.map((one) => one[milestone])
            expect(whole[milestone].progress[line]).toBe(Math.min(...all.map((one) => one.progress[line])))
            expect(when(whole[milestone].readyAt[line])).toBe(
              Math.max(...all.map((one) => when(one.readyAt[line]))),
            )
          }
          const ends = each.map(({ workTime }) => when(workTime.readyAt[line]))
          expect(when(whole.workTime.readyAt[line])).toBe(Math.min(...ends))
        }
        const turned = estimateBond({ ...history, sheet: third, alsoSheets: [second, history.sheet] })
        expect(turned.handlingStrength.progress).toEqual(whole.handlingStrength.progress)
        expect(turned.workTime.progress).toEqual(whole.workTime.progress)
      }),
      { numRuns },
    )
  }

  it('is never sooner than by any of them, never later than by the slowest, in whatever order they come', () =>
    expectTheSlowest(20))
  it('is so for 200 histories', { tags: ['long'], timeout: 120_000 }, () => expectTheSlowest(200))

  it('is not changed by one that is the same, nor handling by one that is faster everywhere', () => {
    fc.assert(
      fc.property(anyHistory, between(0.2, 1), (history, factor) => {
        const alone = estimateBond(history)
        expect(estimateBond({ ...history, alsoSheets: [history.sheet] })).toEqual(alone)
        const { handlingStrength } = estimateBond({ ...history, alsoSheets: [times(history.sheet, factor)] })
        expect(handlingStrength.progress.conservative).toBe(alone.handlingStrength.progress.conservative)
      }),
      { numRuns: 100 },
    )
  })
})
