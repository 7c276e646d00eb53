const STEPS = [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500]

/** Round figures from at or below `min` to at or above `max`, `most` steps of one size at most. */
export function roundTicks(min: number, max: number, most = 6): readonly number[] {
  const fits = (step: number) => Math.ceil(max / step) - Math.floor(min / step) <= most
  const step = STEPS.find(fits) ?? Math.ceil((max - min) / most)
  const [from, to] = [Math.floor(min / step), Math.ceil(max / step)]
  return Array.from({ length: to - from + 1 }, (_, i) => (from + i) * step)
}
