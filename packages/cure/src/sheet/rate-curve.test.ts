import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MILESTONES, sheetMinutes, type DataSheet } from './data-sheet.ts'
import { rateAt, rateCurve, timeAtTemperature, weakerBasis } from './rate-curve.ts'
import { between, anySheet, SHEET } from '../testing.ts'

const onePoint: DataSheet = { ...SHEET, points: [SHEET.points[1]!] }

describe('rateCurve', () => {
  it('passes through every published point', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        for (const milestone of MILESTONES) {
          const curve = rateCurve(sheet, milestone)
          for (const point of sheet.points) {
            const time = timeAtTemperature(curve, point.temperatureC)
            expect(time.minutes / sheetMinutes(point, milestone)).toBeCloseTo(1, 10)
            expect(time.basis).toBe('dataSheet')
          }
        }
      }),
    )
  })

  it('takes points in any order', () => {
    const shuffled = { ...SHEET, points: SHEET.points.toReversed() }
    expect(rateCurve(shuffled, 'fullCure')).toEqual(rateCurve(SHEET, 'fullCure'))
  })

  it('is linear in ln t over 1/T between points', () => {
    const curve = rateCurve(SHEET, 'handlingStrength')
    const harmonic = 2 / (1 / 283.15 + 1 / 296.15) - 273.15
    expect(timeAtTemperature(curve, harmonic).minutes).toBeCloseTo(Math.sqrt(600 * 240), 8)
    expect(timeAtTemperature(curve, harmonic).basis).toBe('interpolated')
  })

  it('goes on with the nearest slope outside the points and says so', () => {
    const curve = rateCurve(SHEET, 'handlingStrength')
    const slope = Math.log(600 / 240) / (1 / 283.15 - 1 / 296.15)
    const wanted = 600 * Math.exp(slope * (1 / 279.15 - 1 / 283.15))
    expect(timeAtTemperature(curve, 6)).toMatchObject({ basis: 'extrapolated', stalled: false })
    expect(timeAtTemperature(curve, 6).minutes).toBeCloseTo(wanted, 8)
    expect(timeAtTemperature(curve, 75).basis).toBe('extrapolated')
  })

  it('never cures slower when warmer', () => {
    fc.assert(
      fc.property(anySheet, between(-20, 200), between(0, 50), (sheet, c, more) => {
        for (const milestone of MILESTONES) {
          const curve = rateCurve(sheet, milestone)
          expect(rateAt(curve, c + more)).toBeGreaterThanOrEqual(rateAt(curve, c) * (1 - 1e-12))
        }
      }),
    )
  })

  it('stalls below the lowest cure temperature and is capped above the highest', () => {
    const curve = rateCurve(SHEET, 'workTime')
    expect(timeAtTemperature(curve, 4.99)).toMatchObject({ minutes: Infinity, stalled: true })
    expect(timeAtTemperature(curve, 5).stalled).toBe(false)
    expect(timeAtTemperature(curve, 120)).toMatchObject({ capped: true, basis: 'extrapolated' })
    expect(timeAtTemperature(curve, 120).minutes).toBe(timeAtTemperature(curve, 90).minutes)
  })

  describe('with one point', () => {
    const curve = rateCurve(onePoint, 'handlingStrength')

    it('is the sheet at that point, estimated elsewhere', () => {
      expect(timeAtTemperature(curve, 23)).toMatchObject({ basis: 'dataSheet' })
      expect(timeAtTemperature(curve, 30).basis).toBe('estimated')
    })

    it('doubles per 10 degC at that temperature', () => {
      const slope = (Math.log(rateAt(curve, 23.001)) - Math.log(rateAt(curve, 22.999))) / 0.002
      expect(slope).toBeCloseTo(Math.LN2 / 10, 6)
    })

    it('is never faster than the doubling rule, on either side', () => {
      for (let c = 5; c <= 90; c += 1) {
        expect(240 * rateAt(curve, c)).toBeLessThanOrEqual(2 ** ((c - 23) / 10) * (1 + 1e-12))
      }
    })
  })

  it('refuses a faulty sheet with every fault', () => {
    const bad = { ...SHEET, points: [{ ...SHEET.points[0]!, workTimeMinutes: -3 }], lowestCureC: 95 }
    expect(() => rateCurve(bad, 'workTime')).toThrow(/lowestCureC \(95.*workTimeMinutes is -3/s)
  })

  it('refuses a temperature that is none', () => {
    expect(() => timeAtTemperature(rateCurve(SHEET, 'workTime'), NaN)).toThrow(/temperatureC is NaN/)
  })
})

describe('weakerBasis', () => {
  it('keeps what deserves less trust', () => {
    expect(weakerBasis('dataSheet', 'extrapolated')).toBe('extrapolated')
    expect(weakerBasis('estimated', 'interpolated')).toBe('estimated')
  })
})

describe('the careful and the hasty side', () => {
  const onePoint = { ...SHEET, points: [SHEET.points[1]!] }

  it('give no credit above the hottest published point on the careful side, and go on with the sheet on the hasty', () => {
    const careful = rateCurve(SHEET, 'handlingStrength', 'careful')
    expect(rateAt(careful, 80)).toBe(rateAt(careful, 60))
    expect(rateAt(careful, 60)).toBeCloseTo(1 / 30, 12)
    const hasty = rateCurve(SHEET, 'workTime', 'hasty')
    expect(rateAt(hasty, 80)).toBeGreaterThanOrEqual(rateAt(rateCurve(SHEET, 'workTime'), 80))
  })

  it('take the worst activation energy of the chemistry where the sheet has one point', () => {
    const rateOf = (side: 'careful' | 'hasty', c: number, chemistry?: 'epoxy'): number =>
      rateAt(rateCurve({ ...onePoint, chemistry }, 'handlingStrength', side), c)
    const ratio = (kJ: number, c: number): number =>
      Math.exp(((kJ * 1000) / 8.314462618) * (1 / 296.15 - 1 / (c + 273.15)))
    expect(240 * rateOf('careful', 11)).toBeCloseTo(ratio(96, 11), 10)
    expect(240 * rateOf('careful', 11, 'epoxy')).toBeCloseTo(ratio(75, 11), 10)
    expect(240 * rateOf('careful', 40)).toBeCloseTo(1, 12)
    expect(240 * rateOf('hasty', 11)).toBeCloseTo(ratio(30, 11), 10)
    expect(240 * rateOf('hasty', 40)).toBeCloseTo(ratio(96, 40), 10)
  })

  it('lie on either side of the expected one, for any sheet at any temperature', () => {
    fc.assert(
      fc.property(anySheet, between(-10, 120), (sheet, c) => {
        const at = (side: 'careful' | 'expected' | 'hasty'): number =>
          rateAt(rateCurve(sheet, 'fullCure', side), c)
        expect(at('careful')).toBeLessThanOrEqual(at('expected') * (1 + 1e-12))
        expect(at('expected')).toBeLessThanOrEqual(at('hasty') * (1 + 1e-12))
      }),
    )
  })
})
