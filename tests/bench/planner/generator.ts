/** mulberry32: small, seeded, good enough to draw instances. */
export function generator(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), state | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/** Whole numbers from low to high, both included. */
export const wholeNumbers =
  (draw: () => number): ((low: number, high: number) => number) =>
  (low, high) =>
    low + Math.floor(draw() * (high - low + 1))
