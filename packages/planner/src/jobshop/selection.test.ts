import { describe, expect, it } from 'vitest'
import { Random } from '../search/random.ts'
import { randomShop } from '../testing/random-shop.ts'
import { randomSelection } from './relink.ts'
import { Selection } from './selection.ts'

/** Moves u right behind v, or v right before u, wherever they stand on their machine. */
function move(now: Selection, u: number, v: number, isForward: boolean): void {
  const line: number[] = []
  let at = u
  while (now.previous[at] !== now.shop.n) at = now.previous[at]!
  for (; at !== now.shop.n; at = now.next[at]!) line.push(at)
  const [out, by] = isForward ? [u, v] : [v, u]
  line.splice(line.indexOf(out), 1)
  line.splice(line.indexOf(by) + (isForward ? 1 : 0), 0, out)
  line.forEach((i, k) => {
    now.previous[i] = line[k - 1] ?? now.shop.n
    now.next[i] = line[k + 1] ?? now.shop.n
  })
}

describe('Selection after a move', () => {
  it('has the heads, tails and makespan of an evaluation from scratch, and refuses every cycle', () => {
    let moves = 0
    let cycles = 0
    for (let seed = 1; seed <= 12; seed++) {
      const random = new Random(seed)
      // Durations from 0: what takes no time is where an order by time would not do.
      const shop = randomShop(seed, 6, 4, { isFlexible: false, leastWork: seed % 2 })
      const now = randomSelection(shop, random)
      const kept = new Selection(shop)
      const scratch = new Selection(shop)
      for (let step = 0; step < 60; step++) {
        const u = random.below(shop.n)
        let v = now.next[u]!
        while (v !== shop.n && now.next[v] !== shop.n && random.below(2) === 0) v = now.next[v]!
        if (v === shop.n) continue
        kept.copyFrom(now)
        move(now, u, v, random.below(2) === 0)
        scratch.copyFrom(now)
        const isSound = scratch.evaluate()
        expect(now.evaluateAfter(u, v)).toBe(isSound)
        if (isSound) {
          moves++
          for (const key of ['head', 'tail', 'makespan'] as const) expect(now[key]).toEqual(scratch[key])
          for (let i = 0; i < shop.n; i++) {
            expect(now.order[now.position[i]!]).toBe(i)
            for (const p of [shop.before[i]!, now.previous[i]!])
              if (p !== shop.n) expect(now.position[p]).toBeLessThan(now.position[i]!)
          }
        } else {
          cycles++
          for (const key of ['head', 'tail', 'order', 'position'] as const)
            expect(now[key]).toEqual(kept[key])
          now.copyFrom(kept)
        }
      }
    }
    expect(moves).toBeGreaterThan(100)
    expect(cycles).toBeGreaterThan(100)
  })
})
