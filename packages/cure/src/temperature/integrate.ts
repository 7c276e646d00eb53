import { celsiusToKelvin } from '@clampclock/quantities'
import { gaussLegendre, type GaussRule } from '../numerics/gauss.ts'
import { pieceAt, rateAtKelvin, type RateCurve } from '../sheet/rate-curve.ts'
import { arcC, arcK, crossingOf, turningPoint, type TemperatureArc } from './temperature-arc.ts'

/**
 * Rules by the half-width z of ln(rate) over a piece. For exp(z s) on [-1, 1] the error of an n-node rule is
 * below z^2n 2^(2n+1) (n!)^4 / ((2n+1) (2n)!^3) relative to the value; each bound keeps that under 1e-13 with
 * room for the curvature of 1/T. Wider pieces use the closed form.
 */
const RULES: readonly { readonly upTo: number; readonly rule: GaussRule }[] = [
  { upTo: 0.025, rule: gaussLegendre(3) },
  { upTo: 0.12, rule: gaussLegendre(4) },
  { upTo: 0.6, rule: gaussLegendre(6) },
  { upTo: 1.6, rule: gaussLegendre(9) },
]
const TRANSIENT_RULE = gaussLegendre(10)

/**
 * Progress over part of an arc: the integral of the rate from `from` to `to` minutes into it, a fraction of
 * the curve's milestone. Relative error about 1e-12 (checked in integrate.test.ts against a fine composite
 * rule).
 */
export function integrateArc(curve: RateCurve, arc: TemperatureArc, from: number, to: number): number {
  if (!(to > from)) return 0
  if (arc.transientC === 0) return integrateLine(curve, arcK(arc, from), arcK(arc, to), to - from)
  const turn = turningPoint(arc, from, to)
  if (turn === undefined) return integrateMonotone(curve, arc, from, to)
  return integrateMonotone(curve, arc, from, turn) + integrateMonotone(curve, arc, turn, to)
}

/**
 * As `integrateArc`, for the three curves of one sheet at once, along a short straight line inside one piece:
 * they share their edges, and the rate changes so little that a short series about its value half way does.
 * Progress goes into `into[offset]`, `into[offset + step]` and `into[offset + 2 * step]`.
 *
 * @param curves the three of one sheet.
 * @param anchor of the line's own last step; a new one is left in it. Start with `noAnchor()`.
 * @returns false, with nothing written, for a longer line or one that leaves its piece: then `integrateArc`
 * it is.
 */
export function integrateStraight(
  curves: readonly RateCurve[],
  aK: number,
  bK: number,
  minutes: number,
  into: number[],
  offset: number,
  step: number,
  anchor: AnchorRates,
): boolean {
  const lowK = aK < bK ? aK : bK
  const highK = aK < bK ? bK : aK
  const one = curves[0]!
  const two = curves[1]!
  const three = curves[2]!
  const piece = pieceAt(one, lowK)
  if (piece < 0 || piece >= one.slopeK.length || highK > one.edgesK[piece + 1]!) return false
  const slope1 = one.slopeK[piece]!
  const slope2 = two.slopeK[piece]!
  const slope3 = three.slopeK[piece]!
  const steepest = Math.max(slope1, slope2, slope3)
  const middle = (highK + lowK) / 2
  // One division serves all three: a week of readings comes by here six thousand times.
  const perMiddle = 1 / middle
  const e = 0.5 * (highK - lowK) * perMiddle
  const steep = e * perMiddle
  if (e > 0.003 || steepest * steep > 0.1) return false
  const anchorK = Math.round(middle)
  if (anchor.piece !== piece || anchor.anchorK !== anchorK) anchorAt(anchor, curves, piece, anchorK)
  const away = (middle - anchorK) * perMiddle * anchor.perAnchorK
  if (steepest * Math.abs(away) > 0.1) return false
  into[offset] = minutes * anchor.rate1 * shortExp(slope1 * away) * meanRatio(slope1 * steep, e)
  into[offset + step] = minutes * anchor.rate2 * shortExp(slope2 * away) * meanRatio(slope2 * steep, e)
  into[offset + 2 * step] = minutes * anchor.rate3 * shortExp(slope3 * away) * meanRatio(slope3 * steep, e)
  return true
}

/**
 * Rates at a whole kelvin, from which those within half a kelvin follow by a short series, at a fraction of the
 * cost of an exponential. Which kelvin follows from the temperature alone, so that a history gives the same
 * to the last bit however it is split.
 */
export interface AnchorRates {
  piece: number
  anchorK: number
  perAnchorK: number
  rate1: number
  rate2: number
  rate3: number
}

export function noAnchor(): AnchorRates {
  return { piece: -1, anchorK: 0, perAnchorK: 0, rate1: 0, rate2: 0, rate3: 0 }
}

