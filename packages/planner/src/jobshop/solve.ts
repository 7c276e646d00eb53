import type { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { jobShopBound } from './bounds.ts'
import { FlexibleTabu } from './flexible-tabu.ts'
import type { JobShop } from './instance.ts'
import { dispatchedSelection, distance, randomSelection, relink } from './relink.ts'
import { Selection } from './selection.ts'
import { BlockTabu } from './tabu.ts'

export interface JobShopOutcome {
  readonly best: Selection
  readonly bound: number
  /** Proved, by the bound or by a critical path that no order can shorten. */
  readonly isOptimal: boolean
}

/**
 * Tabu search started from a small population and from points between its members (tabu search with path
 * relinking). Restarts when the members have become alike.
 */
export function solveJobShop(
  shop: JobShop,
  seed: number,
  budget: Budget,
  onImprovement: (best: Selection) => void,
): JobShopOutcome {
  const random = new Random(seed)
  const bound = jobShopBound(shop)
  const sample = dispatchedSelection(shop, random, 0)
  const tabu = shop.isFlexible
    ? new FlexibleTabu(sample, random, budget)
    : new BlockTabu(sample, random, budget)
  const cutoff = shop.isFlexible ? 400 : 6000
  const size = 8
  const best = new Selection(shop)
  best.copyFrom(sample)
  onImprovement(best)
  let isOptimal = best.makespan <= bound

  const improve = (start: Selection, moves: number): Selection => {
    const local = new Selection(shop)
    const proved = tabu.run(start, local, moves, bound)
    if (local.makespan < best.makespan) {
      best.copyFrom(local)
      budget.improved(best.makespan)
      onImprovement(best)
    }
    if (proved) isOptimal = true
    return local
  }

  while (!isOptimal && !budget.spent()) {
    const population: Selection[] = []
    while (population.length < size && !isOptimal && !budget.spent()) {
      const start =
        population.length % 2 === 0
          ? dispatchedSelection(shop, random, population.length === 0 ? 0 : 0.5)
          : randomSelection(shop, random)
      population.push(improve(start, cutoff))
    }
    let idle = 0
    while (idle < 4 * size && !isOptimal && population.length > 1 && !budget.spent()) {
      const a = random.below(population.length)
      const b = (a + 1 + random.below(population.length - 1)) % population.length
      const share = 0.35 + 0.3 * random.unit()
      const child = improve(relink(population[a]!, population[b]!, share, random), cutoff)
      idle = replaceWorst(population, child) ? 0 : idle + 1
    }
  }
  return { best, bound, isOptimal: isOptimal || best.makespan <= bound }
}

/** Puts the child in the worst member's place when it is no worse and unlike every other. */
function replaceWorst(population: Selection[], child: Selection): boolean {
  let worst = 0
  population.forEach((member, i) => {
    if (member.makespan > population[worst]!.makespan) worst = i
  })
  if (child.makespan > population[worst]!.makespan) return false
  if (population.some((member) => member.makespan === child.makespan && distance(member, child) < 4))
    return false
  population[worst] = child
  return true
}
