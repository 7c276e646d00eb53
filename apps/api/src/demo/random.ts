/** Seeded numbers (mulberry32), so that the demo is the same on every machine but for the clock. */
export interface Random {
  readonly next: () => number
  /** A whole number from `min` up to and including `max`. */
  readonly whole: (min: number, max: number) => number
  readonly pick: <T>(items: readonly T[]) => T
}

export function seeded(seed: number): Random {
  let state = seed >>> 0
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }
  const whole = (min: number, max: number) => min + Math.floor(next() * (max - min + 1))
  return { next, whole, pick: (items) => items[whole(0, items.length - 1)]! }
}