function anchorAt(anchor: AnchorRates, curves: readonly RateCurve[], piece: number, anchorK: number): void {
  const rate = (curve: RateCurve): number => Math.exp(curve.lnFactor[piece]! - curve.slopeK[piece]! / anchorK)
  anchor.piece = piece
  anchor.anchorK = anchorK
  anchor.perAnchorK = 1 / anchorK
  anchor.rate1 = rate(curves[0]!)
  anchor.rate2 = rate(curves[1]!)
  anchor.rate3 = rate(curves[2]!)
}

/** exp(x) for |x| up to 0.1 by its series; the first term left out is below 3e-15. */
function shortExp(x: number): number {
  const tail = 1 / 24 + x * (1 / 120 + x * (1 / 720 + x * (1 / 5040 + x * (1 / 40_320))))
  return 1 + x * (1 + x * (0.5 + x * (1 / 6 + x * tail)))
}

/**
 * Mean of exp(-slope/T) over a line from m (1 - e) to m (1 + e), as a multiple of its value at m; z = slope e
 * / m. The exponent is z (s - e s^2 + e^2 s^3 - ...) for s from -1 to 1; this is the mean of its exponential
 * series, term by term (s^2, s^4, ... have the means 1/3, 1/5, ...). What is left out is below 1e-13 for z to
 * 0.1 and e to 0.003.
 */
function meanRatio(z: number, e: number): number {
  const zz = z * z
  const sinh = 1 + zz * (1 / 6 + zz * (1 / 120 + zz * (1 / 5040 + zz * (1 / 362_880))))
  const first = e * z * (1 / 3 + zz * (1 / 10 + zz * (1 / 168 + zz * (1 / 6480))))
  const second = e * e * zz * (3 / 10 + zz * (10 / 168))
  const third = e * e * e * (z * (1 / 5 + zz * (5 / 21)) - e * zz * (5 / 14))
  return sinh - first + second - third
}

/** Twice the mean rate between two temperatures of a piece. */
function weightedRates(
  curve: RateCurve,
  piece: number,
  lowK: number,
  highK: number,
  rule: GaussRule,
): number {
  const { nodes, weights } = rule
  const slope = curve.slopeK[piece]!
  const factor = curve.lnFactor[piece]!
  const half = (highK - lowK) / 2
  const middle = (highK + lowK) / 2
  let sum = 0
  for (let i = 0; i < nodes.length; i++)
    sum += weights[i]! * Math.exp(factor - slope / (middle + half * nodes[i]!))
  return sum
}

/**
 * The cheapest rule that is good to 1e-13 between two temperatures of a piece; undefined where the closed
 * form is due.
 */
function ruleFor(slope: number, lowK: number, highK: number): GaussRule | undefined {
  const z = (slope * (highK - lowK)) / (2 * lowK * highK)
  for (let i = 0; i < RULES.length; i++) if (z <= RULES[i]!.upTo) return RULES[i]!.rule
  return undefined
}

/**
 * Integral of the rate over `minutes` during which the temperature goes linearly from `aK` to `bK`, kelvin.
 */
export function integrateLine(curve: RateCurve, aK: number, bK: number, minutes: number): number {
  if (aK === bK) return minutes * rateAtKelvin(curve, aK)
  const [lowK, highK] = aK < bK ? [aK, bK] : [bK, aK]
  const first = pieceAt(curve, lowK)
  const last = pieceAt(curve, highK)
  const minutesPerK = minutes / (highK - lowK)
  if (first === last) return minutesPerK * integrateOverPiece(curve, first, lowK, highK)
  let sum = 0
  for (let piece = first; piece <= last; piece++) {
    const from = piece < 0 ? lowK : Math.max(lowK, curve.edgesK[piece]!)
    const to = piece === curve.slopeK.length ? highK : Math.min(highK, curve.edgesK[piece + 1]!)
    sum += integrateOverPiece(curve, piece, from, to)
  }
  return minutesPerK * sum
}

/** Integral of the rate over temperature inside one piece, K/min. */
function integrateOverPiece(curve: RateCurve, piece: number, lowK: number, highK: number): number {
  if (piece < 0 || !(highK > lowK)) return 0
  if (piece >= curve.slopeK.length) return (highK - lowK) * rateAtKelvin(curve, highK)
  const slope = curve.slopeK[piece]!
  const base = curve.lnFactor[piece]!
  const rule = ruleFor(slope, lowK, highK)
  if (rule !== undefined) return ((highK - lowK) / 2) * weightedRates(curve, piece, lowK, highK, rule)
  return arrheniusPrimitive(base, slope, highK) - arrheniusPrimitive(base, slope, lowK)
}

