import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { normalCdf, normalDensity, normalLoss, normalQuantile } from './normal.ts'

const relative = (value: number, truth: number) => Math.abs(value / truth - 1)

/** z, density, distribution function: from the error function of mpmath 1.3 with 40 digits. */
const TABLE = [
  [-8, 5.05227108353689229e-15, 6.22096057427178412e-16],
  [-3.6, 0.00061190193011377215, 0.00015910859015753388],
  [-3, 0.00443184841193800718, 0.00134989803163009453],
  [-1.5, 0.129517595665891728, 0.066807201268858066],
  [-0.5, 0.352065326764299478, 0.308537538725986896],
  [0, 0.398942280401432678, 0.5],
  [0.5, 0.352065326764299478, 0.691462461274013104],
  [1, 0.24197072451914335, 0.841344746068542949],
  [1.96, 0.0584409443334514603, 0.975002104851779566],
  [3, 0.00443184841193800718, 0.998650101968369905],
  [3.6, 0.00061190193011377215, 0.999840891409842466],
] as const

/** p, z: the first three are the published checks of M. J. Wichura, Applied Statistics 37 (1988) 477, AS 241; the rest mpmath. */
const QUANTILES = [
  [0.25, -0.674489750196081743],
  [0.001, -3.09023230616781354],
  [1e-20, -9.26234008979840757],
  [0.02, -2.05374891063182305],
  [0.0242, -1.97383946331319926],
  [0.02425, -1.97296105131188485],
  [0.0243, -1.97208415902928845],
  [0.75, 0.674489750196081743],
  [0.9, 1.28155156554460047],
  [0.9757, 1.97208415902928845],
  [0.97576, 1.97313661194454423],
  [0.999, 3.09023230616781354],
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
        expect(relative(normalCdf(normalQuantile(p)), p)).toBeLessThan(1e-11)
      }),
    )
  })

  it.each([0, 1, -0.1, 1.1, Number.NaN])('has no quantile of %f', (p) => {
    expect(() => normalQuantile(p)).toThrow(`p is ${p}: give a probability above 0 and below 1`)
  })

  // mpmath 1.3, 40 digits.
  it.each([
    [-3, 3.00038215431704772],
    [-0.5, 0.69779655740130603],
    [0, 0.398942280401432678],
    [0.5, 0.19779655740130603],
    [1, 0.0833154705876862984],
    [1.96, 0.00944506984293940941],
    [3, 0.000382154317047723596],
  ])('is short by this on average where %f deviations are kept', (z, short) => {
    expect(relative(normalLoss(z), short)).toBeLessThan(1e-10)
  })
})
