/** So that it is seen at all: at the zoom of a month an hour is less. */
export const LEAST_PX = 3
/** What a hand with a mouse takes hold of without aiming (WCAG 2.2, 2.5.8 asks for as much). */
const GRIP_PX = 24

/** Px on either side. */
export interface Reach {
  readonly left: number
  readonly right: number
}

/** Px from the start of the picture. */
export interface Drawn {
  readonly left: number
  readonly width: number
  readonly lane: number
}

const NONE: Reach = { left: 0, right: 0 }

/**
 * How far each bar may be taken hold of beside itself. A bar is drawn as wide as its time: drawn wider, a short one would lie
 * under the next or over it, and the mouse would take hold of the wrong one. So it reaches out into free space only, and
 * into half of that where another bar is beside it, which may be as short.
 *
 * @param bars Of one row, from left to right.
 */
export function reachesOf(bars: readonly Drawn[]): Reach[] {
  return bars.map(({ left, width, lane }, i) => {
    const missing = GRIP_PX - Math.max(LEAST_PX, width)
    if (missing <= 0) return NONE
    const before = bars.findLast((each, k) => k < i && each.lane === lane)
    const after = bars.find((each, k) => k > i && each.lane === lane)
    const free = (gapPx: number) => Math.max(0, Math.min(missing / 2, gapPx / 2))
    return {
      left: before ? free(left - before.left - before.width) : missing / 2,
      right: after ? free(after.left - left - width) : missing / 2,
    }
  })
}
