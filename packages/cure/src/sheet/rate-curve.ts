import { celsiusToKelvin, ZERO_CELSIUS_K } from '@clampclock/quantities'
import { activationSlopesK } from './activation-range.ts'
import { byTemperature, dataSheetFaults, sheetMinutes, type DataSheet, type Milestone } from './data-sheet.ts'

/** Where a rate comes from, strongest first. */
export type Basis = 'dataSheet' | 'interpolated' | 'extrapolated' | 'estimated'

const WEAKNESS: Readonly<Record<Basis, number>> = {
  dataSheet: 0,
  interpolated: 1,
  extrapolated: 2,
  estimated: 3,
}

/** Of two bases the one that deserves less trust. */
export function weakerBasis(a: Basis, b: Basis): Basis {
  return WEAKNESS[a] >= WEAKNESS[b] ? a : b
}

/** Rise that doubles the speed of cure where the sheet says nothing of it, K. Common practice, no source. */
const DOUBLING_STEP_K = 10

/**
 * Rate of cure over temperature for one milestone: 1/minutes, plain data, so it can be stored and sent.
 *
 * Piece i holds between `edgesK[i]` and `edgesK[i + 1]`, where rate = exp(lnRate[i] + slopeK[i] (1/edgesK[i]
 * - 1/T)): the Arrhenius form with slope E/R. Below the first edge nothing cures; above the last the rate
 * stays what it is there.
 */
export interface RateCurve {
  readonly milestone: Milestone
  readonly edgesK: readonly number[]
  readonly lnRate: readonly number[]
  readonly slopeK: readonly number[]
  /** lnRate + slopeK / edgeK: what is left of ln(rate) at 1/T = 0. */
  readonly lnFactor: readonly number[]
  /** Published temperatures, cold to warm, degC. */
  readonly sheetC: readonly number[]
}

/**
 * What is made of the sheet where it is silent: the best guess, as slow as it may be (for moving a job) or as fast
 * as it may be (for work time).
 */
export type RateSide = 'careful' | 'expected' | 'hasty'

/**
 * The curve of one milestone through every published point: between points ln t is linear in 1/T (Arrhenius),
 * outside them the nearest segment goes on, and with one point the slope is that of the doubling rule at that
 * temperature, d ln(rate)/dT = ln 2 / 10 K. An Arrhenius curve with that slope is never faster than the
 * doubling rule, on either side of the point. The careful side gives no credit above the hottest published point
 * and takes the steepest slope of the chemistry below the coldest; the hasty side does the opposite.
 *
 * @throws RangeError listing every fault of the sheet.
 */
export function rateCurve(sheet: DataSheet, milestone: Milestone, side: RateSide = 'expected'): RateCurve {
  const faults = dataSheetFaults(sheet)
  if (faults.length > 0) throw new RangeError(faults.map((fault) => fault.message).join('; '))
  const points = byTemperature(sheet.points)
  const kelvin = points.map((point) => celsiusToKelvin(point.temperatureC))
  const lnRates = points.map((point) => -Math.log(sheetMinutes(point, milestone)))
  const slopes = segmentSlopes(kelvin, lnRates)
  const beyond = slopesBeyond(sheet, slopes, side)
  const pieces: Piece[] = slopes.map((slope, i) => ({
    edgeK: kelvin[i]!,
    lnRate: lnRates[i]!,
    slopeK: points.length === 1 ? beyond.above : slope,
  }))
  const lowestK = celsiusToKelvin(sheet.lowestCureC)
  const lastPublishedK = kelvin.at(-1)!
  const highestK = side === 'careful' ? lastPublishedK : celsiusToKelvin(sheet.highestCureC)
  const coldest = { ...pieces[0]!, slopeK: beyond.below }
  if (lowestK < coldest.edgeK)
    pieces.unshift({ ...coldest, edgeK: lowestK, lnRate: lnRateOn(coldest, lowestK) })
  if (highestK > lastPublishedK && points.length > 1) {
    pieces.push({ edgeK: lastPublishedK, lnRate: lnRates.at(-1)!, slopeK: beyond.above })
  }
  return {
    milestone,
    edgesK: [...pieces.map((piece) => piece.edgeK), highestK],
    lnRate: pieces.map((piece) => piece.lnRate),
    slopeK: pieces.map((piece) => piece.slopeK),
    lnFactor: pieces.map((piece) => piece.lnRate + piece.slopeK / piece.edgeK),
    sheetC: points.map((point) => point.temperatureC),
  }
}

/**
 * Slopes below the coldest and above the hottest published point. Nobody has measured there: the careful side is
 * slower than either the sheet's own slope or any of the chemistry, the hasty side faster.
 */
