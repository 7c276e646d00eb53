import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { estimateBond, estimateFrom, type BondHistory } from '../estimate/estimate.ts'
import { addReading, startProgress } from '../estimate/progress.ts'
import { rateAt, rateCurve } from '../sheet/rate-curve.ts'
import type { Reading, ReadingSource } from '../readings/reading.ts'
import { anyTrueHistory, MINUTE_MS, SHEET, START_MS } from '../testing.ts'
import { limitsOfPlace, UNKNOWN_PLACE } from './place.ts'

const after = (minutes: number): number => START_MS + minutes * MINUTE_MS
const read = (source: ReadingSource, minutes: number, temperatureC: number, accuracyC = 0.5): Reading => ({
  atMs: after(minutes),
  temperatureC,
  accuracyC,
  source,
})

/** True share of handling strength, by small steps and the sheet alone. */
function trueShare(metalC: (minute: number) => number, minutes: number, sheet = SHEET): number {
  const curve = rateCurve(sheet, 'handlingStrength')
  let share = 0
  for (let minute = 0; minute < minutes; minute += 0.5) share += 0.5 * rateAt(curve, metalC(minute + 0.25))
  return share
}

/** When the gate opens, minutes, as it was known reading by reading. */
function opensAfter(history: Omit<BondHistory, 'nowMs' | 'forecast'>, untilMinutes: number): number {
  const { sheet, appliedAtMs, panelTauMinutes, readings } = history
  let state = startProgress(sheet, appliedAtMs, panelTauMinutes)
  for (const [i, reading] of readings.entries()) {
    state = addReading(state, reading)
    const nowMs = (readings[i + 1]?.atMs ?? after(untilMinutes)) - 1
    const { readyAt } = estimateFrom(state, { nowMs, forecast: [] }).handlingStrength
    if (readyAt.conservative.kind === 'at')
      return (Math.max(readyAt.conservative.atMs, reading.atMs) - START_MS) / MINUTE_MS
  }
  return Infinity
}

describe('metal lags', () => {
  const bay = Array.from({ length: 120 }, (_, i) => read('bayAir', 15 * i + 1, 22))

  it.each([5, 30, 60, 120, 240])(
    'cold metal in a warm bay: the gate does not open before the metal is through, at a lag of %i min',
    (tau) => {
      const metalC = (minute: number): number => 22 - 11 * Math.exp(-minute / tau)
      const readings = [read('metalProbe', 0, 11), ...bay]
      const opens = opensAfter({ sheet: SHEET, appliedAtMs: START_MS, readings, panelTauMinutes: 4 }, 1800)
      expect(trueShare(metalC, opens)).toBeGreaterThanOrEqual(1)
    },
  )

  it('learns the lag from a second reading: a quick panel need not wait for a slow one', () => {
    const once = [read('metalProbe', 0, 11), ...bay]
    const twice = [...once, read('metalProbe', 60, 20.5)].toSorted((a, b) => a.atMs - b.atMs)
    const common = { sheet: SHEET, appliedAtMs: START_MS, panelTauMinutes: 4 }
    const [first, second] = [once, twice].map((readings) => opensAfter({ ...common, readings }, 1800))
    expect(second).toBeLessThan(first! - 30)
    const metalC = (minute: number): number => 22 - 11 * Math.exp((-minute / 60) * Math.log(11 / 1.5))
    expect(trueShare(metalC, second!)).toBeGreaterThanOrEqual(1)
  })

  it('says so when no lag explains what was measured, and counts the time before at its coldest', () => {
    const readings = [read('metalProbe', 0, 20), ...bay.slice(0, 5), read('metalProbe', 70, 5)]
    const { notes, handlingStrength } = estimateBond({
      sheet: SHEET,
      appliedAtMs: START_MS,
      readings,
      forecast: [],
      nowMs: after(70),
      panelTauMinutes: 4,
    })
    expect(notes).toContainEqual({ kind: 'metalNotFollowingAir', atMs: after(70), temperatureC: 5 })
    // 4.5 degC is below the lowest cure temperature: nothing of those 70 min is certain.
    expect(handlingStrength.progress.conservative).toBe(0)
  })

  it('never credits more than the metal truly had, nor less on the warm line, for any lag, air and instants', () => {
    fc.assert(
      fc.property(anyTrueHistory, ({ metalAt, ...history }) => {
        const { handlingStrength, notes } = estimateBond(history)
        const minutes = (history.nowMs - START_MS) / MINUTE_MS
        const metalC = (minute: number): number => metalAt(after(minute))
        const share = trueShare(metalC, minutes, history.sheet)
        expect(handlingStrength.progress.conservative).toBeLessThanOrEqual(share * (1 + 1e-2) + 1e-3)
        expect(handlingStrength.progress.earliest).toBeGreaterThanOrEqual(share * (1 - 1e-2) - 1e-3)
        expect(notes.map(({ kind }) => kind)).not.toContain('metalNotFollowingAir')
      }),
      { numRuns: 100 },
    )
  })
})

