/** Half-open, in minutes. */
export type Interval = readonly [from: number, until: number]

/** Sorted, without overlap; those that touch are joined. */
export function union(intervals: readonly Interval[]): Interval[] {
  const joined: [number, number][] = []
  for (const [from, until] of intervals.filter(([a, b]) => a < b).toSorted((a, b) => a[0] - b[0])) {
    const last = joined.at(-1)
    if (last && from <= last[1]) last[1] = Math.max(last[1], until)
    else joined.push([from, until])
  }
  return joined
}

/** What of `from` lies in none of `taken`. */
export function without(from: readonly Interval[], taken: readonly Interval[]): Interval[] {
  let left = union(from)
  for (const [a, b] of union(taken))
    left = left.flatMap(([start, end]): Interval[] =>
      b <= start || end <= a
        ? [[start, end]]
        : (
            [
              [start, a],
              [b, end],
            ] satisfies Interval[]
          ).filter(([x, y]) => x < y),
    )
  return left
}

export function clip(intervals: readonly Interval[], [low, high]: Interval): Interval[] {
  return intervals
    .map(([from, until]): Interval => [Math.max(from, low), Math.min(until, high)])
    .filter(([from, until]) => from < until)
}
