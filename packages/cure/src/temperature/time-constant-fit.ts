import { requireInRange } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C } from '../sheet/data-sheet.ts'
import { arcC, followingArc } from './temperature-arc.ts'

/** One line of a logged run: air and metal at an instant, minutes from any start. */
export interface LoggedTemperature {
  readonly atMinutes: number
  readonly airC: number
  readonly metalC: number
}

export interface FittedTimeConstant {
  readonly tauMinutes: number
  /** How far the metal was off the fitted curve, root mean square, degC. */
  readonly residualC: number
  readonly readings: number
}

const SHORTEST_MINUTES = 0.05
const LONGEST_MINUTES = 1000
/** Less than this between air and metal says nothing of how fast one follows the other, degC. */
const LEAST_DIFFERENCE_C = 2

/**
 * Time constant of a panel from a logged run, least squares: the metal is computed from its first reading and
 * the logged air, and tau is chosen so that it runs closest to the logged metal.
 *
 * @throws RangeError for fewer than four lines, lines out of order, air that never differs from the metal by
 * 2 degC, or a run that no time constant from 0.05 to 1000 minutes explains best.
 */
export function fitTimeConstant(run: readonly LoggedTemperature[]): FittedTimeConstant {
  requireRun(run)
  const misfit = (lnTau: number): number => sumOfSquares(run, Math.exp(lnTau))
  const [lowest, highest] = [Math.log(SHORTEST_MINUTES), Math.log(LONGEST_MINUTES)]
  const steps = 120
  const at = (i: number): number => lowest + ((highest - lowest) * i) / steps
  let best = 0
  for (let i = 1; i <= steps; i++) if (misfit(at(i)) < misfit(at(best))) best = i
  if (best === 0 || best === steps) {
    throw new RangeError(
      `run fits best with a time constant at the edge of ${SHORTEST_MINUTES} to ${LONGEST_MINUTES} minutes: log air and metal together, until the metal has come near the air`,
    )
  }
  const lnTau = goldenSection(misfit, at(best - 1), at(best + 1))
  return {
    tauMinutes: Math.exp(lnTau),
    residualC: Math.sqrt(misfit(lnTau) / (run.length - 1)),
    readings: run.length,
  }
}

function requireRun(run: readonly LoggedTemperature[]): void {
  if (run.length < 4)
    throw new RangeError(`run has ${run.length} lines: log air and metal at four instants at least`)
  run.forEach(({ atMinutes, airC, metalC }, i) => {
    requireInRange(`run[${i}].airC`, airC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'check the logger')
    requireInRange(`run[${i}].metalC`, metalC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'check the logger')
    if (!Number.isFinite(atMinutes) || (i > 0 && atMinutes <= run[i - 1]!.atMinutes)) {
      throw new RangeError(`run[${i}].atMinutes is ${atMinutes}: give instants that rise from line to line`)
    }
  })
  if (!run.some(({ airC, metalC }) => Math.abs(airC - metalC) >= LEAST_DIFFERENCE_C)) {
    throw new RangeError(
      `run has air and metal within ${LEAST_DIFFERENCE_C} degC all along: log a panel while it warms up`,
    )
  }
}

function sumOfSquares(run: readonly LoggedTemperature[], tauMinutes: number): number {
  let sum = 0
  let metalC = run[0]!.metalC
  for (let i = 1; i < run.length; i++) {
    const [from, to] = [run[i - 1]!, run[i]!]
    const arc = followingArc(to.atMinutes - from.atMinutes, metalC, from.airC, to.airC, tauMinutes)
    metalC = arcC(arc, arc.minutes)
    sum += (metalC - to.metalC) ** 2
  }
  return sum
}

/** Lowest point of a function that falls and then rises on [a, b]. */
function goldenSection(f: (x: number) => number, a: number, b: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2
  let [low, high] = [a, b]
  let [x1, x2] = [high - ratio * (high - low), low + ratio * (high - low)]
  let [f1, f2] = [f(x1), f(x2)]
  while (high - low > 1e-10) {
    if (f1 < f2) {
      high = x2
      ;[x2, f2] = [x1, f1]
      x1 = high - ratio * (high - low)
      f1 = f(x1)
    } else {
      low = x1
      ;[x1, f1] = [x2, f2]
      x2 = low + ratio * (high - low)
      f2 = f(x2)
    }
  }
  return (low + high) / 2
}
