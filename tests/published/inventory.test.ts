import {
  croston,
  economicOrderQuantity,
  fillRate,
  meanKineticTemperatureC,
  meanKineticTemperatureOfC,
  newsvendor,
  normalCdf,
  normalLoss,
  normalQuantile,
  reorderLevels,
} from '@clampclock/stock'
import { describe, expect, it } from 'vitest'

describe('mean kinetic temperature', () => {
  it.each([
    {
      name: '52 weeks at 25',
      values: Array.from({ length: 52 }, () => 25),
      mkt: 25,
      tolerance: 0.005,
      source: 'USP <1160>, MKT example 1, from memory',
    },
    {
      name: 'a year of monthly means',
      values: [21, 22.5, 21, 22.5, 24.5, 20, 23, 24, 25, 24, 22, 25],
      mkt: 23.0,
      tolerance: 0.05,
      source: 'USP <1160>, MKT example 2, from memory: 23.0',
    },
    {
      name: 'the same, each low and high',
      values: [
        15, 27, 20, 25, 17, 25, 20, 25, 22, 27, 15, 25, 20, 26, 22, 26, 23, 27, 20, 28, 20, 24, 22, 28,
      ],
      mkt: 23.583,
      tolerance: 0.005,
      source: 'data of example 2, computed',
    },
    { name: '20 and 30', values: [20, 30], mkt: 26.2599, tolerance: 0.001, source: 'formula, computed' },
    {
      name: '4, 4, 4, 4, 16',
      values: [4, 4, 4, 4, 16],
      mkt: 8.1089,
      tolerance: 0.001,
      source: 'formula, computed',
    },
  ])('$name: $mkt degC ($source)', ({ values, mkt, tolerance }) => {
    expect(Math.abs(meanKineticTemperatureOfC(values) - mkt)).toBeLessThanOrEqual(tolerance)
  })

  it('weighs by time: 20 h at 25 and 4 h at 40 degC are 29.5981 (formula, computed)', () => {
    const hour = 3_600_000
    const readings = [
      { atMs: 0, temperatureC: 25 },
      { atMs: 20 * hour, temperatureC: 25 },
      { atMs: 20 * hour + 1, temperatureC: 40 },
      { atMs: 24 * hour, temperatureC: 40 },
    ]
    expect(meanKineticTemperatureC(readings)).toBeCloseTo(29.5981, 3)
  })
})

describe('Croston, and Syntetos and Boylan', () => {
  it('gives the published forecasts (pmrgn/intermittent-forecast, MIT, tests/forecasters/test_croston.py)', () => {
    const demands = [0, 0, 3, 0, 4, 0, 0, 0, 2, 0]
    const smoothing = { size: 0.5, interval: 0.2 }
    const after = (n: number, sba: boolean) => croston(demands.slice(0, n), smoothing, sba)?.perPeriod
    expect([2, 3, 4, 5, 8].map((n) => after(n, false))).toEqual([undefined, 1, 1, 1.25, 1.25])
    expect(after(9, false)).toBeCloseTo(0.904605, 6)
    expect(after(5, true)).toBeCloseTo(1.125, 9)
    expect(after(9, true)).toBeCloseTo(0.8141447, 6)
  })

  it('is 0.985 for 36 months of a spare part (Hyndman & Athanasopoulos, Forecasting, 2nd ed., 12.2)', () => {
    const demands = [
      0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1,
      0, 0,
    ]
    const plain = croston(demands, { size: 0.1, interval: 0.1 }, false)!
    expect(plain.size).toBeCloseTo(2.75, 3)
    expect(plain.interval).toBeCloseTo(2.793, 3)
    expect(plain.perPeriod).toBeCloseTo(0.984597, 6)
    expect(croston(demands)!.perPeriod).toBeCloseTo(0.935367, 6)
  })
})

