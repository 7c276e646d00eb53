import { describe, expect, it } from 'vitest'
import type { BondEstimate } from './estimate-figures.ts'
import { estimateBond, estimateFrom, type BondHistory } from './estimate.ts'
import { addReading, startProgress } from './progress.ts'
import type { Reading } from '../readings/reading.ts'
import { UNKNOWN_PLACE } from '../careful/place.ts'
import { MINUTE_MS, SHEET, START_MS } from '../testing.ts'

const after = (minutes: number): number => START_MS + minutes * MINUTE_MS
const probe = (minutes: number, temperatureC: number, accuracyC = 0): Reading => ({
  atMs: after(minutes),
  temperatureC,
  accuracyC,
  source: 'metalProbe',
})
const air = (minutes: number, temperatureC: number, accuracyC = 0): Reading => ({
  ...probe(minutes, temperatureC, accuracyC),
  source: 'bayAir',
})
const steady = (c: number, spread = 0, from = 0): BondHistory['forecast'] =>
  [from, 6000].map((minutes) => ({ atMs: after(minutes), expectedC: c, lowC: c - spread, highC: c + spread }))
const every = (minutes: number, to: number, c: number): Reading[] =>
  Array.from({ length: to / minutes + 1 }, (_, i) => probe(i * minutes, c))
const base: BondHistory = {
  sheet: SHEET,
  appliedAtMs: START_MS,
  readings: [probe(0, 23)],
  forecast: steady(23),
  nowMs: START_MS,
}
const kinds = (estimate: BondEstimate): string[] => estimate.notes.map((note) => note.kind)

