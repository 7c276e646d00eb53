import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addReading, startProgress } from './progress.ts'
import { MINUTE_MS, SHEET, START_MS } from '../testing.ts'
import { whatWouldHelp, type Help, type Wish } from './what-would-help.ts'

const after = (minutes: number): number => START_MS + minutes * MINUTE_MS
const state = addReading(startProgress(SHEET, START_MS, 5), {
  atMs: START_MS,
  temperatureC: 15,
  accuracyC: 1,
  source: 'metalProbe',
})
const forecast = [0, 3000].map((minutes) => ({ atMs: after(minutes), expectedC: 15, lowC: 14, highC: 16 }))
const wish: Wish = {
  state,
  nowMs: START_MS,
  forecast,
  byMs: after(150),
  warming: 'bay',
  toleranceC: 1,
  isClosed: true,
}

describe('whatWouldHelp', () => {
  it('finds the least temperature that is in time', () => {
    const help = whatWouldHelp(wish)
    expect(help.verdict).toBe('warm')
    const { readyAtWithHelp, neededC } = help
    expect(readyAtWithHelp.kind === 'at' && readyAtWithHelp.atMs).toBeLessThanOrEqual(after(150))
    const tenthLess = whatWouldHelp({ ...wish, warmestC: neededC! - 0.15 })
    expect(tenthLess).toMatchObject({ verdict: 'notPossible', limit: { because: 'equipment' } })
  })

  it('needs no help when it is in time anyway, and says what a degree saves', () => {
    const help = whatWouldHelp({ ...wish, byMs: after(1000) })
    expect(help).toMatchObject({ verdict: 'onTime', neededC: null })
    expect(help.minutesSavedPerDegreeC).toBeGreaterThan(10)
  })

  it('asks less of a lamp on the metal than of the bay, which the panel follows', () => {
    const needed = (warming: Wish['warming']): number => whatWouldHelp({ ...wish, warming }).neededC!
    expect(needed('heatLamp')).toBeLessThan(needed('bay'))
  })

  it('keeps below the limit of the vehicle by as much as the heat may be off', () => {
    const help = whatWouldHelp({ ...wish, byMs: after(20), vehicleLimitC: 60 })
    expect(help).toMatchObject({ verdict: 'notPossible', limit: { because: 'vehicle', highestC: 59 } })
  })

  it('keeps a joint that may be open within the application range', () => {
    const open = whatWouldHelp({ ...wish, isClosed: false, byMs: after(60) })
    expect(open).toMatchObject({ verdict: 'notPossible', limit: { because: 'workTime', highestC: 34 } })
  })

  it('keeps another joint of the vehicle that may be open within its application range', () => {
    const { limit } = whatWouldHelp({ ...wish, openSheets: [SHEET] })
    expect(limit).toEqual({ highestC: SHEET.applicationRangeC.max - 1, because: 'workTime' })
  })

  it('never proposes what a product on the vehicle forbids', () => {
    const other = { ...SHEET, serviceRangeC: { min: -40, max: 30 } }
    const help = whatWouldHelp({ ...wish, byMs: after(60), otherSheets: [other] })
    expect(help).toMatchObject({ verdict: 'notPossible', limit: { because: 'otherProduct', highestC: 29 } })
    expect(whatWouldHelp({ ...wish, byMs: after(2) }).limit).toEqual({ highestC: 90, because: 'highestCure' })
  })

  it('never asks for less heat for an earlier wish', () => {
    fc.assert(
      fc.property(fc.integer({ min: 40, max: 400 }), fc.integer({ min: 0, max: 200 }), (minutes, more) => {
        const soon = whatWouldHelp({ ...wish, byMs: after(minutes) })
        const late = whatWouldHelp({ ...wish, byMs: after(minutes + more) })
        // A slow panel makes the earliest wishes impossible at any heat.
        const neededC = (help: Help): number =>
          help.verdict === 'notPossible' ? Infinity : (help.neededC ?? -Infinity)
        expect(neededC(soon)).toBeGreaterThanOrEqual(neededC(late))
      }),
      { numRuns: 40 },
    )
  })

  it('refuses a wish that is past and heat that is held by nobody', () => {
    expect(() => whatWouldHelp({ ...wish, byMs: START_MS })).toThrow(/byMs is .*not after now/)
    expect(() => whatWouldHelp({ ...wish, toleranceC: -1 })).toThrow(/toleranceC is -1/)
  })
})