describe('silence is cold', () => {
  it('does not open on the last values of a logger that fell silent while the bay fell', () => {
    // Read up to an hour in; then the heating fails, and the bay goes from 21 to 8 degC within four hours and stays.
    const airC = (minute: number): number => (minute < 60 ? 21 : Math.max(8, 21 - ((minute - 60) * 13) / 240))
    const late = Array.from({ length: 120 }, (_, i) => 600 + 15 * i)
    const readings = [
      read('metalProbe', 0, 21),
      ...[1, 15, 30, 45, 60].map((minute) => read('bayAir', minute, 21)),
      ...late.map((minute) => read('bayAir', minute, airC(minute))),
    ]
    const opens = opensAfter({ sheet: SHEET, appliedAtMs: START_MS, readings, panelTauMinutes: 4 }, 2400)
    expect(opens).toBeLessThan(2400)
    expect(trueShare(airC, opens)).toBeGreaterThanOrEqual(1)
  })

  it('knows a place by its own past, and never as better than heating that fails', () => {
    const hour = 3_600_000
    const steady = Array.from({ length: 24 * 21 }, (_, i) => ({ atMs: i * hour, temperatureC: 20 }))
    const wild = steady.map(({ atMs }, i) => ({ atMs, temperatureC: i % 24 === 20 ? 2 : 20 }))
    expect(limitsOfPlace(steady)).toEqual(UNKNOWN_PLACE)
    expect(limitsOfPlace(steady.slice(0, 24))).toEqual(UNKNOWN_PLACE)
    const { fallC, riseC } = limitsOfPlace(wild)
    expect([fallC[1], riseC[1]]).toEqual([22.5, 22.5])
    for (let i = 1; i < fallC.length; i++) expect(fallC[i]).toBeGreaterThanOrEqual(fallC[i - 1]!)
  })

  describe('by its own past', () => {
    const hour = 3_600_000
    const steady = (hours: number) =>
      Array.from({ length: hours }, (_, i) => ({ atMs: i * hour, temperatureC: 20 }))
    const then = (
      past: { atMs: number; temperatureC: number }[],
      ...after: readonly (readonly [number, number])[]
    ) => [
      ...past,
      ...after.map(([hours, temperatureC]) => ({ atMs: (past.length - 1 + hours) * hour, temperatureC })),
    ]

    it('takes a place that fell within an hour to be able to in any longer time', () => {
      // The last hour that was read: over two hours and more nothing of the kind was seen.
      const { fallC, riseC } = limitsOfPlace(then(steady(200), [1, 52], [2, 20]))
      expect(fallC.slice(1).every((c) => c === 40)).toBe(true)
      expect(riseC.slice(1).every((c) => c >= 40)).toBe(true)
    })

    it('sees what took a whole day, and not what a silence hides', () => {
      // By 2 degC an hour: over 24 hours 48, and a quarter more for what was not seen.
      const fall = Array.from({ length: 24 }, (_, i) => [i + 1, 20 - 2 * (i + 1)] as const)
      expect(limitsOfPlace(then(steady(200), ...fall)).fallC[24]).toBeCloseTo(60, 9)
      // Three hours without a reading tell nothing of the hours between.
      const silent = limitsOfPlace(then(steady(200), [4, -20]))
      expect(silent.fallC[3]).toBe(UNKNOWN_PLACE.fallC[3])
      expect(silent.fallC[4]).toBe(50)
    })

    it('believes a past from a week on, and none of less', () => {
      const spiky = (hours: number) => then(steady(hours), [1, 52], [2, 20])
      expect(limitsOfPlace(spiky(7 * 24 - 2))).toBe(UNKNOWN_PLACE)
      expect(limitsOfPlace(spiky(7 * 24 - 1)).fallC[1]).toBe(40)
      expect(limitsOfPlace([])).toBe(UNKNOWN_PLACE)
      // A week is a week, whenever it was.
      const late = spiky(7 * 24 - 2).map(({ atMs, ...each }) => ({ ...each, atMs: atMs + 1e12 }))
      expect(limitsOfPlace(late)).toBe(UNKNOWN_PLACE)
    })
  })
})

describe('what the sheet does not say', () => {
  it('gives a joint on a one-point sheet no yes that any activation energy of its chemistry would deny', () => {
    const onePoint = { ...SHEET, points: [SHEET.points[1]!], chemistry: 'epoxy' as const }
    const readings = Array.from({ length: 200 }, (_, i) => read('metalProbe', 15 * i, 11, 0))
    const opens = opensAfter({ sheet: onePoint, appliedAtMs: START_MS, readings }, 3000)
    const slow = 240 * Math.exp((75_000 / 8.314462618) * (1 / 284.15 - 1 / 296.15))
    expect(opens).toBeGreaterThanOrEqual(slow - 0.01)
  })

  it('gives no credit above the hottest point that the sheet publishes', () => {
    const readings = [0, 10, 20].map((minute) => read('metalProbe', minute, 85, 0))
    const { handlingStrength } = estimateBond({
      sheet: SHEET,
      appliedAtMs: START_MS,
      readings,
      forecast: [],
      nowMs: after(20),
    })
    expect(handlingStrength.progress.conservative).toBeCloseTo(20 / 30, 12)
    expect(handlingStrength.progress.expected).toBeGreaterThan(20 / 30)
  })
})
