import { requireInRange, requireNotNegative } from '@clampclock/quantities'

/** Strength at a stage of cure, as a data sheet's strength table has it. */
export interface StrengthPoint {
  /** Time at the sheet's temperature over its full-cure time: progress towards full cure. */
  readonly fullCureProgress: number
  /** Share of full strength, 0 to 1. */
  readonly strengthShare: number
}

/**
 * Share of full strength at a stage of cure, **for drawing only**: no gate may ask it, since handling
 * strength is what the sheet says it is. From nothing at the start through every point to the last, never
 * falling and never beyond its neighbours (cubic pieces with slopes limited after Fritsch and Carlson, SIAM
 * J. Numer. Anal. 17 (1980) 238-246).
 *
 * @throws RangeError for no points, points out of order, strength that falls, or progress below zero.
 */
export function strengthShare(points: readonly StrengthPoint[], fullCureProgress: number): number {
  const knots = requireKnots(points)
  requireNotNegative('fullCureProgress', fullCureProgress, 'parts of one', 'see estimateBond')
  const last = knots.at(-1)!
  if (fullCureProgress >= last.fullCureProgress) return last.strengthShare
  const i = knots.findLastIndex((knot) => knot.fullCureProgress <= fullCureProgress)
  const [from, to] = [knots[i]!, knots[i + 1]!]
  const width = to.fullCureProgress - from.fullCureProgress
  const s = (fullCureProgress - from.fullCureProgress) / width
  const [m0, m1] = [slopeAt(knots, i) * width, slopeAt(knots, i + 1) * width]
  const rise = to.strengthShare - from.strengthShare
  // Cubic Hermite piece, written from the lower knot so that it cannot leave the two by rounding at s = 0.
  return from.strengthShare + s * (m0 + s * (3 * rise - 2 * m0 - m1 + s * (m0 + m1 - 2 * rise)))
}

function requireKnots(points: readonly StrengthPoint[]): readonly StrengthPoint[] {
  if (points.length === 0)
    throw new RangeError('points is empty: give at least one strength from the data sheet')
  let before: StrengthPoint = { fullCureProgress: 0, strengthShare: 0 }
  const knots = [before]
  points.forEach((point, i) => {
    const field = `points[${i}]`
    requireInRange(
      `${field}.strengthShare`,
      point.strengthShare,
      { min: 0, max: 1 },
      'parts of one',
      'give 0.5 for 50 %',
    )
    if (!Number.isFinite(point.fullCureProgress) || point.fullCureProgress <= before.fullCureProgress) {
      throw new RangeError(
        `${field}.fullCureProgress is ${point.fullCureProgress}: give stages that rise, above zero`,
      )
    }
    if (point.strengthShare < before.strengthShare) {
      throw new RangeError(
        `${field}.strengthShare is ${point.strengthShare}, less than before: check the table`,
      )
    }
    knots.push(point)
    before = point
  })
  return knots
}

/** Harmonic mean of the slopes on both sides; flat at both ends of the curve. */
function slopeAt(knots: readonly StrengthPoint[], i: number): number {
  if (i === 0 || i === knots.length - 1) return 0
  const slope = (a: StrengthPoint, b: StrengthPoint): number =>
    (b.strengthShare - a.strengthShare) / (b.fullCureProgress - a.fullCureProgress)
  const [left, right] = [slope(knots[i - 1]!, knots[i]!), slope(knots[i]!, knots[i + 1]!)]
  return left === 0 || right === 0 ? 0 : (2 * left * right) / (left + right)
}
