import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bondCurve } from './bond-curve.ts'
import type { BondEstimate, ReadyInstant } from './estimate-figures.ts'
import { estimateBond, estimateFrom, type BondHistory } from './estimate.ts'
import type { DataSheet, Milestone } from '../sheet/data-sheet.ts'
import { addReading, addReadings, startProgress, type ProgressState } from './progress.ts'
import { rateAt, rateCurve } from '../sheet/rate-curve.ts'
import type { Reading } from '../readings/reading.ts'
import {
  between,
  anyHistory,
  anyLog,
  anySheet,
  anyTrueHistory,
  MINUTE_MS,
  SHEET,
  START_MS,
} from '../testing.ts'

const MILESTONES = ['workTime', 'handlingStrength', 'fullCure'] as const
const LINES = ['earliest', 'expected', 'conservative'] as const
const when = (ready: ReadyInstant): number => (ready.kind === 'at' ? ready.atMs : Infinity)

/** Instants are whole milliseconds rounded up: rounding may tip one of them. */
const TIPPED_MS = 2

/**
 * What rounding may make of progress: in milliseconds, an instant of our days is a number whose last place is 2^-12, and a
 * few of them are subtracted; no milestone goes faster than the hasty curve at its end. With a sheet of minutes that is
 * more than 1e-10.
 */
const ROUNDED_MS = 4 * 2 ** -12
function byRounding(sheet: DataSheet, milestone: Milestone): number {
  return (ROUNDED_MS / MINUTE_MS) * rateAt(rateCurve(sheet, milestone, 'hasty'), sheet.highestCureC)
}

/** Every line on which `a` is later, or less far, than `b`; empty when it never is. */
function later(
  sheet: DataSheet,
  a: BondEstimate,
  b: BondEstimate,
  lines: readonly (typeof LINES)[number][] = LINES,
): string[] {
  return MILESTONES.flatMap((milestone) => {
    const rounded = byRounding(sheet, milestone)
    return lines.flatMap((line) => {
      const [at, bt] = [when(a[milestone].readyAt[line]), when(b[milestone].readyAt[line])]
      const [more, less] = [a[milestone].progress[line], b[milestone].progress[line]]
      if (at <= bt + TIPPED_MS && more >= less - 1e-10 * (1 + less) - rounded) return []
      return [`${milestone} ${line}: ${at} and ${bt}, ${more} and ${less}`]
    })
  })
}

/** Every line on which the two differ by more than 1e-9 and what rounding does. */
function differences(sheet: DataSheet, a: BondEstimate, b: BondEstimate): string[] {
  return MILESTONES.flatMap((milestone) => {
    const rounded = byRounding(sheet, milestone)
    return LINES.flatMap((line) => {
      const [x, y] = [a[milestone].progress[line], b[milestone].progress[line]]
      const [at, bt] = [when(a[milestone].readyAt[line]), when(b[milestone].readyAt[line])]
      if (
        Math.abs(x - y) <= 1e-9 * (1 + Math.abs(y)) + rounded &&
        (at === bt || Math.abs(at - bt) <= TIPPED_MS)
      )
        return []
      return [`${milestone} ${line}: ${x} and ${y}, ${at} and ${bt}`]
    })
  })
}

function warmedBy(history: BondHistory, byC: number): BondHistory {
  return {
    ...history,
    readings: history.readings.map((reading) => ({ ...reading, temperatureC: reading.temperatureC + byC })),
    forecast: history.forecast.map((point) => ({
      atMs: point.atMs,
      lowC: point.lowC + byC,
      expectedC: point.expectedC + byC,
      highC: point.highC + byC,
    })),
  }
}

const share = between(0, 1)

function ofMetal(history: BondHistory): BondHistory {
  return { ...history, readings: history.readings.map((reading) => ({ ...reading, source: 'metalProbe' })) }
}

