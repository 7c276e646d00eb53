/**
 * xoshiro128** (Blackman & Vigna 2018, "Scrambled linear pseudorandom number generators"), seeded by splitmix32:
 * the same stream of 32-bit integers on every machine.
 */
export class Random {
  private a: number
  private b: number
  private c: number
  private d: number

  constructor(seed: number) {
    let state = seed >>> 0
    const next = (): number => {
      state = (state + 0x9e3779b9) >>> 0
      let z = state
      z = Math.imul(z ^ (z >>> 16), 0x21f0aaad)
      z = Math.imul(z ^ (z >>> 15), 0x735a2d97)
      return (z ^ (z >>> 15)) >>> 0
    }
    this.a = next()
    this.b = next()
    this.c = next()
    this.d = next() | 1
  }

  /** Uniform in 0 .. 2^32 - 1. */
  bits(): number {
    const scaled = Math.imul(this.b, 5)
    const result = Math.imul((scaled << 7) | (scaled >>> 25), 9) >>> 0
    const t = this.b << 9
    this.c ^= this.a
    this.d ^= this.b
    this.b ^= this.c
    this.a ^= this.d
    this.c ^= t
    this.d = (this.d << 11) | (this.d >>> 21)
    return result
  }

  /** Uniform in 0 .. limit - 1. */
  below(limit: number): number {
    return Math.floor((this.bits() / 4294967296) * limit)
  }

  /** Uniform in [0, 1). */
  unit(): number {
    return this.bits() / 4294967296
  }

  shuffle(list: Int32Array | number[]): void {
    for (let i = list.length - 1; i > 0; i--) {
      const j = this.below(i + 1)
      const kept = list[i]!
      list[i] = list[j]!
      list[j] = kept
    }
  }
}