describe('normal quantiles, distribution and loss', () => {
  it.each([
    [0.8, 0.841621],
    [0.85, 1.036433],
    [0.9, 1.281552],
    [0.95, 1.644854],
    [0.975, 1.959964],
    [0.98, 2.053749],
    [0.99, 2.326348],
    [0.995, 2.575829],
    [0.999, 3.090232],
  ])('z(%d) = %d (every printed table; NIST e-Handbook 1.3.6.7.1)', (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 6)
    expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 14)
  })
  it.each([
    [-0.85, 0.197663],
    [0.5, 0.691462],
    [1, 0.841345],
    [1.28, 0.899727],
    [1.96, 0.975002],
    [2.33, 0.990097],
    [3, 0.99865],
  ])('Phi(%d) = %d (printed tables)', (z, p) => {
    expect(normalCdf(z)).toBeCloseTo(p, 6)
  })
  it.each([
    [0, 0.398942],
    [0.5, 0.197797],
    [1, 0.083315],
    [1.65, 0.020637],
    [2, 0.008491],
    [3, 0.000382],
  ])('G(%d) = %d (standard loss tables)', (z, loss) => {
    expect(normalLoss(z)).toBeCloseTo(loss, 6)
  })
})

describe('textbook examples', () => {
  it('economic order quantity: 304.0467800264 (Snyder & Shen, example 3.1) and 1728.109844994 (problem 3.1)', () => {
    expect(economicOrderQuantity(8, 1300, 0.225)).toBeCloseTo(304.0467800264, 7)
    expect(economicOrderQuantity(2250, 182_500, 275)).toBeCloseTo(1728.109844994, 6)
  })

  it('newsvendor: 56.6039559274 at 1.9976051932 (Snyder & Shen, example 4.3), 922.7214038 at 2718.1967818 (problem 4.1)', () => {
    const first = newsvendor(0.18, 0.7, 50, 8)
    expect(first.quantity).toBeCloseTo(56.6039559274, 7)
    expect(first.cost).toBeCloseTo(1.9976051932, 7)
    const second = newsvendor(43, 79, 900, 60)
    expect(second.quantity).toBeCloseTo(922.7214038, 6)
    expect(second.cost).toBeCloseTo(2718.1967818, 5)
  })

  const base = {
    demandPerPeriod: 2500,
    demandDeviation: 500,
    leadPeriods: 2,
    leadDeviation: 0,
    reviewPeriods: 0,
    serviceLevel: 0.9,
    usableBeforeExpiry: null,
  }

  it('safety stock 906 at 90 % (Chopra & Meindl, safety inventory, from memory), fill rate 0.9975', () => {
    expect(reorderLevels(base).safetyStock).toBeCloseTo(906.19, 1)
    expect(fillRate(1000, 500 * Math.SQRT2, 10_000).shortPerCycle).toBeCloseTo(25.13, 1)
    expect(fillRate(1000, 500 * Math.SQRT2, 10_000).fill).toBeCloseTo(0.9975, 4)
  })

  it.each([
    [0, 1695],
    [1, 3625],
    [2, 6628],
    [3, 9760],
    [4, 12_927],
    [5, 16_109],
    [6, 19_298],
    [7, 22_491],
  ])(
    'lead time that varies by %d days: safety stock %d (Chopra & Meindl, lead-time uncertainty, from memory)',
    (leadDeviation, expected) => {
      expect(
        Math.abs(reorderLevels({ ...base, leadPeriods: 7, leadDeviation }).safetyStock - expected),
      ).toBeLessThanOrEqual(1)
    },
  )

  it('never orders more than will be used before it expires', () => {
    const cut = reorderLevels({ ...base, reviewPeriods: 2, usableBeforeExpiry: 6000 })
    expect(cut).toMatchObject({ orderUpTo: 6000, cutByShelfLife: true })
    expect(cut.reorderPoint).toBeLessThanOrEqual(cut.orderUpTo)
  })
})
