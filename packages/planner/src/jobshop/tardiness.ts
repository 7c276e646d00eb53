/**
 * Weighted tardiness in the job shop: simulated annealing by swaps on the critical trees of late jobs. Any arc between
 * two operations on a machine that lies on a longest path to a late job's end may be turned round without a cycle
 * (Van Laarhoven, Aarts & Lenstra 1992, doi 10.1287/opre.40.1.113; for this objective Mati, Dauzere-Peres & Lahlou
 * 2011, doi 10.1016/j.ejor.2011.01.028). Every swap is weighed exactly.
 */
import type { Problem } from '../model/problem.ts'
import type { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import type { JobShop } from './instance.ts'
import { dispatchedSelection } from './relink.ts'
import { Selection } from './selection.ts'

export interface TardinessOutcome {
  readonly best: Selection
  readonly tardiness: number
  /** Sum over jobs of what each would be late alone. */
  readonly bound: number
}

interface Chain {
  readonly last: number
  readonly due: number
  readonly weight: number
}

/** Annealing rounds, the second from the best so far and half as hot. Colder starts were much worse (FT10 x 4). */
const rounds = 2

export function solveTardiness(
  problem: Problem,
  shop: JobShop,
  seed: number,
  budget: Budget,
  onImprovement: (best: Selection, tardiness: number) => void,
): TardinessOutcome {
  const random = new Random(seed)
  const chains = chainsOf(problem, shop)
  const now = dispatchedSelection(shop, random, 0)
  const best = new Selection(shop)
  best.copyFrom(now)
  const costOf = (): number => {
    let sum = 0
    for (const { last, due, weight } of chains) {
      const late = now.head[last]! + now.duration[last]! - due
      if (late > 0) sum += weight * late
    }
    return sum
  }
  let cost = costOf()
  let bestCost = cost
  const bound = aloneBound(shop, chains)
  onImprovement(best, bestCost)
  const scale = chains.reduce((sum, { weight }) => sum + weight, 0) / Math.max(1, chains.length)
  const longest = shop.choiceDuration.reduce((most, duration) => Math.max(most, duration), 1)
  let round = 0
  while (!budget.spent() && bestCost > bound) {
    budget.iterations++
    const spent = budget.progress() * rounds
    if (Math.floor(spent) > round) {
      round = Math.floor(spent)
      now.copyFrom(best)
      cost = bestCost
    }
    const hot = (10 * scale * longest) / (1 + round)
    const temperature = hot * 0.01 ** (spent - round)
    const i = pickArc(now, chains, random)
    if (i < 0) continue
    const p = now.previous[i]!
    swap(now, p, i)
    now.evaluateHeads()
    const after = costOf()
    if (after <= cost - temperature * Math.log(1 - random.unit())) {
      cost = after
      if (cost < bestCost) {
        bestCost = cost
        best.copyFrom(now)
        budget.improved(bestCost)
        onImprovement(best, bestCost)
      }
      continue
    }
    swap(now, i, p)
    now.evaluateHeads()
  }
  best.evaluate()
  return { best, tardiness: bestCost, bound }
}

/** The last operation, due date and weight of each chain. */
function chainsOf(problem: Problem, shop: JobShop): Chain[] {
  const jobs = new Map(problem.jobs.map((job) => [job.id, job]))
  return problem.tasks.flatMap((task, i) => {
    const job = jobs.get(task.jobId)!
    return shop.after[i] === shop.n && job.dueAt !== null
      ? [{ last: i, due: job.dueAt, weight: job.weight }]
      : []
  })
}

function aloneBound(shop: JobShop, chains: readonly Chain[]): number {
  const { n, before, release, choiceFrom, choiceDuration } = shop
  const end = (i: number): number =>
    i === n
      ? 0
      : Math.max(release[i]!, end(before[i]!)) +
        Math.min(...choiceDuration.subarray(choiceFrom[i]!, choiceFrom[i + 1]!))
  return chains.reduce((sum, { last, due, weight }) => sum + weight * Math.max(0, end(last) - due), 0)
}

/** An operation that waits for the one before it on its machine, on a longest path to a late job; -1 without one. */
function pickArc(now: Selection, chains: readonly Chain[], random: Random): number {
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
