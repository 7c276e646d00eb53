import { estimateBond, type DataSheet, type Reading } from '@clampclock/cure'
import { describe, expect, it } from 'vitest'
import { solveOde } from './outside.ts'

/**
 * The clock never looks inside the chemistry: it reads times off a data sheet and adds up shares of them. For
 * any cure whose rate is a function of temperature times a function of conversion that is exact, whatever the
 * second one is. Here sheets are made from published kinetics, a temperature history is run, and the instant
 * at which the clock strikes is compared with the conversion that a solver finds then.
 */
const KELVIN = 273.15
const R = 8.314462618

/** Sheet from times to a conversion at some temperatures. */
function sheetFrom(minutesAt: (k: number) => number, atC: readonly number[]): DataSheet {
  return {
    points: atC.map((temperatureC) => {
      const minutes = minutesAt(temperatureC + KELVIN)
      return {
        temperatureC,
        workTimeMinutes: minutes / 10,
        handlingTimeMinutes: minutes,
        fullCureMinutes: minutes * 10,
      }
    }),
    applicationRangeC: { min: 0, max: 200 },
    lowestCureC: -40,
    highestCureC: atC.at(-1)! + 20,
    serviceRangeC: { min: -40, max: 250 },
  }
}

/** Minutes until the clock says handling strength, over a history in straight lines. */
function clockMinutes(sheet: DataSheet, history: readonly (readonly [minutes: number, c: number])[]): number {
  const readings: Reading[] = history.map(([minutes, temperatureC]) => {
    return { atMs: minutes * 60_000, temperatureC, accuracyC: 0, source: 'metalProbe' }
  })
  const nowMs = readings.at(-1)!.atMs
  const { readyAt } = estimateBond({ sheet, appliedAtMs: 0, readings, forecast: [], nowMs }).handlingStrength
  if (readyAt.expected.kind === 'never') throw new Error('the history is too short for this cure')
  return readyAt.expected.atMs / 60_000
}

/** Conversion at `until` minutes by odex, leg by leg. */
function conversion(
  rate: (k: number, alpha: number) => number,
  history: readonly (readonly [number, number])[],
  until: number,
  alpha0: number,
): number {
  let alpha = alpha0
  for (let i = 1; i < history.length; i++) {
    const [from, fromC] = history[i - 1]!
    const [to, toC] = history[i]!
    if (from >= until) break
    const kelvin = (t: number): number => fromC + ((toC - fromC) * (t - from)) / (to - from) + KELVIN
    alpha = solveOde((t, a) => rate(kelvin(t), a), from, alpha, Math.min(to, until), 1e-11)
  }
  return alpha
}

const ramps = [
  [0, 20],
  [20, 22],
  [60, 45],
  [90, 60],
  [110, 55],
  [140, 25],
  [400, 25],
] as const

describe('n-th order: time to a conversion in closed form', () => {
  // k t = -ln(1 - a) for n = 1, else ((1 - a)^(1 - n) - 1) / (n - 1); values computed from these, as in any
  // textbook.
  it.each([
    [0.5, 0.585_786_44],
    [1, 0.693_147_18],
    [1.5, 0.828_427_12],
    [2, 1],
    [3, 1.5],
  ])('order %d: the clock strikes at conversion one half over ramps', (n, kt) => {
    const k = (kelvin: number): number => 0.02 * Math.exp((-52_000 / R) * (1 / kelvin - 1 / 296.15))
    const sheet = sheetFrom((kelvin) => kt / k(kelvin), [15, 60])
    const minutes = clockMinutes(sheet, ramps)
    const alpha = conversion((kelvin, a) => k(kelvin) * (1 - a) ** n, ramps, minutes, 0)
    expect(alpha).toBeCloseTo(0.5, 6)
  })
})

