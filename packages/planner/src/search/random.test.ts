import { describe, expect, it } from 'vitest'
import { Random } from './random.ts'

describe('Random', () => {
  it('repeats its stream for a seed and differs between seeds', () => {
    const stream = (seed: number): number[] => {
      const random = new Random(seed)
      return Array.from({ length: 5 }, () => random.bits())
    }
    expect(stream(1)).toEqual(stream(1))
    expect(stream(1)).not.toEqual(stream(2))
  })

  it('draws every number below a limit about equally often', () => {
    const random = new Random(5)
    const counts = Array.from({ length: 10 }, () => 0)
    for (let k = 0; k < 20_000; k++) counts[random.below(10)]!++
    for (const count of counts) expect(Math.abs(count - 2000)).toBeLessThan(200)
  })

  it('shuffles without losing anything', () => {
    const list = Int32Array.from({ length: 50 }, (_, i) => i)
    new Random(3).shuffle(list)
    expect([...list].sort((a, b) => a - b)).toEqual(Array.from({ length: 50 }, (_, i) => i))
  })
})
