import { celsiusToKelvin } from '@clampclock/quantities'
import { gaussLegendre } from '../numerics/gauss.ts'
import { integrateArc } from './integrate.ts'
import { pieceAt, type RateCurve } from '../sheet/rate-curve.ts'
import { arcC, turningPoint, type TemperatureArc } from './temperature-arc.ts'

const RULE = gaussLegendre(10)

/**
 * As `integrateArc`, for the three curves of one sheet at once: they share the temperatures at the nodes. For arcs
 * inside one piece of the curves; any other goes the general way. Relative error about 1e-12.
 *
 * @param into receives the three integrals.
 */
export function integrateCurves(
  curves: readonly RateCurve[],
  arc: TemperatureArc,
  from: number,
  to: number,
  into: number[],
): void {
  const first = curves[0]!
  const [a, b] = [arcC(arc, from), arcC(arc, to)]
  const turn = turningPoint(arc, from, to)
  const c = turn === undefined ? a : arcC(arc, turn)
  const lowK = celsiusToKelvin(Math.min(a, b, c))
  const highK = celsiusToKelvin(Math.max(a, b, c))
  const piece = pieceAt(first, lowK)
  if (piece >= 0 && piece < first.slopeK.length && highK <= first.edgesK[piece + 1]!) {
    withinPiece(curves, piece, arc, from, to, into)
    return
  }
  // Wholly above or below all that is counted: the rate stays.
  for (let m = 0; m < curves.length; m++) into[m] = integrateArc(curves[m]!, arc, from, to)
}

function withinPiece(
  curves: readonly RateCurve[],
  piece: number,
  arc: TemperatureArc,
  from: number,
  to: number,
  into: number[],
): void {
  const [one, two, three] = [curves[0]!, curves[1]!, curves[2]!]
  const [f1, f2, f3] = [one.lnFactor[piece]!, two.lnFactor[piece]!, three.lnFactor[piece]!]
  const [s1, s2, s3] = [one.slopeK[piece]!, two.slopeK[piece]!, three.slopeK[piece]!]
  const steepest = Math.max(s1, s2, s3)
  const { nodes, weights } = RULE
  const perMinute = arc.minutes === 0 ? 0 : (arc.endC - arc.startC) / arc.minutes
  const base = celsiusToKelvin(arc.startC)
  let [sum1, sum2, sum3] = [0, 0, 0]
  for (let start = from; start < to;) {
    const end = Math.min(
      to,
      start + panelMinutes(steepest, arc, celsiusToKelvin(arcC(arc, start)), perMinute, start),
    )
    const half = (end - start) / 2
    const middle = (end + start) / 2
    for (let i = 0; i < nodes.length; i++) {
      const t = middle + half * nodes[i]!
      let k = base + perMinute * t
      if (arc.transientC !== 0) k += arc.transientC * Math.exp(-t / arc.tauMinutes)
      const weight = weights[i]! * half
      sum1 += weight * Math.exp(f1 - s1 / k)
      sum2 += weight * Math.exp(f2 - s2 / k)
      sum3 += weight * Math.exp(f3 - s3 / k)
    }
    start = end
  }
  into[0] = sum1
  into[1] = sum2
  into[2] = sum3
}

/** How far ten nodes are good for: by the share of ln(rate) that the transient and the line still change. */
function panelMinutes(slopeK: number, arc: TemperatureArc, k: number, perMinute: number, at: number): number {
  const perK = slopeK / (k * k)
  const transient =
    arc.transientC === 0 ? 0 : Math.abs(arc.transientC) * Math.exp(-at / arc.tauMinutes) * perK
  const line = Math.abs(perMinute) * perK
  const byTransient =
    transient > 2 ? 0.5 : transient > 0.2 ? 1 : transient > 1e-3 ? 2 : transient > 1e-13 ? 4 : Infinity
  return Math.min(byTransient * arc.tauMinutes, line > 0 ? 1.5 / line : Infinity)
}
