import { celsiusToFahrenheit } from '@clampclock/quantities'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  agree,
  disagree,
  judgeMetal,
  judgeRoomAir,
  metalReach,
  type Claim,
  type Known,
  type MetalContext,
} from './reading-quality.ts'
import { between } from '../testing.ts'

const MINUTE = 60_000
const NOON = Date.parse('2031-05-07T16:00:00Z')
const known = (temperatureC: number, minutesAgo = 0, accuracyC = 0.5): Known => ({
  atMs: NOON - minutesAgo * MINUTE,
  temperatureC,
  accuracyC,
})
const claim = (temperatureC: number, changes: Partial<Claim> = {}): Claim => ({
  atMs: NOON,
  enteredAtMs: NOON,
  temperatureC,
  accuracyC: 0.5,
  source: 'metalProbe',
  ...changes,
})
const NOTHING: MetalContext = { metal: [], byTheSame: [], air: [], wasBaked: false }
const kinds = (temperatureC: number, context: Partial<MetalContext>, changes: Partial<Claim> = {}) =>
  judgeMetal(claim(temperatureC, changes), { ...NOTHING, ...context }).map(({ kind }) => kind)

describe('a reading of a panel', () => {
  it('is good where it is what a panel can be', () => {
    expect(kinds(22, {})).toEqual([])
    expect(kinds(22, { air: [known(22)] })).toEqual([])
    // A vehicle that came in from the cold, and one that stood in the sun a little.
    expect(kinds(11, { air: [known(22)] })).toEqual([])
    expect(kinds(25, { air: [known(22)] })).toEqual([])
  })

  it('of 73 in a bay of 22 degC reads like degF', () => {
    const found = judgeMetal(claim(73), { ...NOTHING, air: [known(22)] })
    expect(found).toContainEqual({ kind: 'fahrenheit', meantC: 22.8 })
    expect(found.map(({ kind }) => kind)).toContain('aboveAir')
  })

  it('of 73 with nothing else known reads like degF as well', () => {
    expect(judgeMetal(claim(73), NOTHING)).toEqual([{ kind: 'fahrenheit', meantC: 22.8 }])
  })

  it('of 22 typed as degF reads like degC', () => {
    const found = judgeMetal(claim(-5.56), { ...NOTHING, air: [known(22)] })
    expect(found).toEqual([{ kind: 'celsius', meantC: 22 }])
  })

  it('of 170 degF after 70 is warmer than the air it was in', () => {
    expect(kinds(76.7, { metal: [known(21.1, 30)], air: [known(21, 20)] })).toContain('aboveAir')
  })

  it('that warms in colder air is doubted, however little', () => {
    expect(kinds(26, { metal: [known(20, 60)], air: [known(12, 90), known(11, 10)] })).toEqual([
      'warmsInColderAir',
    ])
    expect(kinds(19, { metal: [known(20, 60)], air: [known(12, 90)] })).toEqual([])
  })

  it('follows the air no faster than the thinnest panel', () => {
    const context = { metal: [known(5, 2)], air: [known(30, 10)] }
    expect(kinds(13, context)).toEqual([])
    expect(kinds(24, context)).toEqual(['tooFast'])
    expect(kinds(24, { ...context, metal: [known(5, 20)] })).toEqual([])
  })

  it('out of an oven may be hot', () => {
    expect(kinds(120, { metal: [known(22, 60)], air: [known(22)], wasBaked: true })).not.toContain('aboveAir')
    expect(kinds(120, { metal: [known(22, 60)], air: [known(22)] })).toContain('outOfRange')
    expect(kinds(250, { wasBaked: true })).toContain('outOfRange')
  })

  it('entered more than a quarter of an hour after it was read is late', () => {
    expect(kinds(22, {}, { atMs: NOON - 15 * MINUTE })).toEqual([])
    expect(judgeMetal(claim(22, { atMs: NOON - 16 * MINUTE }), NOTHING)).toEqual([
      { kind: 'late', minutes: 16 },
    ])
  })

  it('that shows the same digits although the air must have moved it is asked about', () => {
    const byTheSame = [known(14, 60)]
    const air = [known(22, 70), known(22, 10)]
    expect(judgeMetal(claim(14), { ...NOTHING, byTheSame, metal: byTheSame, air })).toEqual([
      { kind: 'unchanged', minutes: 60, airC: 21.5 },
    ])
    // It moved; the air is what it is; so slow a panel need not have moved yet; nobody read the air.
    expect(kinds(14.6, { byTheSame, metal: byTheSame, air })).toEqual([])
    expect(kinds(14, { byTheSame, metal: byTheSame, air: [known(15, 70), known(15, 10)] })).toEqual([])
    expect(kinds(14, { byTheSame: [known(14, 10)], air })).toEqual([])
    expect(kinds(14, { byTheSame })).toEqual([])
  })

  it('with the same tenths for the third time in more than an hour is asked about, whatever the air does', () => {
    const twice = [known(14.3, 120), known(14.3, 60)]
    expect(judgeMetal(claim(14.3), { ...NOTHING, byTheSame: twice })).toEqual([
      { kind: 'unchanged', minutes: 120, times: 3 },
    ])
    // Twice is nothing, nor is it within the hour, by another thermometer, or with another value between.
    expect(kinds(14.3, { byTheSame: twice.slice(1) })).toEqual([])
    expect(kinds(14.3, { byTheSame: [known(14.3, 60), known(14.3, 30)] })).toEqual([])
    expect(kinds(14.3, { metal: twice })).toEqual([])
    expect(kinds(14.3, { byTheSame: [known(14.3, 120), known(14.4, 90), known(14.3, 60)] })).toEqual([])
    expect(kinds(14.4, { byTheSame: twice })).toEqual([])
    // Whole degrees, in either unit, are all that some displays show.
    expect(kinds(14, { byTheSame: [known(14, 120), known(14, 60)] })).toEqual([])
    const of68F = (68 - 32) / 1.8
    const of69F = (69 - 32) / 1.8
    for (const c of [of68F, of69F]) expect(kinds(c, { byTheSame: [known(c, 120), known(c, 60)] })).toEqual([])
  })

  it('of the air at the joint is asked about where the bay reads something else', () => {
    const kindsOf = (c: number, otherC: number) =>
      judgeRoomAir(known(c, 0, 1), [known(otherC, 5, 1)]).map(({ kind }) => kind)
    expect(kindsOf(15, 22)).toEqual(['apart'])
    expect(kindsOf(22, 15)).toEqual(['apart'])
    expect(kindsOf(18.1, 22)).toEqual([])
    expect(kindsOf(72, 22)).toEqual(['fahrenheit', 'outOfRange'])
    expect(judgeRoomAir(known(15), [])).toEqual([])
  })

  it('by an instrument out of calibration is doubted, and not where nobody knows', () => {
    expect(kinds(22, {}, { inCalibration: false })).toEqual(['outOfCalibration'])
    expect(kinds(22, {}, { inCalibration: true })).toEqual([])
    expect(kinds(22, {})).toEqual([])
  })

  it('with the same value a moment later may be one sent twice', () => {
    expect(judgeMetal(claim(22), { ...NOTHING, byTheSame: [known(22, 0.5)] })).toEqual([
      { kind: 'sentTwice', seconds: 30 },
    ])
    expect(kinds(22.1, { byTheSame: [known(22, 0.5)] })).toEqual([])
    expect(kinds(22, { byTheSame: [known(22, 3)] })).toEqual([])
  })

  it('is never too fast, nor off the air, where a panel followed the air at any time constant from 5 minutes up', () => {
    const steps = fc.array(fc.tuple(between(1, 60), between(-20, 40)), { minLength: 2, maxLength: 30 })
    fc.assert(
      fc.property(between(-20, 40), between(5, 240), steps, (startC, tau, log) => {
        const air: Known[] = []
        const metal: Known[] = []
        let [metalC, atMs] = [startC, NOON]
        air.push({ atMs, temperatureC: log[0]![1], accuracyC: 0 })
        for (const [minutes, airC] of log) {
          // The air stands, then jumps: both ends of every step are on record.
          const before = air.at(-1)!.temperatureC
          atMs += minutes * MINUTE
          metalC = before + (metalC - before) * Math.exp(-minutes / tau)
          air.push({ atMs, temperatureC: before, accuracyC: 0 }, { atMs, temperatureC: airC, accuracyC: 0 })
          const reading = claim(metalC, { atMs, enteredAtMs: atMs, accuracyC: 0 })
          const previous = metal.at(-1)
          const found = judgeMetal(reading, { ...NOTHING, metal: previous ? [previous] : [], air })
          metal.push({ atMs, temperatureC: metalC, accuracyC: 0 })
          if (!previous) continue
          expect(found.filter(({ kind }) => kind !== 'celsius' && kind !== 'fahrenheit')).toEqual([])
        }
      }),
    )
  })

  it('with its unit slipped is always doubted: of any shop, where anything near it is known', () => {
    fc.assert(
      fc.property(between(-20, 41.9), between(-4, 4), (trueC, offC) => {
        const air = [known(trueC + offC)]
        expect(kinds(celsiusToFahrenheit(trueC), { air })).toContain('fahrenheit')
      }),
    )
  })

  it('with its unit slipped is always doubted: of any heated shop, with nothing known at all', () => {
    fc.assert(
      fc.property(between(6, 41.9), (trueC) => {
        expect(kinds(celsiusToFahrenheit(trueC), {})).toContain('fahrenheit')
      }),
    )
  })
})

describe('metalReach', () => {
  it('is 63 % of the way to the air after the fastest time constant, and never beyond it', () => {
    const reach = metalReach(10, { min: 0, max: 30 }, 5)
    expect(reach.max).toBeCloseTo(10 + 20 * (1 - Math.exp(-1)), 9)
    expect(reach.min).toBeCloseTo(10 - 10 * (1 - Math.exp(-1)), 9)
    expect(metalReach(10, { min: 12, max: 14 }, 600)).toEqual({ min: 10, max: 14 })
  })
})

describe('two readings', () => {
  it('bear one another out within their accuracies, close in time', () => {
    expect(agree(known(60), known(61.9, 10))).toBe(true)
    expect(agree(known(60), known(62.1, 10))).toBe(false)
    expect(agree(known(60), known(60, 16))).toBe(false)
  })

  it('of one bay disagree beyond their accuracies', () => {
    expect(disagree(known(35), known(12))).toBe(true)
    expect(disagree(known(22), known(25, 0, 1))).toBe(false)
    expect(disagree(known(22), known(25.1, 0, 0.5))).toBe(true)
  })
})
