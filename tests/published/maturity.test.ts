import {
  estimateBond,
  fitArrhenius,
  rateCurve,
  timeAtTemperature,
  type DataSheet,
  type Reading,
} from '@clampclock/cure'
import { describe, expect, it } from 'vitest'
import { hourlyNormals, solveOde } from './outside.ts'

const HOUR_MS = 3_600_000
const KELVIN = 273.15

/**
 * A sheet whose time at T is `hours` exp(q (1/T - 1/Tref)): constant activation energy, so that progress x
 * hours is equivalent age.
 */
function arrheniusSheet(q: number, referenceC: number, hours = 100): DataSheet {
  const minutes = (c: number): number =>
    60 * hours * Math.exp(q * (1 / (c + KELVIN) - 1 / (referenceC + KELVIN)))
  return {
    points: [-20, 80].map((temperatureC) => {
      const fullCureMinutes = minutes(temperatureC)
      return {
        temperatureC,
        workTimeMinutes: fullCureMinutes / 4,
        handlingTimeMinutes: fullCureMinutes / 2,
        fullCureMinutes,
      }
    }),
    applicationRangeC: { min: 0, max: 60 },
    lowestCureC: -40,
    highestCureC: 100,
    serviceRangeC: { min: -40, max: 176.7 },
  }
}

/**
 * Equivalent age in hours of a history of spells at constant temperature; from one to the next within a
 * millisecond.
 */
function equivalentAge(
  sheet: DataSheet,
  spells: readonly (readonly [hours: number, temperatureC: number])[],
  hours = 100,
): number {
  const readings: Reading[] = []
  let atMs = 0
  for (const [length, temperatureC] of spells) {
    const spell = { temperatureC, accuracyC: 0, source: 'metalProbe' } as const
    readings.push({ ...spell, atMs: atMs === 0 ? 0 : atMs + 1 })
    atMs += length * HOUR_MS
    readings.push({ ...spell, atMs })
  }
  const estimate = estimateBond({ sheet, appliedAtMs: 0, readings, forecast: [], nowMs: atMs })
  return estimate.fullCure.progress.expected * hours
}

describe('equivalent age, ASTM C1074 eq. 2, Q = 5000 K (the standard’s value where none is known)', () => {
  const history = [
    [12, 15],
    [12, 25],
    [12, 35],
    [12, 30],
  ] as const

  // Values computed from the standard's formula outside this project.
  it('at 23 degC reference: 61.8285 h', () => {
    expect(equivalentAge(arrheniusSheet(5000, 23), history)).toBeCloseTo(61.8285, 3)
  })

  it('at 20 degC reference: 73.4895 h', () => {
    expect(equivalentAge(arrheniusSheet(5000, 20), history)).toBeCloseTo(73.4895, 3)
  })

  it('is clock time at the reference temperature', () => {
    expect(equivalentAge(arrheniusSheet(5000, 23), [[31, 23]])).toBeCloseTo(31, 9)
  })

  it('does not mind the order of spells, and doubles with all durations', () => {
    const sheet = arrheniusSheet(5000, 23)
    expect(equivalentAge(sheet, history.toReversed())).toBeCloseTo(equivalentAge(sheet, history), 5)
    const doubled = history.map(([hours, c]) => [2 * hours, c] as const)
    expect(equivalentAge(sheet, doubled)).toBeCloseTo(2 * equivalentAge(sheet, history), 5)
  })

  // Rule of ASTM C1074 for temperatures below the datum: they add nothing, and never take away.
  it('adds nothing below the datum temperature', () => {
    const sheet = {
      ...arrheniusSheet(5000, 23),
      points: arrheniusSheet(5000, 23).points.slice(1),
      lowestCureC: -10,
    }
    const both = [
      [10, -15],
      [10, 5],
    ] as const
    expect(equivalentAge(sheet, both)).toBeCloseTo(equivalentAge(sheet, [[10, 5]]), 5)
  })
})

describe('rates relative to 23 degC at 50 kJ/mol', () => {
  // exp(-(50 000 / 8.314462618) (1/T - 1/296.15)), computed outside this project.
  it.each([
    [5, 0.268725],
    [10, 0.393651],
    [15, 0.569064],
    [20, 0.812366],
    [23, 1],
    [30, 1.598208],
    [40, 3.011242],
    [60, 9.537246],
    [80, 26.508821],
  ])('at %d degC: %d', (c, rate) => {
    const curve = rateCurve(arrheniusSheet(50_000 / 8.314462618, 23), 'fullCure')
    expect(6000 / timeAtTemperature(curve, c).minutes).toBeCloseTo(rate, 5)
  })
})

