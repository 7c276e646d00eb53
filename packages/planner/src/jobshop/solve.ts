import type { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { jobShopBound } from './bounds.ts'
import { FlexibleTabu } from './flexible-tabu.ts'
import type { JobShop } from './instance.ts'
import { searchPopulation } from './population.ts'
import { dispatchedSelection } from './relink.ts'
import { Selection } from './selection.ts'
import { BlockTabu } from './tabu.ts'

export interface JobShopOutcome {
  readonly best: Selection
  readonly bound: number
  /** Proved, by the bound or by a critical path that no order can shorten. */
  readonly isOptimal: boolean
}

/** Least makespan: tabu search with path relinking. */
export function solveJobShop(
  shop: JobShop,
  seed: number,
  budget: Budget,
  onImprovement: (best: Selection) => void,
): JobShopOutcome {
  const random = new Random(seed)
  const bound = jobShopBound(shop)
  const best = dispatchedSelection(shop, random, 0)
  const tabu = shop.isFlexible ? new FlexibleTabu(best, random, budget) : new BlockTabu(best, random, budget)
  // FT10, ORB01 and ABZ5 took half the moves to their optima with 2,000 that they took with 6,000.
  const cutoff = shop.isFlexible ? 400 : Math.min(6000, 20 * shop.n)
  onImprovement(best)
  let isOptimal = best.makespan <= bound
  searchPopulation(
    shop,
    random,
    () => isOptimal || budget.spent(),
    (start) => {
      const selection = new Selection(shop)
      if (tabu.run(start, selection, cutoff, bound)) isOptimal = true
      if (selection.makespan < best.makespan) {
        best.copyFrom(selection)
        budget.improved(best.makespan)
        onImprovement(best)
      }
      return { selection, cost: selection.makespan }
    },
  )
  return { best, bound, isOptimal: isOptimal || best.makespan <= bound }
}