/**
 * Primitive over T of exp(base - slope/T): T exp(base) E2(slope/T), where E2 is the exponential integral,
 * here by its continued fraction (Abramowitz and Stegun 5.1.22). Only called where z > 1.6, so slope/T is
 * well above 1.
 */
function arrheniusPrimitive(base: number, slope: number, k: number): number {
  const x = slope / k
  // Modified Lentz method for E_2(x) = exp(-x) / (x + 2 - 1*2 / (x + 4 - 2*3 / (x + 6 - ...))).
  let b = x + 2
  let c = 1e300
  let d = 1 / b
  let fraction = d
  for (let i = 1; i < 500; i++) {
    const numerator = -i * (i + 1)
    b += 2
    d = 1 / (numerator * d + b)
    c = b + numerator / c
    const factor = c * d
    fraction *= factor
    if (Math.abs(factor - 1) < 1e-16) break
  }
  return k * Math.exp(base - x) * fraction
}

/** An arc with a transient, on a part where it only rises or only falls: split where the curve has edges. */
function integrateMonotone(curve: RateCurve, arc: TemperatureArc, from: number, to: number): number {
  const [a, b] = [arcC(arc, from), arcC(arc, to)]
  const first = pieceAt(curve, celsiusToKelvin(a))
  const last = pieceAt(curve, celsiusToKelvin(b))
  const step = first <= last ? 1 : -1
  let sum = 0
  let start = from
  for (let piece = first; piece !== last; piece += step) {
    // A sheet whose one point is as far as it is counted has a piece of no width.
    if (curve.edgesK[piece] === curve.edgesK[piece + 1]) continue
    const edgeC = curve.edgesK[step > 0 ? piece + 1 : piece]! - 273.15
    const end = Math.min(Math.max(crossingOf(arc, start, to, edgeC), start), to)
    sum += integrateTransient(curve, piece, arc, start, end)
    start = end
  }
  return sum + integrateTransient(curve, last, arc, start, to)
}

/** Panels short enough that ten nodes give 1e-13 for an exponential inside an exponential. */
function integrateTransient(
  curve: RateCurve,
  piece: number,
  arc: TemperatureArc,
  from: number,
  to: number,
): number {
  if (piece < 0 || !(to > from)) return 0
  if (piece >= curve.slopeK.length) return (to - from) * rateAtKelvin(curve, curve.edgesK.at(-1)!)
  const slope = curve.slopeK[piece]!
  const base = curve.lnFactor[piece]!
  let sum = 0
  for (let start = from; start < to;) {
    const end = Math.min(to, start + panelMinutes(slope, arc, start))
    const half = (end - start) / 2
    const middle = (end + start) / 2
    let panel = 0
    for (let i = 0; i < TRANSIENT_RULE.nodes.length; i++) {
      panel +=
        TRANSIENT_RULE.weights[i]! *
        Math.exp(base - slope / arcK(arc, middle + half * TRANSIENT_RULE.nodes[i]!))
    }
    sum += half * panel
    start = end
  }
  return sum
}

function panelMinutes(slopeK: number, arc: TemperatureArc, at: number): number {
  const k = arcK(arc, at)
  const perK = slopeK / (k * k)
  const transient = Math.abs(arc.transientC) * Math.exp(-at / arc.tauMinutes) * perK
  const line = (Math.abs(arc.endC - arc.startC) / arc.minutes) * perK
  const byTransient =
    transient > 2 ? 0.5 : transient > 0.2 ? 1 : transient > 1e-3 ? 2 : transient > 1e-13 ? 4 : Infinity
  return Math.min(byTransient * arc.tauMinutes, line > 0 ? 1.5 / line : Infinity)
}

/**
 * The instant, in minutes into the arc, at which the integral from `from` reaches `amount`; `to` when it
 * never does. Newton's method on the exact integral, kept inside a bracket; good to far less than a second.
 */
export function minutesToReach(
  curve: RateCurve,
  arc: TemperatureArc,
  from: number,
  to: number,
  amount: number,
): number {
  if (amount <= 0) return from
  let [low, high] = [from, to]
  let known = from
  let knownValue = 0
  let t = Math.min(to, from + amount / Math.max(rateAtKelvin(curve, arcK(arc, from)), Number.MIN_VALUE))
  for (let step = 0; step < 100; step++) {
    if (!(t > low && t < high)) t = (low + high) / 2
    knownValue += t >= known ? integrateArc(curve, arc, known, t) : -integrateArc(curve, arc, t, known)
    known = t
    const miss = amount - knownValue
    if (miss > 0) low = t
    else high = t
    const rate = rateAtKelvin(curve, arcK(arc, t))
    const next = rate > 0 ? t + miss / rate : (low + high) / 2
    if (high - low < 1e-7 || Math.abs(next - t) < 1e-8) return Math.min(Math.max(next, low), high)
    t = next
  }
  return high
}
