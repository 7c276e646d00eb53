import { generator, wholeNumbers } from './generator.ts'
import { readFlexibleJobShop, type Instance } from './read-instance.ts'

/**
 * Parameters of Brandimarte's ten flexible job shops ("Routing and scheduling in a flexible job shop by tabu search",
 * Annals of Operations Research 41, 1993, doi 10.1007/BF02023073), from memory: jobs, machines, operations a job, most
 * machines an operation, durations. The instances drawn here are of his sizes; they are not his.
 */
const sizes = [
  [10, 6, 5, 7, 3, 1, 7],
  [10, 6, 5, 7, 6, 1, 7],
  [15, 8, 10, 10, 5, 1, 20],
  [15, 8, 3, 10, 3, 1, 10],
  [15, 4, 5, 10, 2, 5, 10],
  [10, 15, 15, 15, 5, 1, 10],
  [20, 5, 5, 5, 5, 1, 20],
  [20, 10, 10, 15, 2, 5, 20],
  [20, 10, 10, 15, 5, 5, 20],
  [20, 15, 10, 15, 5, 5, 20],
] as const

export function randomFlexibleShops(seed: number): Instance[] {
  return sizes.map(([jobs, machines, fewest, most, choices, shortest, longest], k) => {
    const between = wholeNumbers(generator(seed * 7919 + k))
    const lines = Array.from({ length: jobs }, () => {
      const operations = Array.from({ length: between(fewest, most) }, () => {
        const left = Array.from({ length: machines }, (_, m) => m + 1)
        const pairs = Array.from({ length: between(1, Math.min(choices, machines)) }, () => {
          const [machine] = left.splice(between(0, left.length - 1), 1)
          return `${machine} ${between(shortest, longest)}`
        })
        return `${pairs.length} ${pairs.join(' ')}`
      })
      return `${operations.length} ${operations.join(' ')}`
    })
    const input = readFlexibleJobShop(`${jobs} ${machines}\n${lines.join('\n')}\n`)!
    return { name: `like-mk${String(k + 1).padStart(2, '0')}`, kind: 'flexible job shop', input }
  })
}
