import type { Random } from '../search/random.ts'
import type { JobShop } from './instance.ts'
import { dispatchedSelection, distance, randomSelection, relink } from './relink.ts'
import type { Selection } from './selection.ts'

export interface Member {
  readonly selection: Selection
  readonly cost: number
}

const size = 8

/**
 * Improves a small population and points between its members (path relinking) until `isDone`. Starts over when the
 * members have become alike. `improve` may use up the selection that it is given.
 */
export function searchPopulation(
  shop: JobShop,
  random: Random,
  isDone: () => boolean,
  improve: (start: Selection, isMix: boolean) => Member,
): void {
  while (!isDone()) {
    const population: Member[] = []
    while (population.length < size && !isDone()) {
      const start =
        population.length % 2 === 0
          ? dispatchedSelection(shop, random, population.length === 0 ? 0 : 0.5)
          : randomSelection(shop, random)
      population.push(improve(start, false))
    }
    let idle = 0
    while (idle < 4 * size && population.length > 1 && !isDone()) {
      const a = random.below(population.length)
      const b = (a + 1 + random.below(population.length - 1)) % population.length
      const share = 0.35 + 0.3 * random.unit()
      const mix = relink(population[a]!.selection, population[b]!.selection, share, random)
      idle = replaceWorst(population, improve(mix, true)) ? 0 : idle + 1
    }
  }
}

/** Puts the child in the worst member's place when it is no worse and unlike every other. */
function replaceWorst(population: Member[], child: Member): boolean {
  let worst = 0
  population.forEach((member, i) => {
    if (member.cost > population[worst]!.cost) worst = i
  })
  if (child.cost > population[worst]!.cost) return false
  if (
    population.some((member) => member.cost === child.cost && distance(member.selection, child.selection) < 4)
  )
    return false
  population[worst] = child
  return true
}
