import type { Budget } from '../search/budget.ts'
import type { Random } from '../search/random.ts'
import type { Selection } from './selection.ts'

/** A job that can be late: its last operation, due date and weight. */
export interface DueChain {
  readonly last: number
  readonly due: number
  readonly weight: number
}

export function tardinessOf(selection: Selection, chains: readonly DueChain[]): number {
  let sum = 0
  for (const { last, due, weight } of chains) {
    const late = selection.head[last]! + selection.duration[last]! - due
    if (late > 0) sum += weight * late
  }
  return sum
}

/**
 * Simulated annealing of weighted tardiness by swaps on the critical trees of late jobs. Any arc between two operations
 * on a machine that lies on a longest path to a late job's end may be turned round without a cycle (Van Laarhoven,
 * Aarts & Lenstra 1992, doi 10.1287/opre.40.1.113; for this objective Mati, Dauzere-Peres & Lahlou 2011, doi
 * 10.1016/j.ejor.2011.01.028), unless operations take no time: then the cycle is noticed. Every swap is weighed exactly.
 */
export class TardinessAnnealing {
  // What a refused swap is undone from.
  private readonly head: Int32Array
  private readonly order: Int32Array
  private readonly position: Int32Array
  private readonly chains: readonly DueChain[]
  private readonly random: Random
  private readonly budget: Budget

  constructor(sample: Selection, chains: readonly DueChain[], random: Random, budget: Budget) {
    this.head = new Int32Array(sample.head.length)
    this.order = new Int32Array(sample.order.length)
    this.position = new Int32Array(sample.position.length)
    this.chains = chains
    this.random = random
    this.budget = budget
  }

  /**
   * Cools `now` from `hot` to `cold` within so many swaps, or faster where the budget ends sooner. Leaves the best found
   * in `best` and returns its cost. Stops at `bound`.
   */
  run(now: Selection, best: Selection, hot: number, cold: number, swaps: number, bound: number): number {
    const { random, budget, chains } = this
    let cost = tardinessOf(now, chains)
    let bestCost = cost
    best.copyFrom(now)
    this.keep(now)
    const begun = budget.progress()
    let temperature = hot
    for (let k = 0; k < swaps && bestCost > bound && !budget.spent(); k++) {
      budget.iterations++
      if (k % 64 === 0) {
        const left = (budget.progress() - begun) / (1 - begun)
        temperature = hot * (cold / hot) ** Math.max(k / swaps, left)
      }
      const i = pickArc(now, chains, random)
      if (i < 0) continue
      const p = now.previous[i]!
      swap(now, p, i)
      if (now.evaluateHeadsAfter(p, i)) {
        const after = tardinessOf(now, chains)
        if (after <= cost - temperature * Math.log(1 - random.unit())) {
          cost = after
          this.keep(now)
          if (cost < bestCost) {
            bestCost = cost
            best.copyFrom(now)
          }
          continue
        }
        now.head.set(this.head)
        now.order.set(this.order)
        now.position.set(this.position)
      }
      swap(now, i, p)
    }
    return bestCost
  }

  private keep(now: Selection): void {
    this.head.set(now.head)
    this.order.set(now.order)
    this.position.set(now.position)
  }
}

/** An operation that waits for the one before it on its machine, on a longest path to a late job; -1 without one. */
function pickArc(now: Selection, chains: readonly DueChain[], random: Random): number {
  const { n, before } = now.shop
  const { head, duration, previous } = now
  let at = -1
  let total = 0
  for (const { last, due, weight } of chains) {
    const late = weight * (head[last]! + duration[last]! - due)
    if (late <= 0) continue
    total += late
    if (random.unit() * total < late) at = last
  }
  let pick = -1
  let seen = 0
  while (at >= 0 && at !== n) {
    const p = before[at]!
    const m = previous[at]!
    const byJob = p !== n && head[p]! + duration[p]! === head[at]
    const byMachine = m !== n && head[m]! + duration[m]! === head[at]
    if (byMachine && m !== p && random.below(++seen) === 0) pick = at
    at = byMachine && (!byJob || random.below(2) === 0) ? m : byJob ? p : -1
  }
  return pick
}

/** Puts b before a, where a is right before b on their machine. */
function swap(now: Selection, a: number, b: number): void {
  const { n } = now.shop
  const { previous, next } = now
  const p = previous[a]!
  const s = next[b]!
  if (p !== n) next[p] = b
  previous[b] = p
  next[b] = a
  previous[a] = b
  next[a] = s
  if (s !== n) previous[s] = a
}
