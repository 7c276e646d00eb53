type Point = readonly [ms: number, c: number]

/** The lower edge of the hull of points in order of time: a further point can only pull it down. */
export function lowerEdge(points: readonly Point[]): (ms: number) => number {
  return along(hull(points, 1))
}

/** The upper edge: a further point can only push it up. */
export function upperEdge(points: readonly Point[]): (ms: number) => number {
  return along(hull(points, -1))
}

/** Monotone chain (Andrew, 1979), one side of it. */
function hull(points: readonly Point[], side: 1 | -1): readonly Point[] {
  const chain: Point[] = []
  for (const point of points) {
    while (chain.length >= 2) {
      const [a, b] = [chain.at(-2)!, chain.at(-1)!]
      const turn = (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])
      if (side * turn > 0) break
      chain.pop()
    }
    chain.push(point)
  }
  return chain
}

function along(points: readonly Point[]): (ms: number) => number {
  return (ms) => {
    const i = Math.max(
      1,
      points.findIndex(([at]) => at >= ms),
    )
    const [a, b] = [points[i - 1]!, points[i]!]
    return a[1] + ((b[1] - a[1]) * (ms - a[0])) / (b[0] - a[0])
  }
}
