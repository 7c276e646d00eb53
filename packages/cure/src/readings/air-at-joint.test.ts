import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { apartAtJoint, comparedAtJoint } from './air-at-joint.ts'
import type { AirAtJoint, MetalReading } from './at-joint.ts'
import type { Reading } from './reading.ts'
import { readingBand } from './temperature-line.ts'
import { between } from '../testing.ts'

const MINUTE = 60_000
const air = (temperatureC: number, minutes: number, changes: Partial<Reading> = {}): Reading => ({
  atMs: minutes * MINUTE,
  temperatureC,
  accuracyC: 1,
  source: 'bayAir',
  ...changes,
})
const joint = (temperatureC: number, changes: Partial<AirAtJoint> = {}): AirAtJoint => ({
  atMs: 0,
  temperatureC,
  accuracyC: 1,
  isByPanelThermometer: true,
  coldestMetalC: 5,
  ...changes,
})
const metal = (temperatureC: number, changes: Partial<MetalReading> = {}): MetalReading => ({
  ...air(temperatureC, 0, { source: 'metalProbe' }),
  isByPanelThermometer: true,
  ...changes,
})
const bands = (readings: readonly Reading[]) => readings.map(readingBand)

describe("the air at the joint held against the bay's thermometer", () => {
  it('finds a thermometer over the heater: what it read may have been as far too warm', () => {
    const compared = comparedAtJoint([air(22, -5), air(22.4, 10)], [metal(14)], joint(15))
    expect(compared.notes).toEqual([{ kind: 'airAtJointApart', atMs: 0, jointC: 15, bayC: 22 }])
    // By as much as they differ, and 0.4 degC more, since neither repeats itself better.
    expect(bands(compared.air)).toEqual([
      [13.6, 22, 23],
      [13.999999999999998, 22.4, 23.4],
    ])
    // The metal was read by the colder one: it may be warmer, for the work time.
    expect(bands(compared.metal)).toEqual([[13, 14, 22.4]])
  })

  it('finds a probe that reads warm: then all that it read off the metal may be as far too warm', () => {
    const compared = comparedAtJoint([air(15, -5)], [metal(20)], joint(22))
    expect(bands(compared.metal)).toEqual([[11.6, 20, 21]])
    expect(bands(compared.air)).toEqual([[14, 15, 23.4]])
  })

  it('believes no other probe the more because those two disagree: it was held against nothing', () => {
    const infrared = [metal(20, { isByPanelThermometer: false, source: 'infrared' })]
    const hygrometer = joint(22, { isByPanelThermometer: false })
    for (const compared of [
      comparedAtJoint([air(15, -5)], infrared, joint(22)),
      comparedAtJoint([air(15, -5)], [metal(20)], hygrometer),
    ]) {
      expect(compared.notes.map(({ kind }) => kind)).toEqual(['airAtJointApart', 'metalUnproven'])
      expect(bands(compared.metal)[0]![0]).toBe(5)
    }
  })

  it("bears nothing out where the bay's thermometer was silent; a bay without any goes by the probe", () => {
    for (const silent of [[air(20, -120), air(20, -31)], [air(20, 31)]]) {
      const compared = comparedAtJoint(silent, [metal(20)], joint(20.5))
      expect(compared.notes).toEqual([{ kind: 'metalUnproven' }])
      expect(bands(compared.metal)[0]![0]).toBe(5)
      expect(comparedAtJoint(silent, [metal(20, { isBorneOut: true })], joint(20.5)).notes).toEqual([])
    }
    expect(comparedAtJoint([], [metal(20)], joint(20.5)).metal).toEqual([metal(20)])
    // To doubt the bay's leaves the one that read the air, and makes no other one better.
    const doubted = [air(20, -5, { suspect: true })]
    expect(comparedAtJoint(doubted, [metal(20)], joint(20.5)).metal).toEqual([metal(20)])
    const byAnother = joint(20.5, { isByPanelThermometer: false })
    expect(comparedAtJoint(doubted, [metal(20)], byAnother).notes).toEqual([{ kind: 'metalUnproven' }])
  })

  it('takes the forecast down with the thermometer that it was learned from', () => {
    const forecast = [{ atMs: MINUTE, lowC: 19, expectedC: 21, highC: 23 }]
    expect(comparedAtJoint([air(22, -5)], [], joint(15), forecast).forecast).toEqual([
      { atMs: MINUTE, lowC: 11.6, expectedC: 21, highC: 23 },
    ])
  })

  it('counts more of a difference the nearer it comes to what the accuracies cannot explain', () => {
    const lowOf = (c: number) => {
      const compared = comparedAtJoint([air(c, -5)], [], joint(15))
      expect(compared.notes).toEqual([])
      return readingBand(compared.air[0]!)[0]
    }
    // As far apart as one of them is good for is nothing; a lie of 3 degC may show as 1.5, or as 2.
    expect(lowOf(16)).toBe(15)
    expect(lowOf(16.5)).toBeCloseTo(15.5 - 1.9 / 2)
    expect(lowOf(17)).toBeCloseTo(16 - 2.4)
    const told = comparedAtJoint([air(17.001, -5)], [], joint(15))
    expect(told.notes).toHaveLength(1)
    expect(readingBand(told.air[0]!)[0]).toBeCloseTo(lowOf(17), 2)
  })

  it('says nothing of what was read at another time, or is in doubt anyway', () => {
    expect(apartAtJoint([air(22, -31), air(22, 31)], joint(15))).toBeNull()
    expect(apartAtJoint([air(22, -5, { suspect: true })], joint(15))).toBeNull()
    // A door was opened between: the reading after bears it out.
    expect(apartAtJoint([air(22, -10), air(16, 5)], joint(15))).toBe(0)
  })

  it('never doubts two honest thermometers of one air, and always finds a lie of three accuracies', () => {
    fc.assert(
      fc.property(between(-5, 35), between(-1, 1), between(-1, 1), between(3.001, 20), (trueC, a, b, lie) => {
        expect(apartAtJoint([air(trueC + a, -5)], joint(trueC + b))).toBe(0)
        for (const off of [lie, -lie]) {
          expect(Math.abs(apartAtJoint([air(trueC + off, -5)], joint(trueC + b))!)).toBeGreaterThan(2)
          expect(Math.abs(apartAtJoint([air(trueC + a, -5)], joint(trueC + off))!)).toBeGreaterThan(2)
        }
      }),
    )
  })

  it('only ever takes the lines further apart', () => {
    fc.assert(
      fc.property(between(-5, 35), between(-5, 35), between(-5, 35), (airC, metalC, jointC) => {
        const before = [air(airC, -5), metal(metalC)]
        const { air: airs, metal: metals } = comparedAtJoint([air(airC, -5)], [metal(metalC)], joint(jointC))
        for (const [i, reading] of [...airs, ...metals].entries()) {
          const [was, is] = [readingBand(before[i]!), readingBand(reading)]
          expect(is[0]).toBeLessThanOrEqual(was[0])
          expect(is[1]).toBe(was[1])
          expect(is[2]).toBeGreaterThanOrEqual(was[2])
        }
      }),
    )
  })

  it('holds against it what was read within half an hour, to the minute', () => {
    for (const minutes of [-30, 0, 30]) expect(apartAtJoint([air(22, minutes)], joint(15))).toBe(7)
    // Of one at that instant and one after it, the nearer counts; of two that are as near, the one before.
    expect(apartAtJoint([air(22, 0), air(16, 5)], joint(15))).toBe(0)
    expect(bands(comparedAtJoint([air(16.5, -5), air(13.5, 5)], [], joint(15)).air)[0]![0]).toBeLessThan(15.5)
  })

  it('begins to count where the less accurate of the two ends, and counts in full where both end', () => {
    const lowOf = (c: number) =>
      readingBand(comparedAtJoint([air(c, -5, { accuracyC: 0.5 })], [], joint(15)).air[0]!)[0]
    expect(lowOf(15.8)).toBe(15.3)
    expect(lowOf(16.25)).toBeCloseTo(15.75 - 1.65 / 2)
  })

  it('leaves metal alone that another instrument read, and one that is borne out', () => {
    const infrared = metal(14, { isByPanelThermometer: false, isBorneOut: true })
    const compared = comparedAtJoint([air(22, -5)], [infrared], joint(15))
    expect(bands(compared.metal)).toEqual([[13, 14, 15]])
    expect(compared.forecast).toEqual([])
  })

  it('takes the forecast up where its thermometer reads cold', () => {
    const forecast = [{ atMs: MINUTE, lowC: 14, expectedC: 16, highC: 18 }]
    const { forecast: taken } = comparedAtJoint([air(15, -5)], [], joint(22), forecast)
    expect(taken).toEqual([{ atMs: MINUTE, lowC: 14, expectedC: 16, highC: 25.4 }])
  })
})