describe('autocatalytic epoxy', () => {
  // Aerospace carbon/epoxy prepreg, published parameters: A 7.0e4 1/s, E 65 kJ/mol, m 0.5, n 1.5, R 8.3145;
  // diffusion C 30,
  // critical conversion -1.5148 + 5.171e-3 T (two stored copies of the set agree). Start at conversion 1e-4.
  const k = (kelvin: number): number => 60 * 7e4 * Math.exp(-65_000 / (8.3145 * kelvin))
  const chemistry = (kelvin: number, a: number): number => k(kelvin) * a ** 0.5 * (1 - a) ** 1.5
  const withDiffusion = (kelvin: number, a: number): number =>
    chemistry(kelvin, a) / (1 + Math.exp(30 * (a - (-1.5148 + 5.171e-3 * kelvin))))
  const cycle = [
    [0, 25],
    [45, 110],
    [75, 110],
    [95, 150],
    [400, 150],
  ] as const

  /** Time to a conversion at a constant temperature, by odex with time as a function of conversion. */
  const isothermal = (rate: typeof chemistry, kelvin: number, wanted: number): number =>
    solveOde((a) => 1 / rate(kelvin, a), 1e-4, 0, wanted, 1e-12)

  // Computed outside this project with two integrators: t(0.1) 2438.9 s and t(0.5) 7525.8 s at 130 degC,
  // t(0.5) 2987.3 s at 150 degC.
  it.each([
    [130, 0.1, 2438.9],
    [130, 0.5, 7525.8],
    [150, 0.5, 2987.3],
  ])('at %d degC reaches %d after %d s, as published parameters have it', (c, wanted, seconds) => {
    expect(60 * isothermal(withDiffusion, c + KELVIN, wanted)).toBeCloseTo(seconds, 0)
  })

  it('strikes at the right conversion over a bake, without diffusion: exact', () => {
    const sheet = sheetFrom((kelvin) => isothermal(chemistry, kelvin, 0.5), [100, 160])
    const minutes = clockMinutes(sheet, cycle)
    expect(conversion(chemistry, cycle, minutes, 1e-4)).toBeCloseTo(0.5, 6)
  })

  it('strikes up to four percent late in conversion where diffusion slows the end: 0.517 for 0.5', () => {
    const sheet = sheetFrom((kelvin) => isothermal(withDiffusion, kelvin, 0.5), [100, 115, 130, 145, 160])
    const minutes = clockMinutes(sheet, cycle)
    const struck = conversion(withDiffusion, cycle, minutes, 1e-4)
    expect(struck).toBeGreaterThan(0.5)
    expect(struck).toBeLessThan(0.52)
  })
})

describe('two-branch epoxy', () => {
  // Carbon/epoxy prepreg, published parameters (1/min, kJ/mol, R 8.314): three activation energies, so the
  // clock is an approximation.
  const arrhenius = (a: number, e: number, kelvin: number): number =>
    a * Math.exp((-e * 1000) / (8.314 * kelvin))
  const rate = (kelvin: number, alpha: number): number => {
    if (alpha > 0.3) return arrhenius(1.96e5, 56.6, kelvin) * (1 - alpha)
    const [k1, k2] = [arrhenius(2.101e9, 80.7, kelvin), arrhenius(-2.014e9, 77.8, kelvin)]
    return (k1 + k2 * alpha) * (1 - alpha) * (0.47 - alpha)
  }
  const isothermal = (kelvin: number, wanted: number): number =>
    solveOde((a) => 1 / rate(kelvin, a), 0, 0, 0.3, 1e-12) +
    solveOde((a) => 1 / rate(kelvin, Math.max(a, 0.3 + 1e-12)), 0.3, 0, wanted, 1e-12)

  // Computed outside this project: minutes to conversion 0.5 and 0.9.
  it.each([
    [116, 147.965, 473.03],
    [150, 26.6258, 106.335],
    [177, 8.7515, 39.12],
  ])('at %d degC takes %d and %d min', (c, half, most) => {
    expect(isothermal(c + KELVIN, 0.5) / half).toBeCloseTo(1, 4)
    expect(isothermal(c + KELVIN, 0.9) / most).toBeCloseTo(1, 4)
  })

  it('strikes six percent early in conversion at most over a ramp: 0.475 for 0.5', () => {
    const ramp = [
      [0, 120],
      [30, 120],
      [60, 150],
      [200, 150],
    ] as const
    const sheet = sheetFrom((kelvin) => isothermal(kelvin, 0.5), [116, 150, 177])
    const alpha = conversion(rate, ramp, clockMinutes(sheet, ramp), 0)
    expect(alpha).toBeGreaterThan(0.47)
    expect(alpha).toBeLessThan(0.5)
  })
})
