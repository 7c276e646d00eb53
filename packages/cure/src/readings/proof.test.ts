import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { comparedAtJoint } from './air-at-joint.ts'
import { provenOnly } from './proof.ts'
import type { AirAtJoint, MetalReading } from './at-joint.ts'
import { estimateBond, type BondHistory } from '../estimate/estimate.ts'
import type { Reading } from './reading.ts'
import { readingBand } from './temperature-line.ts'
import { between, MINUTE_MS, SHEET, START_MS } from '../testing.ts'

const air = (minutes: number, temperatureC: number): Reading => ({
  atMs: START_MS + minutes * MINUTE_MS,
  temperatureC,
  accuracyC: 1,
  source: 'bayAir',
})
const metal = (minutes: number, temperatureC: number, changes: Partial<MetalReading> = {}): MetalReading => ({
  ...air(minutes, temperatureC),
  source: 'metalProbe',
  isByPanelThermometer: true,
  ...changes,
})
const joint = (temperatureC: number, changes: Partial<AirAtJoint> = {}): AirAtJoint => ({
  atMs: START_MS,
  temperatureC,
  accuracyC: 1,
  isByPanelThermometer: true,
  coldestMetalC: SHEET.applicationRangeC.min,
  ...changes,
})
/** Every quarter of an hour, from two hours before on. */
const steady = (temperatureC: number, hours = 6): Reading[] =>
  Array.from({ length: (hours + 2) * 4 }, (_, i) => air(i * 15 - 120.5, temperatureC))

function strength(
  bay: readonly Reading[],
  metals: readonly MetalReading[],
  at: AirAtJoint,
  tau = 5,
): { conservative: number; kinds: string[] } {
  const compared = comparedAtJoint(bay, metals, at)
  const readings = [...compared.metal, ...compared.air].toSorted((a, b) => a.atMs - b.atMs)
  const history: BondHistory = {
    sheet: SHEET,
    appliedAtMs: START_MS,
    readings,
    forecast: [],
    nowMs: Math.max(START_MS + MINUTE_MS, readings.at(-1)!.atMs),
    panelTauMinutes: tau,
  }
  const { handlingStrength } = estimateBond(history)
  return {
    conservative: handlingStrength.progress.conservative,
    kinds: compared.notes.map(({ kind }) => kind),
  }
}

