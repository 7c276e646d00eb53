import type { OvenWindow } from '../../api/types.ts'

type Point = OvenWindow['points'][number]

/** Rows that a person reads through; the drawing has many more points. */
const MOST_ROWS = 24

/** The points of the drawing for a table: evenly thinned, with both ends and both sides of each step of the air. */
export function figureRows(points: readonly Point[]): readonly Point[] {
  const every = Math.max(1, Math.ceil(points.length / MOST_ROWS))
  return points.filter((point, index) => {
    const isEnd = index === 0 || index === points.length - 1
    const isStep = [points[index - 1], points[index + 1]].some(
      (other) => other?.atMinutes === point.atMinutes,
    )
    return isEnd || isStep || index % every === 0
  })
}
