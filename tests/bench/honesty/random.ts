/** Numbers in [0, 1) from a seed (mulberry32, T. Ettinger, public domain, from memory). */
export type Random = () => number

export function randomFrom(seed: number): Random {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }
}

export const between = (random: Random, min: number, max: number): number => min + (max - min) * random()

/** Spread evenly over its logarithm. */
export const logBetween = (random: Random, min: number, max: number): number => min * (max / min) ** random()
