import { celsiusToKelvin, requireInRange, requirePositive } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C } from './data-sheet.ts'
import { GAS_CONSTANT } from './gas-constant.ts'
import { studentT } from '../numerics/student-t.ts'

export { GAS_CONSTANT }

export interface MeasuredTime {
  readonly temperatureC: number
  readonly minutes: number
}

/** ln t = lnMinutes0 + (E/R) (1/T - 1/T0), least squares; T0 is where 1/T has its mean. */
export interface ArrheniusFit {
  readonly points: number
  readonly activationEnergyJPerMol: number
  /** Standard error of it; null with two points, which leave nothing to judge by. */
  readonly activationEnergyErrorJPerMol: number | null
  /** Share of the spread of ln t that the line explains; null with two points. */
  readonly rSquared: number | null
  /** Spread of ln t about the line; null with two points. */
  readonly residualLn: number | null
  readonly meanInverseK: number
  readonly meanLnMinutes: number
  readonly sumSquaresInverseK: number
}

/**
 * Straight line through ln t over 1/T (Arrhenius). It does not pass through the points, unlike `rateCurve`:
 * it shows how well they obey one activation energy, and how far a figure between or beyond them can be
 * trusted.
 *
 * @throws RangeError with fewer than two temperatures, a time that is not above zero, or times that rise with
 * temperature.
 */
export function fitArrhenius(points: readonly MeasuredTime[]): ArrheniusFit {
  points.forEach(({ temperatureC, minutes }, i) => {
    requireInRange(
      `points[${i}].temperatureC`,
      temperatureC,
      PLAUSIBLE_TEMPERATURE_C,
      'degC',
      'check the data sheet',
    )
    requirePositive(`points[${i}].minutes`, minutes, 'minutes', 'check the data sheet')
  })
  const n = points.length
  const x = points.map((point) => 1 / celsiusToKelvin(point.temperatureC))
  const y = points.map((point) => Math.log(point.minutes))
  const [xMean, yMean] = [mean(x), mean(y)]
  const sxx = x.reduce((sum, value) => sum + (value - xMean) ** 2, 0)
  if (!(sxx > 0))
    throw new RangeError('points must hold at least two temperatures that differ: a slope needs two')
  const slope = x.reduce((sum, value, i) => sum + (value - xMean) * (y[i]! - yMean), 0) / sxx
  if (!(slope > 0))
    throw new RangeError('points have times that rise with temperature on the whole: check them')
  const left = x.reduce((sum, value, i) => sum + (y[i]! - yMean - slope * (value - xMean)) ** 2, 0)
  const spread = y.reduce((sum, value) => sum + (value - yMean) ** 2, 0)
  const residualLn = n > 2 ? Math.sqrt(left / (n - 2)) : null
  return {
    points: n,
    activationEnergyJPerMol: slope * GAS_CONSTANT,
    activationEnergyErrorJPerMol: residualLn === null ? null : (residualLn / Math.sqrt(sxx)) * GAS_CONSTANT,
    rSquared: n > 2 ? 1 - left / spread : null,
    residualLn,
    meanInverseK: xMean,
    meanLnMinutes: yMean,
    sumSquaresInverseK: sxx,
  }
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length

export interface FittedTime {
  readonly minutes: number
  /** Confidence band of the line; null with two points. */
  readonly band: { readonly lowMinutes: number; readonly highMinutes: number } | null
}

/**
 * Time at a temperature by the fitted line, with the confidence band of the line (Student's t, n - 2 degrees
 * of freedom).
 *
 * @throws RangeError for a temperature out of all reason or a confidence not between 0 and 1.
 */
export function fittedTime(fit: ArrheniusFit, temperatureC: number, confidence = 0.95): FittedTime {
  requireInRange('temperatureC', temperatureC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'give a temperature in degC')
  const dx = 1 / celsiusToKelvin(temperatureC) - fit.meanInverseK
  const ln = fit.meanLnMinutes + (fit.activationEnergyJPerMol / GAS_CONSTANT) * dx
  if (fit.residualLn === null) return { minutes: Math.exp(ln), band: null }
  const half =
    studentT(confidence, fit.points - 2) *
    fit.residualLn *
    Math.sqrt(1 / fit.points + (dx * dx) / fit.sumSquaresInverseK)
  return {
    minutes: Math.exp(ln),
    band: { lowMinutes: Math.exp(ln - half), highMinutes: Math.exp(ln + half) },
  }
}