describe('estimateBond', () => {
  it('is the data sheet at a temperature that stays', () => {
    const estimate = estimateBond(base)
    expect(estimate.workTime.readyAt.earliest).toEqual({ kind: 'at', atMs: after(45) })
    expect(estimate.handlingStrength.readyAt.conservative).toEqual({ kind: 'at', atMs: after(240) })
    expect(estimate.fullCure.readyAt.expected).toEqual({ kind: 'at', atMs: after(1440) })
    expect(estimate.handlingStrength.basis).toBe('dataSheet')
    expect(estimate.notes).toEqual([])
  })

  it('counts a warm hour for what it is: an hour at 60 degC is two handling times', () => {
    const readings = every(20, 60, 60)
    const { handlingStrength } = estimateBond({ ...base, readings, nowMs: after(60) })
    expect(handlingStrength.progress.expected).toBeCloseTo(2, 12)
    expect(handlingStrength.readyAt.expected).toEqual({ kind: 'at', atMs: after(30) })
  })

  it('counts sensor error against us on both sides', () => {
    const { workTime, handlingStrength } = estimateBond({
      ...base,
      readings: [probe(0, 23, 1)],
      forecast: steady(23, 1),
    })
    const [early, late] = [workTime.readyAt.earliest, handlingStrength.readyAt.conservative]
    expect(early.kind === 'at' && early.atMs).toBeLessThan(after(45))
    expect(late.kind === 'at' && late.atMs).toBeGreaterThan(after(240))
  })

  it('stalls below the lowest cure temperature and says from when to when', () => {
    const readings = [probe(0, 15), probe(20, 3), probe(40, 3), probe(60, 15)]
    const { notes, handlingStrength } = estimateBond({ ...base, readings, nowMs: after(60) })
    // 15 to 3 degC in 20 min passes 5 degC after 16 min 40 s.
    const stall = { kind: 'stalled', fromMs: after(16) + 40_000, toMs: after(43) + 20_000, lowestCureC: 5 }
    expect(notes).toContainEqual(stall)
    expect(handlingStrength.progress.expected).toBeGreaterThan(0)
  })

  it('says that it is too cold when nothing at all is in sight', () => {
    const { handlingStrength } = estimateBond({ ...base, readings: [probe(0, 4)], forecast: steady(4) })
    expect(handlingStrength.readyAt.conservative).toEqual({ kind: 'never', reason: 'tooCold' })
  })

  it('counts the careful line of a bond told late from when it may count, and nothing else', () => {
    const told = { ...base, readings: every(20, 60, 23), nowMs: after(60) }
    const whole = estimateBond(told)
    const late = estimateBond({ ...told, countsFromMs: after(45) })
    for (const [milestone, minutes] of [
      ['handlingStrength', 240],
      ['fullCure', 1440],
    ] as const) {
      expect(late[milestone].progress.conservative).toBeCloseTo(15 / minutes, 9)
      expect(late[milestone].readyAt.conservative).toEqual({ kind: 'at', atMs: after(45 + minutes) })
      expect(late[milestone].progress.expected).toBe(whole[milestone].progress.expected)
      expect(late[milestone].readyAt.expected).toEqual({ kind: 'at', atMs: after(minutes) })
    }
    expect(late.workTime).toEqual(whole.workTime)
    expect(late.notes).toEqual([{ kind: 'toldLate', appliedAtMs: START_MS, countsFromMs: after(45) }])
    // What may count only later than now counts nothing yet.
    const notYet = estimateBond({ ...told, countsFromMs: after(75) })
    expect(notYet.handlingStrength.progress.conservative).toBe(0)
    expect(notYet.handlingStrength.readyAt.conservative).toEqual({ kind: 'at', atMs: after(300) })
    expect(estimateBond({ ...told, countsFromMs: START_MS })).toEqual(whole)
  })

  it('gives no more credit above the highest cure temperature', () => {
    const hot = estimateBond({ ...base, readings: every(10, 20, 120), nowMs: after(20) })
    const limit = estimateBond({ ...base, readings: every(10, 20, 90), nowMs: after(20) })
    expect(hot.fullCure.progress.expected).toBeCloseTo(limit.fullCure.progress.expected, 12)
    expect(hot.notes).toContainEqual({ kind: 'capped', fromMs: START_MS, toMs: after(20), highestCureC: 90 })
  })

  it('says no forecast rather than guess, and keeps what has been reached', () => {
    const estimate = estimateBond({ ...base, readings: every(10, 60, 23), forecast: [], nowMs: after(60) })
    expect(estimate.workTime.readyAt.conservative).toEqual({ kind: 'at', atMs: after(45) })
    expect(estimate.handlingStrength.readyAt.conservative).toEqual({ kind: 'never', reason: 'noTemperature' })
    expect(estimate.notes).toContainEqual({ kind: 'noForecast', fromMs: after(60) })
  })

  it('says when the forecast ends too early', () => {
    const forecast = steady(23).map((point, i) => (i === 0 ? point : { ...point, atMs: after(120) }))
    const estimate = estimateBond({ ...base, forecast })
    expect(estimate.handlingStrength.readyAt.expected).toEqual({ kind: 'never', reason: 'beyondForecast' })
    expect(estimate.notes).toContainEqual({
      kind: 'forecastEnds',
      toMs: after(120),
      milestones: ['handlingStrength', 'fullCure'],
    })
  })

  it('promises nothing when no temperature is known', () => {
    const estimate = estimateBond({ ...base, readings: [], nowMs: after(10) })
    expect(kinds(estimate)).toEqual(['noTemperature'])
    expect(estimate.workTime.readyAt.earliest).toEqual({ kind: 'never', reason: 'noTemperature' })
  })

  it('plans a bond that is yet to be made from the forecast alone', () => {
    const { handlingStrength } = estimateBond({ ...base, readings: [], appliedAtMs: after(60) })
    expect(handlingStrength.readyAt.conservative).toEqual({ kind: 'at', atMs: after(300) })
  })

  it('leaves out what was not known yet', () => {
    const estimate = estimateBond({ ...base, readings: [probe(0, 23), probe(30, 60)], nowMs: after(10) })
    expect(estimate.notes).toContainEqual({ kind: 'readingsAfterNow', count: 1 })
    expect(estimate.handlingStrength.progress.expected).toBeCloseTo(10 / 240, 12)
  })

  it('bridges a gap as cold as the place can have become, on the conservative line alone', () => {
    const readings = [probe(0, 18), probe(90, 18)]
    const { handlingStrength, notes } = estimateBond({ ...base, readings, nowMs: after(90) })
    const { fallC, riseC } = UNKNOWN_PLACE
    // It falls 4 degC in the first hour and 3 in the next, it rises 6 and then 3: down to where the two meet.
    expect([fallC[1], fallC[2], riseC[1], riseC[2]]).toEqual([4, 7, 6, 9])
    const meet = 90 * (6 / 10)
    const lowest = 18 - (4 * meet) / 60
    const bridged = Array.from({ length: 91 }, (_, minute) =>
      probe(
        minute,
        minute <= meet ? 18 - (4 * minute) / 60 : lowest + ((18 - lowest) * (minute - meet)) / (90 - meet),
      ),
    )
    const as = estimateBond({ ...base, readings: bridged, nowMs: after(90) })
    expect(handlingStrength.progress.conservative).toBeCloseTo(as.handlingStrength.progress.conservative, 6)
    const straight = estimateBond({ ...base, readings: every(30, 90, 18), nowMs: after(90) })
    expect(handlingStrength.progress.expected).toBeCloseTo(straight.handlingStrength.progress.expected, 12)
    const note = notes.find(({ kind }) => kind === 'gapBridged')
    expect(note).toMatchObject({ fromMs: START_MS, toMs: after(90), limitMinutes: 30 })
    expect(note).toHaveProperty('marginC', expect.closeTo(18 - lowest, 3))
  })

  it('lets a reading that grows old fall, further and further', () => {
    const at = (minutes: number): BondEstimate =>
      estimateBond({ ...base, forecast: [], nowMs: after(minutes) })
    expect(kinds(at(30))).toEqual(['noForecast'])
    expect(at(30).handlingStrength.progress.conservative).toBe(at(30).handlingStrength.progress.expected)
    // Metal of 23 degC may stand in a shop of 18: from there 4 degC in the first hour, 1.5 in the next half.
    expect(at(90).notes).toContainEqual({
      kind: 'staleTemperature',
      fromMs: after(30),
      toMs: after(90),
      source: 'metalProbe',
      limitMinutes: 30,
      marginC: 10.5,
    })
    let before = 0
    for (let minutes = 0; minutes < 1200; minutes += 7) {
      const { conservative } = at(minutes).handlingStrength.progress
      expect(conservative).toBeGreaterThanOrEqual(before * (1 - 1e-12))
      before = conservative
    }
    // 18 - 13 = 5 degC after four hours: from then on nothing counts any more.
    expect(at(1200).handlingStrength.progress.conservative).toBe(
      at(300).handlingStrength.progress.conservative,
    )
  })

  it('takes a colder forecast for a stale reading', () => {
    const colder = estimateBond({ ...base, nowMs: after(120), forecast: steady(8, 0, 120) })
    const same = estimateBond({ ...base, nowMs: after(120), forecast: steady(23, 0, 120) })
    expect(colder.handlingStrength.progress.conservative).toBeLessThan(
      same.handlingStrength.progress.conservative,
    )
    expect(colder.handlingStrength.progress.expected).toBe(same.handlingStrength.progress.expected)
  })

  it('lets a panel follow bay air through its time constant', () => {
    const readings = [probe(0, 10), ...Array.from({ length: 12 }, (_, i) => air(5 * (i + 1), 30))]
    const history = { ...base, readings, nowMs: after(60), forecast: steady(30, 0, 60) }
    const slow = estimateBond({ ...history, panelTauMinutes: 40 })
    const quick = estimateBond({ ...history, panelTauMinutes: 4 })
    const none = estimateBond(history)
    expect(slow.handlingStrength.progress.expected).toBeLessThan(quick.handlingStrength.progress.expected)
    expect(kinds(none)).toContain('panelLagUnknown')
    expect(kinds(quick)).not.toContain('panelLagUnknown')
  })

  it('says that it assumed the panel to be at bay temperature at the start', () => {
    const { notes } = estimateBond({ ...base, readings: [air(0, 21)], panelTauMinutes: 5 })
    expect(notes).toContainEqual({ kind: 'panelStartAssumed', atMs: START_MS, temperatureC: 21 })
  })

  it('counts metal that nobody measured as cold as adhesive may be put on, where that is colder than the air', () => {
    const history = { ...base, panelTauMinutes: 30, nowMs: after(60), forecast: steady(21, 0, 60) }
    const assumed = estimateBond({ ...history, readings: [air(0, 21), air(60, 21)] })
    const measured = estimateBond({
      ...history,
      readings: [probe(0, SHEET.applicationRangeC.min), air(1, 21), air(60, 21)],
    })
    const shares = [assumed, measured].map(({ handlingStrength }) => handlingStrength.progress.conservative)
    expect(shares[0]).toBeCloseTo(shares[1]!, 1)
    const asWarmAsTheAir = estimateBond({ ...history, readings: [probe(0, 21), air(1, 21), air(60, 21)] })
    expect(shares[0]).toBeLessThan(0.9 * asWarmAsTheAir.handlingStrength.progress.conservative)
  })

  it('warns when the joint gets warmer than it is rated for', () => {
    const { notes } = estimateBond({ ...base, readings: [probe(0, 23), probe(20, 190)], nowMs: after(20) })
    expect(notes).toContainEqual(expect.objectContaining({ kind: 'outsideServiceRange', temperatureC: 190 }))
  })

  it('names what lies outside the published points', () => {
    const { notes, fullCure } = estimateBond({ ...base, readings: [probe(0, 8)], forecast: steady(8) })
    expect(fullCure.basis).toBe('extrapolated')
    expect(notes).toContainEqual({
      kind: 'extrapolated',
      milestones: ['workTime', 'handlingStrength', 'fullCure'],
      countedC: { min: 8, max: 8 },
      publishedC: { min: 10, max: 60 },
    })
  })

  it('rests a figure on the temperatures up to its milestone, not on what came after', () => {
    const readings = [probe(0, 23), probe(25, 23), probe(50, 23), probe(75, 70)]
    const { workTime, handlingStrength } = estimateBond({ ...base, readings, nowMs: after(75) })
    expect(workTime.basis).toBe('dataSheet')
    expect(handlingStrength.basis).toBe('extrapolated')
  })

  it('says when all rests on the doubling rule', () => {
    const sheet = { ...SHEET, points: [SHEET.points[1]!] }
    const { notes, workTime } = estimateBond({
      ...base,
      sheet,
      readings: [probe(0, 20)],
      forecast: steady(20),
    })
    expect(notes).toContainEqual({ kind: 'estimatedFromDoublingRule', publishedC: 23 })
    expect(workTime.basis).toBe('estimated')
  })
})