function slopesBeyond(
  sheet: DataSheet,
  slopes: readonly number[],
  side: RateSide,
): { readonly below: number; readonly above: number } {
  const [first, last] = [slopes[0]!, slopes.at(-1)!]
  if (side === 'expected') return { below: first, above: last }
  const range = activationSlopesK(sheet.chemistry)
  return side === 'careful'
    ? { below: Math.max(first, range.max), above: Math.min(last, range.min) }
    : { below: Math.min(first, range.min), above: Math.max(last, range.max) }
}

interface Piece {
  readonly edgeK: number
  readonly lnRate: number
  readonly slopeK: number
}

const lnRateOn = (piece: Piece, k: number): number => piece.lnRate + piece.slopeK * (1 / piece.edgeK - 1 / k)

function segmentSlopes(kelvin: readonly number[], lnRates: readonly number[]): readonly number[] {
  const first = kelvin[0]!
  if (kelvin.length === 1) return [(first * first * Math.LN2) / DOUBLING_STEP_K]
  return kelvin.slice(1).map((k, i) => (lnRates[i + 1]! - lnRates[i]!) / (1 / kelvin[i]! - 1 / k))
}

/**
 * Index of the piece that holds at `k`: -1 below the lowest cure temperature, the number of pieces above the
 * highest.
 */
export function pieceAt(curve: RateCurve, k: number): number {
  const { edgesK } = curve
  if (!(k >= edgesK[0]!)) return -1
  const last = edgesK.length - 1
  if (k > edgesK[last]!) return last
  let i = 0
  while (i < last - 1 && k >= edgesK[i + 1]!) i++
  return i
}

/** Rate at a temperature in kelvin, 1/min. Never negative, never falls as `k` rises. */
export function rateAtKelvin(curve: RateCurve, k: number): number {
  const i = pieceAt(curve, k)
  if (i < 0) return 0
  const last = curve.slopeK.length - 1
  const piece = Math.min(i, last)
  const at = i > last ? curve.edgesK[last + 1]! : k
  return Math.exp(curve.lnRate[piece]! + curve.slopeK[piece]! * (1 / curve.edgesK[piece]! - 1 / at))
}

/** Rate at a temperature in degC, 1/min. */
export function rateAt(curve: RateCurve, temperatureC: number): number {
  return rateAtKelvin(curve, celsiusToKelvin(temperatureC))
}

/** Basis of the rates over a range of temperatures that contributed, degC. */
export function basisOver(curve: RateCurve, coldestC: number, warmestC: number): Basis {
  const { sheetC } = curve
  const cold = clampToCure(curve, coldestC)
  const warm = clampToCure(curve, warmestC)
  const isPublished = (c: number): boolean => sheetC.some((point) => Math.abs(point - c) < 1e-9)
  if (isPublished(cold) && Math.abs(warm - cold) < 1e-9) return 'dataSheet'
  if (sheetC.length === 1) return 'estimated'
  return cold < sheetC[0]! - 1e-9 || warm > sheetC.at(-1)! + 1e-9 ? 'extrapolated' : 'interpolated'
}

function clampToCure(curve: RateCurve, c: number): number {
  const lowest = curve.edgesK[0]! - ZERO_CELSIUS_K
  const highest = curve.edgesK.at(-1)! - ZERO_CELSIUS_K
  return Math.min(Math.max(c, lowest), highest)
}

/** Time to a milestone at a temperature that stays, and how the figure was obtained. */
export interface TimeAtTemperature {
  /** Infinity when stalled. */
  readonly minutes: number
  readonly basis: Basis
  /** Colder than the lowest cure temperature: nothing happens. */
  readonly stalled: boolean
  /** Warmer than the highest cure temperature: counted as if at it. */
  readonly capped: boolean
}

/**
 * Time to the curve's milestone at a constant temperature, degC.
 *
 * @throws RangeError when `temperatureC` is not a finite number.
 */
export function timeAtTemperature(curve: RateCurve, temperatureC: number): TimeAtTemperature {
  if (!Number.isFinite(temperatureC))
    throw new RangeError(`temperatureC is ${temperatureC}: give a temperature in degC`)
  const k = celsiusToKelvin(temperatureC)
  const rate = rateAtKelvin(curve, k)
  return {
    minutes: rate === 0 ? Infinity : 1 / rate,
    basis: basisOver(curve, temperatureC, temperatureC),
    stalled: k < curve.edgesK[0]!,
    capped: k > curve.edgesK.at(-1)!,
  }
}
