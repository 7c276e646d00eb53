import { describe, expect, it } from 'vitest'
import { check } from '../check/check.ts'
import { defineProblem } from '../model/define-problem.ts'
import { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { solve } from '../solve.ts'
import { randomProblemAndShop, randomShop } from '../testing/random-shop.ts'
import { jacksonPreemptive, jobShopBound } from './bounds.ts'
import { asJobShop, type JobShop } from './instance.ts'
import { distance, dispatchedSelection, randomSelection, relink } from './relink.ts'
import { solveJobShop } from './solve.ts'

/** Least cost over all orders: each next operation of some chain on some machine, depth first. For tiny shops. */
function bruteForce(
  shop: JobShop,
  costOf: (ends: readonly number[]) => number = (ends) => Math.max(...ends),
): number {
  let best = Infinity
  const free = new Int32Array(shop.machines)
  const at = Array.from({ length: shop.n }, (_, i) => i).filter((i) => shop.before[i] === shop.n)
  const ready = at.map(() => 0)
  const visit = (): void => {
    const cost = costOf(ready)
    if (cost >= best) return
    if (at.every((i) => i === shop.n)) best = cost
    at.forEach((i, j) => {
      if (i === shop.n) return
      for (let c = shop.choiceFrom[i]!; c < shop.choiceFrom[i + 1]!; c++) {
        const m = shop.choiceMachine[c]!
        const kept = [free[m]!, ready[j]!] as const
        const end = Math.max(kept[0], kept[1], shop.release[i]!) + shop.choiceDuration[c]!
        free[m] = end
        ready[j] = end
        at[j] = shop.after[i]!
        visit()
        free[m] = kept[0]
        ready[j] = kept[1]
        at[j] = i
      }
    })
  }
  visit()
  return best
}

describe('job shop search', () => {
  it.each([false, true])('finds the optimum of small shops, flexible: %s', (isFlexible) => {
    for (let seed = 1; seed <= 12; seed++) {
      const shop = randomShop(seed, 3, isFlexible ? 2 : 3, { isFlexible })
      const optimum = bruteForce(shop)
      const outcome = solveJobShop(shop, seed, new Budget({ iterations: 4000 }, null, null), () => undefined)
      expect(outcome.best.makespan, `seed ${seed}`).toBe(optimum)
      expect(outcome.bound).toBeLessThanOrEqual(optimum)
    }
  })

  it('never mixes two orders into a cycle, and lies between them', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const random = new Random(seed)
      const shop = randomShop(seed, 8, 6, { isFlexible: seed % 2 === 0 })
      const a = randomSelection(shop, random)
      const b = dispatchedSelection(shop, random, 0.5)
      const child = relink(a, b, 0.5, random)
      expect(child.evaluate()).toBe(true)
      expect(relink(a, b, 0, random).makespan).toBe(a.makespan)
      expect(distance(a, a)).toBe(0)
      if (!shop.isFlexible) expect(distance(a, child) + distance(child, b)).toBe(distance(a, b))
    }
  })

  it('reaches a makespan never below its bound, and the same one again for the same seed', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const shop = randomShop(seed, 10, 5, { isFlexible: seed % 2 === 0 })
      const run = (): number =>
        solveJobShop(shop, seed, new Budget({ iterations: 3000 }, null, null), () => undefined).best.makespan
      const makespan = run()
      expect(makespan).toBeGreaterThanOrEqual(jobShopBound(shop))
      expect(run()).toBe(makespan)
    }
  })

  it('finds the least weighted tardiness of small shops, and leaves each plan to the checker', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const random = new Random(seed)
      const { problem, shop } = randomProblemAndShop(seed, 3, 3, { isFlexible: false })
      const jobs = problem.jobs.map((job) => ({
        ...job,
        dueAt: 10 + random.below(40),
        weight: 1 + random.below(4),
      }))
      const late = {
        ...problem,
        jobs,
        objective: { kind: 'weighted' as const, weights: { weightedTardiness: 2 } },
      }
      const tardiness = (ends: readonly number[]): number =>
        ends.reduce((sum, end, j) => sum + jobs[j]!.weight * Math.max(0, end - jobs[j]!.dueAt), 0)
      const result = solve(late, { seed, stop: { iterations: 6000 } })
      expect(result.engine).toBe('tardiness-annealing')
      expect(result.cost, `seed ${seed}`).toBe(2 * bruteForce(shop, tardiness))
      expect(check(late, result.plan)).toMatchObject({ feasible: true, values: result.values })
      expect(result.lowerBound).toBeLessThanOrEqual(result.cost)
    }
  })

  it('is only for job shops', () => {
    const input = {
      horizonMinutes: 10,
      resources: [{ id: 'm', capacity: 2 }],
      jobs: [{ id: 'j' }],
      tasks: [],
    }
    expect(asJobShop(defineProblem(input))).toBeNull()
  })
})

describe('jacksonPreemptive', () => {
  it('serves the longest tail first and interrupts for a longer one', () => {
    // From 0 serve A (tail 1), at 2 switch to B (tail 10) until 5, then A until 7: max(5 + 10, 7 + 1).
    expect(
      jacksonPreemptive([
        { head: 0, work: 4, tail: 1 },
        { head: 2, work: 3, tail: 10 },
      ]),
    ).toBe(15)
  })
})
