import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { DataSheet } from './data-sheet.ts'
import { gaussLegendre } from './gauss.ts'
import { integrateArc, minutesToReach } from './integrate.ts'
import { rateAtKelvin, rateCurve, type RateCurve } from './rate-curve.ts'
import {
  arcC,
  arcK,
  crossingOf,
  followingArc,
  linearArc,
  turningPoint,
  type TemperatureArc,
} from './temperature-arc.ts'

const sheet: DataSheet = {
  points: [
    { temperatureC: 10, workTimeMinutes: 95, handlingTimeMinutes: 600, fullCureMinutes: 2880 },
    { temperatureC: 23, workTimeMinutes: 45, handlingTimeMinutes: 240, fullCureMinutes: 1440 },
    { temperatureC: 60, workTimeMinutes: 4, handlingTimeMinutes: 30, fullCureMinutes: 60 },
  ],
  applicationRangeC: { min: 10, max: 35 },
  lowestCureC: 5,
  highestCureC: 90,
  serviceRangeC: { min: -40, max: 176.7 },
}
const curve = rateCurve(sheet, 'handlingStrength')

/** A composite rule on slices so thin that its own error is far below 1e-13; splits at every edge of the curve. */
function reference(c: RateCurve, arc: TemperatureArc, from: number, to: number): number {
  const rule = gaussLegendre(5)
  const turn = turningPoint(arc, from, to)
  const legs = turn === undefined ? [from, to] : [from, turn, to]
  const cuts = new Set(legs)
  for (let i = 1; i < legs.length; i++) {
    const [a, b] = [arcC(arc, legs[i - 1]!), arcC(arc, legs[i]!)]
    for (const k of c.edgesK) {
      const edgeC = k - 273.15
      if (edgeC > Math.min(a, b) && edgeC < Math.max(a, b))
        cuts.add(crossingOf(arc, legs[i - 1]!, legs[i]!, edgeC))
    }
  }
  const at = [...cuts].toSorted((a, b) => a - b)
  let sum = 0
  for (let i = 1; i < at.length; i++) {
    const slices = 400
    const half = (at[i]! - at[i - 1]!) / (2 * slices)
    for (let s = 0; s < slices; s++) {
      const middle = at[i - 1]! + half * (2 * s + 1)
      rule.nodes.forEach(
        (x, n) => (sum += half * rule.weights[n]! * rateAtKelvin(c, arcK(arc, middle + half * x))),
      )
    }
  }
  return sum
}

const temperatureC = fc.double({ min: -30, max: 150, noNaN: true })
const minutes = fc.double({ min: 0.01, max: 600, noNaN: true })
const missOf = (value: number, wanted: number): number => Math.abs(value - wanted) / (Math.abs(wanted) + 1e-3)

describe('integrateArc', () => {
  it('agrees with a fine composite rule on straight lines to 1e-12', () => {
    fc.assert(
      fc.property(temperatureC, temperatureC, minutes, (a, b, length) => {
        const arc = linearArc(length, a, b)
        expect(missOf(integrateArc(curve, arc, 0, length), reference(curve, arc, 0, length))).toBeLessThan(
          1e-12,
        )
      }),
      { numRuns: 150 },
    )
  })

  it('agrees at every width of step, from a thousandth of a degree to the whole range', () => {
    for (let width = 0.001; width < 60; width *= 1.3) {
      const arc = linearArc(30, 24, 24 + width)
      expect(Math.abs(integrateArc(curve, arc, 0, 30) / reference(curve, arc, 0, 30) - 1)).toBeLessThan(1e-12)
    }
  })

  it('agrees for a panel that follows its air to 1e-11', () => {
    fc.assert(
      fc.property(
        temperatureC,
        temperatureC,
        temperatureC,
        minutes,
        fc.double({ min: 0.3, max: 60, noNaN: true }),
        (panel, air, airEnd, length, tau) => {
          fc.pre(length / tau < 200)
          const arc = followingArc(length, panel, air, airEnd, tau)
          expect(missOf(integrateArc(curve, arc, 0, length), reference(curve, arc, 0, length))).toBeLessThan(
            1e-11,
          )
        },
      ),
      { numRuns: 150 },
    )
  })

  it('is the sum of its parts', () => {
    fc.assert(
      fc.property(
        temperatureC,
        temperatureC,
        minutes,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (a, b, length, part) => {
          const arc = linearArc(length, a, b)
          const cut = length * part
          const parts = integrateArc(curve, arc, 0, cut) + integrateArc(curve, arc, cut, length)
          expect(missOf(parts, integrateArc(curve, arc, 0, length))).toBeLessThan(1e-11)
        },
      ),
    )
  })

  it('gives no credit below the lowest cure temperature', () => {
    expect(integrateArc(curve, linearArc(600, -20, 4.99), 0, 600)).toBe(0)
  })

  it('gives no more credit above the highest', () => {
    const at90 = integrateArc(curve, linearArc(10, 90, 90), 0, 10)
    expect(integrateArc(curve, linearArc(10, 91, 250), 0, 10)).toBeCloseTo(at90, 12)
  })
})

describe('minutesToReach', () => {
  it('finds the instant to a millisecond', () => {
    fc.assert(
      fc.property(
        temperatureC,
        temperatureC,
        fc.double({ min: 1, max: 600, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (a, b, length, part) => {
          const arc = linearArc(length, a, b)
          const whole = integrateArc(curve, arc, 0, length)
          fc.pre(whole > 1e-6)
          const t = minutesToReach(curve, arc, 0, length, whole * part)
          const [before, after] = [t - 1e-5, t + 1e-5]
          expect(integrateArc(curve, arc, 0, before)).toBeLessThanOrEqual(whole * part * (1 + 1e-12))
          expect(integrateArc(curve, arc, 0, after)).toBeGreaterThanOrEqual(whole * part * (1 - 1e-12))
        },
      ),
    )
  })
})