describe('refusals', () => {
  it.each<[string, Partial<BondHistory>, RegExp]>([
    [
      'readings out of order',
      { readings: [probe(5, 20), probe(3, 20)], nowMs: after(9) },
      /readings\[1\]\.atMs .*before the reading/,
    ],
    [
      'one instant twice',
      { readings: [probe(5, 20), probe(5, 20)], nowMs: after(9) },
      /readings\[1\]\.atMs .*same instant/,
    ],
    ['a reading that is no number', { readings: [probe(0, NaN)] }, /readings\[0\]\.temperatureC is NaN/],
    [
      'an instant that is no number',
      { readings: [{ ...probe(0, 20), atMs: NaN }] },
      /readings\[0\]\.atMs is NaN/,
    ],
    [
      'a probe at 900 degC',
      { readings: [probe(0, 900)] },
      /readings\[0\]\.temperatureC is 900.*check the probe/,
    ],
    ['a negative accuracy', { readings: [probe(0, 20, -1)] }, /readings\[0\]\.accuracyC is -1/],
    [
      'an unknown source',
      { readings: [{ ...probe(0, 20), source: 'guess' as 'bayAir' }] },
      /source is 'guess'/,
    ],
    ['no now', { nowMs: NaN }, /nowMs is NaN/],
    ['no application', { appliedAtMs: Infinity }, /appliedAtMs is Infinity/],
    ['a time constant of zero', { panelTauMinutes: 0 }, /panelTauMinutes is 0/],
    ['a sheet without points', { sheet: { ...SHEET, points: [] } }, /points is empty/],
    [
      'a band upside down',
      { forecast: [{ atMs: after(1), expectedC: 5, lowC: 6, highC: 7 }] },
      /forecast\[0\] has lowC 6/,
    ],
    ['a forecast out of order', { forecast: steady(20).toReversed() }, /forecast\[1\]\.atMs/],
    ['a forecast out of all reason', { forecast: steady(400) }, /forecast\[0\]\.lowC is 400/],
  ])('names %s', (_, part, message) => {
    expect(() => estimateBond({ ...base, ...part })).toThrow(message)
    expect(() => estimateBond({ ...base, ...part })).toThrow(RangeError)
  })

  it('names a reading that comes before the last one kept', () => {
    const state = addReading(startProgress(SHEET, START_MS), probe(10, 20))
    expect(() => addReading(state, probe(5, 20))).toThrow(/before the reading/)
    expect(() => estimateFrom(state, { nowMs: after(5), forecast: [] })).toThrow(
      /nowMs is .*before the last reading/,
    )
  })
})