describe('estimateBond, for any history', () => {
  it('is never later when warmer', () => {
    fc.assert(
      fc.property(anyHistory, between(0, 30), (history, byC) => {
        expect(later(history.sheet, estimateBond(warmedBy(history, byC)), estimateBond(history))).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  it('is never later when a single reading was warmer', () => {
    fc.assert(
      // Of the metal alone. Beside bay air a warmer reading may rule out a slow lag, and what warms fast cools fast.
      fc.property(anyHistory.map(ofMetal), fc.nat(), between(0, 30), (history, pick, byC) => {
        const i = pick % history.readings.length
        const readings = history.readings.with(i, {
          ...history.readings[i]!,
          temperatureC: history.readings[i]!.temperatureC + byC,
        })
        expect(later(history.sheet, estimateBond({ ...history, readings }), estimateBond(history))).toEqual(
          [],
        )
      }),
      { numRuns: 300 },
    )
  })

  it('has conservative after expected after earliest', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        const estimate = estimateBond(history)
        for (const milestone of MILESTONES) {
          const { readyAt, progress } = estimate[milestone]
          expect(when(readyAt.conservative)).toBeGreaterThanOrEqual(when(readyAt.expected) - TIPPED_MS)
          expect(when(readyAt.expected)).toBeGreaterThanOrEqual(when(readyAt.earliest) - TIPPED_MS)
          expect(progress.conservative).toBeLessThanOrEqual(progress.expected * (1 + 1e-10) + 1e-15)
          expect(progress.expected).toBeLessThanOrEqual(progress.earliest * (1 + 1e-10) + 1e-15)
        }
      }),
      { numRuns: 300 },
    )
  })

  it('never has a wider band or a later conservative time with a more accurate sensor', () => {
    fc.assert(
      fc.property(fc.oneof(anyHistory.map(ofMetal), anyTrueHistory), share, (history, factor) => {
        const better = {
          ...history,
          readings: history.readings.map((reading) => ({
            ...reading,
            accuracyC: reading.accuracyC * factor,
          })),
        }
        const [fine, coarse] = [estimateBond(better), estimateBond(history)]
        expect(later(history.sheet, fine, coarse, ['conservative'])).toEqual([])
        expect(later(history.sheet, coarse, fine, ['earliest'])).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  it('never ends earlier when started later', () => {
    fc.assert(
      fc.property(anyHistory, fc.integer({ min: 0, max: 600 }), (history, minutes) => {
        const delayed = { ...history, appliedAtMs: history.appliedAtMs + minutes * MINUTE_MS }
        expect(later(history.sheet, estimateBond(history), estimateBond(delayed))).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  it('is not changed by readings that lie on the line', () => {
    fc.assert(
      fc.property(anyHistory, share, between(0, 3), (history, at, accuracyC) => {
        const source = history.readings[0]!.source
        const spaced = history.readings.map((reading, i) => {
          return { ...reading, atMs: history.readings[0]!.atMs + i * 25 * MINUTE_MS, accuracyC, source }
        })
        const split: Reading[] = spaced.flatMap((reading, i) => {
          const next = spaced[i + 1]
          if (next === undefined) return [reading]
          const mix = (a: number, b: number): number => a + (b - a) * (0.02 + 0.96 * at)
          const atMs = mix(reading.atMs, next.atMs)
          return [reading, { ...reading, atMs, temperatureC: mix(reading.temperatureC, next.temperatureC) }]
        })
        const nowMs = Math.max(spaced.at(-1)!.atMs, START_MS)
        expect(
          differences(
            history.sheet,
            estimateBond({ ...history, readings: split, nowMs, forecast: [] }),
            estimateBond({ ...history, readings: spaced, nowMs, forecast: [] }),
          ),
        ).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  it('is the same, bit for bit, reading by reading, all at once, and from a state that was stored', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        let state = startProgress(history.sheet, history.appliedAtMs, history.panelTauMinutes)
        for (const reading of history.readings) {
          state = JSON.parse(JSON.stringify(addReading(state, reading))) as ProgressState
        }
        expect(estimateFrom(state, history)).toEqual(estimateBond(history))
      }),
    )
  })

  it('is the same, bit for bit, for a logger that is read one by one and all at once', () => {
    fc.assert(
      fc.property(anySheet, anyLog, (sheet, log) => {
        const state = startProgress(sheet, START_MS)
        expect(log.reduce(addReading, state)).toEqual(addReadings(state, log))
      }),
    )
  })

  it('leaves the state it was given as it was', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        const state = addReading(startProgress(history.sheet, history.appliedAtMs), history.readings[0]!)
        const before = JSON.stringify(state)
        estimateFrom(state, { nowMs: history.nowMs, forecast: history.forecast })
        for (const reading of history.readings.slice(1)) addReading(state, reading)
        expect(JSON.stringify(state)).toBe(before)
      }),
    )
  })

  it('never takes progress back as time goes by without news', () => {
    fc.assert(
      fc.property(anyHistory, fc.integer({ min: 1, max: 600 }), (history, minutes) => {
        const now = estimateBond({ ...history, forecast: [] })
        const later = estimateBond({ ...history, forecast: [], nowMs: history.nowMs + minutes * MINUTE_MS })
        for (const milestone of MILESTONES) {
          for (const line of LINES) {
            const [a, b] = [now[milestone].progress[line], later[milestone].progress[line]]
            expect(b).toBeGreaterThanOrEqual(a * (1 - 1e-10))
          }
        }
      }),
    )
  })
})

describe('bondCurve, for any history', () => {
  it('has at now what the estimate says, and never falls', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        const estimate = estimateBond(history)
        const points = bondCurve(history, { stepMinutes: 17 })
        const atNow = points.findLast((point) => point.atMs === history.nowMs)!
        for (const line of LINES) {
          const wanted = estimate.handlingStrength.progress[line]
          expect(Math.abs(atNow.progress[line] - wanted)).toBeLessThanOrEqual(1e-9 * (1 + wanted))
          for (let i = 1; i < points.length; i++) {
            const before = points[i - 1]!.progress[line]
            // Where two lines are the same to the last place, the one may be rounded above the other, and is cut to it.
            expect(points[i]!.progress[line]).toBeGreaterThanOrEqual(before - 1e-12 * (1 + before))
            expect(points[i]!.atMs).toBeGreaterThanOrEqual(points[i - 1]!.atMs)
          }
        }
      }),
    )
  })
})

describe('suspect readings', () => {
  const doubted = fc.tuple(anyHistory, fc.array(fc.nat({ max: 11 }), { minLength: 1, maxLength: 5 }))

  it('never help: on no line is the bond further or sooner ready than without them, on the earliest never later', () => {
    fc.assert(
      fc.property(doubted, ([history, picks]) => {
        const readings = history.readings.map((reading, i): Reading =>
          picks.includes(i) ? { ...reading, suspect: true } : reading,
        )
        const without = estimateBond({ ...history, readings: readings.filter(({ suspect }) => !suspect) })
        const withThem = estimateBond({ ...history, readings })
        expect(later(history.sheet, without, withThem, ['conservative'])).toEqual([])
        expect(later(history.sheet, withThem, without, ['earliest'])).toEqual([])
        for (const milestone of MILESTONES) {
          expect(withThem[milestone].progress.expected).toBe(without[milestone].progress.expected)
          expect(withThem[milestone].readyAt.expected).toEqual(without[milestone].readyAt.expected)
        }
      }),
      { numRuns: 300 },
    )
  })

  it('of the air never help inside a silence of hours, wherever in it they come and whatever they say', () => {
    const gap = fc.record({
      beforeC: between(5, 30),
      afterC: between(5, 30),
      silentMinutes: between(61, 1440),
      metalC: between(5, 30),
      tau: fc.option(between(5, 120), { nil: undefined }),
      doubtful: fc.array(fc.tuple(between(0.01, 0.99), between(-20, 45)), { minLength: 1, maxLength: 6 }),
      isOver: fc.boolean(),
    })
    fc.assert(
      fc.property(gap, ({ beforeC, afterC, silentMinutes, metalC, tau, doubtful, isOver }) => {
        const of = (minutes: number, temperatureC: number, changes: Partial<Reading> = {}): Reading => ({
          atMs: START_MS + Math.round(minutes * MINUTE_MS),
          temperatureC,
          accuracyC: 1,
          source: 'bayAir',
          ...changes,
        })
        const shares = new Map(doubtful)
        const good = [
          of(-10, beforeC),
          of(0, metalC, { source: 'metalProbe' }),
          of(5, beforeC),
          ...(isOver ? [of(5 + silentMinutes, afterC)] : []),
        ]
        const suspect = [...shares].map(([share, c]) => of(5 + share * silentMinutes, c, { suspect: true }))
        const distinct = [
          ...new Map([...suspect, ...good].map((reading) => [reading.atMs, reading])).values(),
        ]
        const history = {
          sheet: SHEET,
          appliedAtMs: START_MS,
          forecast: [],
          nowMs: START_MS + Math.ceil(5 + silentMinutes) * MINUTE_MS,
          ...(tau === undefined ? {} : { panelTauMinutes: tau }),
        }
        const without = estimateBond({ ...history, readings: good })
        const readings = distinct.toSorted((a, b) => a.atMs - b.atMs)
        const withThem = estimateBond({ ...history, readings })
        expect(later(history.sheet, without, withThem, ['conservative'])).toEqual([])
        expect(later(history.sheet, withThem, without, ['earliest'])).toEqual([])
        for (const milestone of MILESTONES)
          expect(withThem[milestone].progress.conservative).toBeLessThanOrEqual(
            without[milestone].progress.conservative,
          )
      }),
      { numRuns: 300 },
    )
  })

  it('do delay: a cold one in doubt between two good ones is believed on the conservative line', () => {
    const at = (minutes: number, temperatureC: number): Reading => ({
      atMs: START_MS + minutes * MINUTE_MS,
      temperatureC,
      accuracyC: 0,
      source: 'metalProbe',
    })
    const of = (readings: Reading[]): BondEstimate =>
      estimateBond({
        sheet: SHEET,
        appliedAtMs: START_MS,
        readings,
        forecast: [],
        nowMs: START_MS + 40 * MINUTE_MS,
      })
    const cold = of([at(0, 23), { ...at(20, 8), suspect: true }, at(40, 23)])
    const warm = of([at(0, 23), { ...at(20, 50), suspect: true }, at(40, 23)])
    const none = of([at(0, 23), at(40, 23)])
    expect(cold.handlingStrength.progress.conservative).toBeLessThan(
      none.handlingStrength.progress.conservative * 0.95,
    )
    expect(warm.handlingStrength.progress.conservative).toBeLessThanOrEqual(
      none.handlingStrength.progress.conservative,
    )
    expect(warm.workTime.progress.earliest).toBeGreaterThan(none.workTime.progress.earliest * 1.1)
    expect(cold.notes).toContainEqual({ kind: 'suspectReadings', count: 1 })
  })

  it('takes a band that came with the reading instead of its accuracy', () => {
    const of = (reading: Partial<Reading>): BondEstimate =>
      estimateBond({
        sheet: SHEET,
        appliedAtMs: START_MS,
        readings: [{ atMs: START_MS, temperatureC: 20, accuracyC: 2, source: 'metalProbe', ...reading }],
        forecast: [],
        nowMs: START_MS + 20 * MINUTE_MS,
      })
    expect(of({ accuracyC: 0.5, lowC: 18, highC: 22 })).toEqual(of({}))
    expect(() => of({ lowC: 21 })).toThrow(/readings\[0\] has lowC 21, temperatureC 20/)
    expect(() => of({ highC: 400 })).toThrow(/readings\[0\]\.highC/)
  })
})
