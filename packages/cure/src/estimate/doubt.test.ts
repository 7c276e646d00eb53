import { describe, expect, it } from 'vitest'
import { curveWithDoubt } from './doubt.ts'
import type { BondCurvePoint } from './estimate-figures.ts'

const point = (atMs: number, [low, expected, high]: number[], [cold, likely, warm]: number[]) =>
  ({
    atMs,
    temperatureC: { low, expected, high },
    progress: { conservative: cold, expected: likely, earliest: warm },
  }) as BondCurvePoint

describe('a curve with readings in doubt', () => {
  const trusted = [
    point(0, [19, 20, 21], [0, 0, 0]),
    point(10, [19, 20, 21], [0.2, 0.3, 0.4]),
    point(25, [19, 20, 21], [0.5, 0.6, 0.7]),
  ]

  it('is at each instant the colder and the less far on the careful side, the warmer and further on the other', () => {
    // At 10 a third of the way from 5 to 20, at 25 past the end of it.
    const doubted = [
      point(0, [18, 30, 22], [0, 0, 0.3]),
      point(5, [15, 30, 24], [0.03, 0, 0.5]),
      point(20, [9, 30, 30], [0.3, 0, 0.8]),
    ]
    expect(curveWithDoubt(trusted, doubted)).toEqual([
      point(0, [18, 20, 22], [0, 0, 0.3]),
      point(10, [13, 20, 26], [0.12, 0.3, 0.6]),
      point(25, [9, 20, 30], [0.3, 0.6, 0.8]),
    ])
  })

  it('is what is trusted where the doubt would only help', () => {
    const doubted = [point(0, [25, 26, 20], [0.4, 0.5, 0]), point(25, [25, 26, 20], [0.9, 1, 0.1])]
    expect(curveWithDoubt(trusted, doubted)).toEqual(trusted)
  })

  it('takes the first point of the doubted curve for what comes before it', () => {
    const doubted = [point(10, [10, 20, 30], [0, 0, 1]), point(25, [12, 20, 28], [0.1, 0, 2])]
    expect(curveWithDoubt(trusted, doubted).map(({ temperatureC }) => temperatureC.low)).toEqual([10, 10, 12])
  })
})