describe('a probe that nothing was held against', () => {
  const byAnother = joint(20.8, { isByPanelThermometer: false })

  it('says nothing of how warm the metal came in: the careful line takes it as cold as it may have', () => {
    const alone = strength(steady(20), [metal(0, 19.5)], byAnother)
    expect(alone.kinds).toEqual(['metalUnproven'])
    // Metal of 10 degC, the coldest that may be bonded, that such a probe reads as 19.5.
    const truth = strength(steady(20), [metal(0, 10, { accuracyC: 0.01, isBorneOut: true })], byAnother)
    expect(truth.kinds).toEqual([])
    expect(alone.conservative).toBeLessThanOrEqual(truth.conservative)
    expect(alone.conservative).toBeGreaterThan(0)
  })

  it('tells more once it has read the air, agreed of late, or agreed with another on the metal', () => {
    const alone = strength(steady(20), [metal(0, 19.5)], byAnother).conservative
    const proofs = [
      strength(steady(20), [metal(0, 19.5)], joint(20.8)),
      strength(steady(20), [metal(0, 19.5, { isBorneOut: true })], byAnother),
      strength(
        steady(20),
        [
          metal(0, 19.5),
          metal(70, 19.6),
          metal(72, 19.2, { isByPanelThermometer: false, source: 'infrared' }),
        ],
        byAnother,
      ),
    ]
    for (const { conservative, kinds } of proofs) {
      expect(kinds).toEqual([])
      expect(conservative).toBeGreaterThan(alone * 1.2)
    }
  })

  it('is not borne out by one that reads something else, reads later, or is in doubt itself', () => {
    const other = (minutes: number, c: number, changes: Partial<MetalReading> = {}) =>
      strength(
        steady(20),
        [metal(0, 19.5), metal(minutes, c, { isByPanelThermometer: false, ...changes })],
        byAnother,
      ).kinds
    expect(other(10, 19)).toEqual([])
    expect(other(10, 17.4)).toEqual(['metalUnproven'])
    expect(other(16, 19)).toEqual(['metalUnproven'])
    expect(other(10, 19, { suspect: true })).toEqual(['metalUnproven'])
  })

  it('has its say where it is the colder one', () => {
    const cold = strength(steady(20), [metal(0, 19.5), metal(60, 12)], byAnother)
    expect(cold.conservative).toBeLessThan(strength(steady(20), [metal(0, 19.5)], byAnother).conservative)
  })

  it('is all there is where no thermometer hangs in the bay', () => {
    const { metal: metals, notes } = comparedAtJoint([], [metal(0, 19.5)], byAnother)
    expect([metals, notes]).toEqual([[metal(0, 19.5)], []])
  })

  it('never makes anything sooner, whatever it reads', () => {
    fc.assert(
      fc.property(
        between(5, 30),
        between(0, 40),
        fc.array(fc.tuple(fc.integer({ min: 1, max: 300 }), between(0, 40)), { maxLength: 3 }),
        (bayC, firstC, later) => {
          const bay = steady(bayC)
          const metals = [metal(0, firstC)]
          const more = [...new Map(later)].toSorted(([a], [b]) => a - b).map(([at, c]) => metal(at, c))
          const at = joint(bayC + 0.5, { isByPanelThermometer: false })
          const few = strength(bay, metals, at).conservative
          expect(strength(bay, [...metals, ...more], at).conservative).toBeLessThanOrEqual(few + 1e-9)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('a hand reading that is what the bay shows', () => {
  it('proves nothing: metal that never comes up to the air holds the careful line down', () => {
    // The bay reads 22 and is at 14, and so is the metal.
    const metals = [metal(0, 14), metal(60, 14.1), metal(120, 14)]
    const copied = strength(steady(22), metals, joint(22))
    expect(copied.kinds).toEqual(['airUnproven'])
    const truth = strength(steady(14), metals, joint(14.7))
    expect(copied.conservative).toBeLessThanOrEqual(truth.conservative * 1.05)
    expect(strength(steady(22), metals, joint(22, { isBayBorneOut: true })).kinds).toEqual([])
    expect(strength(steady(22), metals, joint(22.3)).kinds).toEqual([])
  })

  it('costs less the further the metal has been measured to come up', () => {
    const after = (...more: MetalReading[]) =>
      strength(steady(20), [metal(0, 14), ...more], joint(20)).conservative
    expect(after(metal(60, 19))).toBeGreaterThan(after() * 1.1)
    const proven = strength(steady(20), [metal(0, 14), metal(60, 20)], joint(20.8)).conservative
    expect(after(metal(60, 20))).toBeCloseTo(proven)
    // Metal that cools shows nothing of the air: it may be above it.
    const { air: airs } = comparedAtJoint(steady(20), [metal(0, 14), metal(60, 13)], joint(20))
    expect(readingBand(airs[0]!)[0]).toBe(13)
  })

  it('costs nothing where the metal is as warm as the air, and takes the forecast along where it is not', () => {
    expect(strength(steady(20), [metal(0, 20.5)], joint(20)).kinds).toEqual([])
    const forecast = [{ atMs: START_MS + MINUTE_MS, lowC: 18, expectedC: 20, highC: 22 }]
    expect(comparedAtJoint(steady(20), [metal(0, 15)], joint(20), forecast).forecast).toEqual([
      { ...forecast[0], lowC: 13 },
    ])
  })

  it('only ever takes the lines further apart', () => {
    fc.assert(
      fc.property(
        between(0, 30),
        between(0, 30),
        between(-0.2, 0.2),
        fc.boolean(),
        (bayC, c, off, isHeld) => {
          const [bay, metals] = [steady(bayC, 1), [metal(0, c), metal(60, c + 1)]]
          const at = joint(bayC + off, { isByPanelThermometer: isHeld })
          const compared = comparedAtJoint(bay, metals, at)
          for (const [i, reading] of [...compared.air, ...compared.metal].entries()) {
            const [was, is] = [readingBand([...bay, ...metals][i]!), readingBand(reading)]
            expect(is[0]).toBeLessThanOrEqual(was[0])
            expect(is[1]).toBe(was[1])
            expect(is[2]).toBeGreaterThanOrEqual(was[2])
          }
        },
      ),
    )
  })
})

describe('air that was copied off the display', () => {
  /** By how much it may be colder, degC; 0 where nothing was said. */
  const shortfall = (airs: readonly Reading[], metals: readonly MetalReading[]): number => {
    const { notes } = provenOnly({ air: airs, metal: metals, forecast: [], notes: [] }, joint(20), 0)
    return notes.map((note) => (note.kind === 'airUnproven' ? note.byC : Number.NaN))[0] ?? 0
  }

  it('may be as much colder as the metal came in below it', () => {
    expect(shortfall([air(0, 20)], [metal(0, 15)])).toBe(5)
    expect(shortfall([air(0, 15)], [metal(0, 20)])).toBe(0)
  })

  it('is shown to be nearer by metal that has warmed, not by air that has cooled', () => {
    expect(shortfall([air(0, 20), air(30, 16)], [metal(0, 15), metal(31, 15.8)])).toBeCloseTo(0.2)
    // A thermometer repeats itself within 0.4 degC: up to there nothing has warmed.
    for (const c of [14.8, 15.2, 15.4])
      expect(shortfall([air(0, 20), air(30, 16)], [metal(0, 15), metal(31, c)])).toBe(5)
  })

  it('is what was shown last before the metal was read, and is in no doubt', () => {
    expect(shortfall([air(0, 20), { ...air(5, 15.5), suspect: true }], [metal(10, 15)])).toBe(5)
    expect(shortfall([air(0, 20), air(60, 15.5)], [metal(10, 15)])).toBe(5)
    expect(shortfall([air(0, 20), air(10, 18)], [metal(10, 15)])).toBe(3)
    // Before the first of it nothing was shown.
    expect(shortfall([air(60, 20)], [metal(10, 15)])).toBe(0)
  })

  it('is not copied where two thermometers hang there', () => {
    const two = { ...air(-5, 20), lowC: 19, highC: 21 }
    expect(comparedAtJoint([two], [metal(0, 15)], joint(20)).notes).toEqual([])
    const one = comparedAtJoint([air(-5, 20)], [metal(0, 15)], joint(20))
    expect(one.notes.map(({ kind }) => kind)).toEqual(['airUnproven'])
  })
})

describe('metal that nothing bears out', () => {
  const byAnother = joint(20.8, { isByPanelThermometer: false })

  it('may have come in as warm as the bay, for the work time', () => {
    const compared = comparedAtJoint([air(-5, 20)], [metal(0, 15)], byAnother)
    expect(readingBand(compared.metal[0]!)[2]).toBeCloseTo(21.8)
  })

  it('is borne out by another one within a quarter of an hour, as far as both accuracies go', () => {
    const infrared = (minutes: number, c: number) => metal(minutes, c, { isByPanelThermometer: false })
    const kinds = (other: MetalReading) =>
      comparedAtJoint([air(-5, 20)], [metal(0, 18), other], byAnother).notes.map(({ kind }) => kind)
    expect(kinds(infrared(15, 20))).toEqual([])
    expect(kinds(infrared(15.1, 20))).toEqual(['metalUnproven'])
    expect(kinds(infrared(15, 20.1))).toEqual(['metalUnproven'])
  })
})
