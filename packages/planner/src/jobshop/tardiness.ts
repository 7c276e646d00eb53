import type { Problem } from '../model/problem.ts'
import type { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { TardinessAnnealing, tardinessOf, type DueChain } from './annealing.ts'
import type { JobShop } from './instance.ts'
import { searchPopulation } from './population.ts'
import { dispatchedSelection } from './relink.ts'
import { Selection } from './selection.ts'

export interface TardinessOutcome {
  readonly best: Selection
  readonly tardiness: number
  /** Sum over jobs of what each would be late alone. */
  readonly bound: number
}

/** Temperatures as multiples of the mean weight x the longest operation: start, start of a mix, end. */
const hot = 5
const warm = 1
const cold = 0.2
/** Swaps for each operation in one cooling of a new member, and of a mix. */
const longCooling = 1000
const shortCooling = 500

/**
 * Weighted tardiness in the job shop: a population of annealed plans, and annealing again of points between them, from
 * less heat.
 */
export function solveTardiness(
  problem: Problem,
  shop: JobShop,
  seed: number,
  budget: Budget,
  onImprovement: (best: Selection, tardiness: number) => void,
): TardinessOutcome {
  const random = new Random(seed)
  const chains = dueChainsOf(problem, shop)
  const bound = aloneBound(shop, chains)
  const best = dispatchedSelection(shop, random, 0)
  let bestCost = tardinessOf(best, chains)
  onImprovement(best, bestCost)
  const annealing = new TardinessAnnealing(best, chains, random, budget)
  const scale = chains.reduce((sum, { weight }) => sum + weight, 0) / Math.max(1, chains.length)
  const unit = scale * shop.choiceDuration.reduce((most, duration) => Math.max(most, duration), 1)
  searchPopulation(
    shop,
    random,
    () => bestCost <= bound || budget.spent(),
    (start, isMix) => {
      const selection = new Selection(shop)
      const swaps = (isMix ? shortCooling : longCooling) * shop.n
      const cost = annealing.run(start, selection, unit * (isMix ? warm : hot), unit * cold, swaps, bound)
      if (cost < bestCost) {
        bestCost = cost
        best.copyFrom(selection)
        budget.improved(cost)
        onImprovement(best, cost)
      }
      return { selection, cost }
    },
  )
  best.evaluate()
  return { best, tardiness: bestCost, bound }
}

/** The last operation, due date and weight of each chain. */
function dueChainsOf(problem: Problem, shop: JobShop): DueChain[] {
  const jobs = new Map(problem.jobs.map((job) => [job.id, job]))
  return problem.tasks.flatMap((task, i) => {
    const job = jobs.get(task.jobId)!
    return shop.after[i] === shop.n && job.dueAt !== null
      ? [{ last: i, due: job.dueAt, weight: job.weight }]
      : []
  })
}

function aloneBound(shop: JobShop, chains: readonly DueChain[]): number {
  const { n, before, release, choiceFrom, choiceDuration } = shop
  const end = (i: number): number =>
    i === n
      ? 0
      : Math.max(release[i]!, end(before[i]!)) +
        Math.min(...choiceDuration.subarray(choiceFrom[i]!, choiceFrom[i + 1]!))
  return chains.reduce((sum, { last, due, weight }) => sum + weight * Math.max(0, end(last) - due), 0)
}
