import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { normalCdf, normalDensity, normalLoss, normalQuantile } from './normal.ts'

const relative = (value: number, truth: number) => Math.abs(value / truth - 1)

/** z, density, distribution function: from the error function of mpmath 1.3 with 40 digits. */
const TABLE = [
  [-8, 5.052271083536892e-15, 6.220960574271784e-16],
  [-3.6, 0.0006119019301137721, 0.00015910859015753388],
  [-3, 0.0044318484119380075, 0.0013498980316300946],
  [-1.5, 0.12951759566589172, 0.06680720126885807],
  [-0.5, 0.35206532676429947, 0.3085375387259869],
  [0, 0.3989422804014327, 0.5],
  [0.5, 0.35206532676429947, 0.6914624612740131],
  [1, 0.24197072451914334, 0.8413447460685429],
  [1.96, 0.05844094433345146, 0.9750021048517795],
  [3, 0.0044318484119380075, 0.9986501019683699],
  [3.6, 0.0006119019301137721, 0.9998408914098424],
] as const

/** p, z: the first three are the published checks of M. J. Wichura, Applied Statistics 37 (1988) 477, AS 241; the rest mpmath. */
const QUANTILES = [
  [0.25, -0.6744897501960817],
  [0.001, -3.0902323061678136],
  [1e-20, -9.262340089798407],
  [0.02, -2.053748910631823],
  [0.0242, -1.9738394633131993],
  [0.02425, -1.972961051311885],
  [0.0243, -1.9720841590292884],
  [0.75, 0.6744897501960817],
  [0.9, 1.2815515655446004],
  [0.9757, 1.9720841590292884],
  [0.97576, 1.9731366119445441],
  [0.999, 3.0902323061678136],
] as const

describe('the standard normal', () => {
  it.each(TABLE)(
    'has at %f the density and the probability below it that are tabled',
    (z, density, below) => {
      expect(relative(normalDensity(z), density)).toBeLessThan(1e-14)
      expect(relative(normalCdf(z), below)).toBeLessThan(1e-12)
    },
  )

  it('has no probability beyond what a number can hold, and all of it on the other side', () => {
    expect(normalCdf(-40)).toBe(0)
    expect(normalCdf(40)).toBe(1)
    expect(normalCdf(-Infinity)).toBe(0)
  })

  it.each(QUANTILES)('has the quantile of %f that is published', (p, z) => {
    expect(relative(normalQuantile(p), z)).toBeLessThan(1e-12)
  })

  it('has its median at nothing, and quantiles that lie on either side of it alike', () => {
    expect(normalQuantile(0.5)).toBeCloseTo(0, 15)
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 0.499, noNaN: true }), (p) => {
        expect(normalQuantile(1 - p)).toBeCloseTo(-normalQuantile(p), 8)
      }),
    )
  })

  it('has quantiles that its distribution function leads back from', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1 - 1e-9, noNaN: true }), (p) => {
        expect(relative(normalCdf(normalQuantile(p)), p)).toBeLessThan(1e-12)
      }),
    )
  })

  it.each([0, 1, -0.1, 1.1, Number.NaN])('has no quantile of %f', (p) => {
    expect(() => normalQuantile(p)).toThrow(`p is ${p}: give a probability above 0 and below 1`)
  })

  // mpmath 1.3, 40 digits.
  it.each([
    [-3, 3.0003821543170477],
    [-0.5, 0.6977965574013061],
    [0, 0.3989422804014327],
    [0.5, 0.19779655740130603],
    [1, 0.0833154705876863],
    [1.96, 0.00944506984293941],
    [3, 0.0003821543170477236],
  ])('is short by this on average where %f deviations are kept', (z, short) => {
    expect(relative(normalLoss(z), short)).toBeLessThan(1e-10)
  })
})