describe('EN 1992-1-1:2004 (B.10), fib Model Code 2010: exp(13.65 - 4000 / (273 + T))', () => {
  // Reference temperature of that form: where the exponent is zero. Its kelvin start at 273, so temperatures
  // move by 0.15.
  const referenceC = 4000 / 13.65 - KELVIN
  const sheet = arrheniusSheet(4000, referenceC)
  const days = (spells: readonly (readonly [days: number, c: number])[]): number =>
    equivalentAge(
      sheet,
      spells.map(([length, c]) => [24 * length, c - 0.15] as const),
    ) / 24

  // fib-international/structuralcodes, tests/test_ec2_2004/test_ec2_2004_shrinkage_and_creep.py,
  // test_maturity.
  it('8.37986781 days for 19, 20, 20, 21, 22, 23 degC over 1, 2, 1, 1, 1, 2 days', () => {
    const spells = [
      [1, 19],
      [2, 20],
      [1, 20],
      [1, 21],
      [1, 22],
      [2, 23],
    ] as const
    expect(days(spells)).toBeCloseTo(8.379_867_81, 7)
  })

  // fib-international/structuralcodes, tests/test_mc2010/test_mc2010_creep_and_shrinkage.py, test_t_T.
  it('15.7723 days for a week each at 20 and 25 degC', () => {
    const weeks = [
      [7, 20],
      [7, 25],
    ] as const
    expect(days(weeks)).toBeCloseTo(15.7723, 4)
  })
})

describe('activation energy from two times', () => {
  // Levenspiel, Chemical Reaction Engineering, example 2.3: milk, 30 min at 336 K as good as 15 s at 347 K:
  // 422 000 J/mol.
  it('is 422 kJ/mol for milk that keeps', () => {
    const { activationEnergyJPerMol } = fitArrhenius([
      { temperatureC: 336 - KELVIN, minutes: 30 },
      { temperatureC: 347 - KELVIN, minutes: 0.25 },
    ])
    expect(Math.abs(activationEnergyJPerMol - 422_000)).toBeLessThan(500)
  })
})

describe('the rule of thumb: twice as fast per 10 degC', () => {
  const point = { temperatureC: 23, workTimeMinutes: 45, handlingTimeMinutes: 240, fullCureMinutes: 1440 }
  const sheet: DataSheet = {
    points: [point],
    applicationRangeC: { min: 10, max: 35 },
    lowestCureC: 5,
    highestCureC: 90,
    serviceRangeC: { min: -40, max: 176.7 },
  }

  // Common practice, no source: 24 h at 23 degC is 48 h at 13, 33.94 h at 18, 12 h at 33, 6 h at 43, 1.85 h
  // at 60 degC.
  it.each([
    [13, 48, 1.03],
    [18, 33.94, 1.01],
    [33, 12, 1.03],
    [43, 6, 1.1],
    [60, 1.85, 1.34],
  ])(
    'a one-point sheet is never faster at %d degC than its %d h, and less than %d times as slow',
    (c, hours, atMost) => {
      const { minutes } = timeAtTemperature(rateCurve(sheet, 'fullCure'), c)
      expect(minutes / 60).toBeGreaterThan(hours * 0.9999)
      expect(minutes / 60).toBeLessThan(hours * atMost)
    },
  )
})

describe('the cure integral over a year of hourly temperatures (NOAA normals, Seattle), against odex', () => {
  const hours = hourlyNormals()
  const start = hours[0]!.atMs
  const readings: Reading[] = hours.map((hour) => ({ ...hour, accuracyC: 0, source: 'bayAir' }))
  const nowMs = hours.at(-1)!.atMs

  /** dP/dt = 1/t(T), hour by hour, the rate from the formulas in this file and no code of ours. */
  function byOde(rate: (k: number) => number): number {
    let progress = 0
    for (let i = 1; i < hours.length; i++) {
      const [from, to] = [hours[i - 1]!, hours[i]!]
      const kelvin = (t: number): number =>
        from.temperatureC + (to.temperatureC - from.temperatureC) * t + KELVIN
      progress += solveOde((t) => 60 * rate(kelvin(t)), 0, 0, 1, 1e-10)
    }
    return progress
  }

  it('agrees to 1e-9 with one activation energy', () => {
    const rate = (k: number): number => Math.exp(-5000 * (1 / k - 1 / 296.15)) / 6000
    const { fullCure } = estimateBond({
      sheet: arrheniusSheet(5000, 23),
      appliedAtMs: start,
      readings,
      forecast: [],
      nowMs,
    })
    expect(Math.abs(fullCure.progress.expected / byOde(rate) - 1)).toBeLessThan(1e-9)
  })

  it('agrees to 1e-6 with three points, a cold stop at 8 degC and a cap at 20 degC', () => {
    const times = [
      [10, 2880],
      [15, 2000],
      [19, 1440],
    ] as const
    const sheet: DataSheet = {
      ...arrheniusSheet(5000, 23),
      points: times.map(([temperatureC, fullCureMinutes]) => {
        return {
          temperatureC,
          workTimeMinutes: fullCureMinutes / 4,
          handlingTimeMinutes: fullCureMinutes / 2,
          fullCureMinutes,
        }
      }),
      lowestCureC: 8,
      highestCureC: 20,
    }
    const rate = (k: number): number => {
      if (k < 8 + KELVIN) return 0
      const at = Math.min(k, 20 + KELVIN)
      const [cold, warm] = at < 15 + KELVIN ? [times[0], times[1]] : [times[1], times[2]]
      const [x0, x1] = [1 / (cold[0] + KELVIN), 1 / (warm[0] + KELVIN)]
      return Math.exp(-(Math.log(cold[1]) + ((1 / at - x0) / (x1 - x0)) * Math.log(warm[1] / cold[1])))
    }
    const { fullCure } = estimateBond({ sheet, appliedAtMs: start, readings, forecast: [], nowMs })
    expect(Math.abs(fullCure.progress.expected / byOde(rate) - 1)).toBeLessThan(1e-6)
  })
})
