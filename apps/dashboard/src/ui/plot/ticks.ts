const STEPS = [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500]

/** Round figures from at or below `min` to at or above `max`, `most` steps of one size at most. */
export function roundTicks(min: number, max: number, most = 6): readonly number[] {
  const fits = (step: number) => Math.ceil(max / step) - Math.floor(min / step) <= most
  const step = STEPS.find(fits) ?? Math.ceil((max - min) / most)
  const [from, to] = [Math.floor(min / step), Math.ceil(max / step)]
  return Array.from({ length: to - from + 1 }, (_, i) => (from + i) * step)
}

/** What one character of a label takes at most, px, and what must stay free between two labels. */
const CHARACTER_PX = 8
const GAP_PX = 14

/** Which ticks of an axis carry their label: every one, or every second and so on, so that none lies on another. */
export function labelEvery(labels: readonly string[], widthPx: number): number {
  const longest = Math.max(1, ...labels.map(({ length }) => length)) * CHARACTER_PX + GAP_PX
  return Math.max(1, Math.ceil((labels.length * longest) / Math.max(widthPx, longest)))
}
