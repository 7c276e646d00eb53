import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MILESTONES } from '../sheet/data-sheet.ts'
import { gaussLegendre } from '../numerics/gauss.ts'
import { integrateArc, integrateStraight, minutesToReach, noAnchor } from './integrate.ts'
import { rateAtKelvin, rateCurve, type RateCurve } from '../sheet/rate-curve.ts'
import {
  arcC,
  arcK,
  crossingOf,
  followingArc,
  linearArc,
  turningPoint,
  type TemperatureArc,
} from './temperature-arc.ts'
import { between, SHEET } from '../testing.ts'

const curve = rateCurve(SHEET, 'handlingStrength')

/**
 * A composite rule on slices so thin that its own error is far below 1e-13; splits at every edge of the
 * curve.
 */
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

const temperatureC = between(-30, 150)
const minutes = between(0.01, 600)
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
        between(0.3, 60),
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
      fc.property(temperatureC, temperatureC, minutes, between(0, 1), (a, b, length, part) => {
        const arc = linearArc(length, a, b)
        const cut = length * part
        const parts = integrateArc(curve, arc, 0, cut) + integrateArc(curve, arc, cut, length)
        expect(missOf(parts, integrateArc(curve, arc, 0, length))).toBeLessThan(1e-11)
      }),
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

describe('integrateStraight', () => {
  const three = MILESTONES.map((milestone) => rateCurve(SHEET, milestone))

  it('is integrateArc to 1e-12 wherever it takes the line at all', () => {
    let [tried, taken] = [0, 0]
    // Kept from line to line, wherever the last one was.
    const anchor = noAnchor()
    fc.assert(
      fc.property(between(4, 92), between(-2, 2), minutes, (a, rise, length) => {
        const into = [0, 0, 0]
        const isTaken = integrateStraight(three, a + 273.15, a + rise + 273.15, length, into, 0, 1, anchor)
        const arc = linearArc(length, a, a + rise)
        const wanted = three.map((of) => (isTaken ? reference(of, arc, 0, length) : 0))
        expect(Math.max(...into.map((value, m) => missOf(value, wanted[m]!)))).toBeLessThan(1e-12)
        tried += 1
        taken += isTaken ? 1 : 0
      }),
      { numRuns: 400 },
    )
    expect(taken / tried).toBeGreaterThan(0.25)
  })

  it('leaves a line that passes an edge or goes too far to integrateArc', () => {
    const take = (a: number, b: number): boolean =>
      integrateStraight(three, a + 273.15, b + 273.15, 5, [0, 0, 0], 0, 1, noAnchor())
    expect([
      take(20, 20.5),
      take(20, 20),
      take(22.9, 23.1),
      take(4, 4.5),
      take(20, 22),
      take(95, 95),
    ]).toEqual([true, true, false, false, false, false])
  })
})

describe('minutesToReach', () => {
  it('finds the instant to a millisecond', () => {
    fc.assert(
      fc.property(
        temperatureC,
        temperatureC,
        between(1, 600),
        between(0.001, 0.999),
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
