import { asJobShop, type JobShop } from '../jobshop/instance.ts'
import { defineProblem } from '../model/define-problem.ts'
import type { Problem } from '../model/problem.ts'
import { Random } from '../search/random.ts'

interface Kind {
  readonly isFlexible: boolean
  /** Shortest operation, 1. */
  readonly leastWork?: number
}

export const randomShop = (seed: number, jobs: number, machines: number, kind: Kind): JobShop =>
  randomProblemAndShop(seed, jobs, machines, kind).shop

/** A (flexible) job shop for makespan: each job once on each machine in a random order, half released later. */
export function randomProblemAndShop(
  seed: number,
  jobs: number,
  machines: number,
  { isFlexible, leastWork = 1 }: Kind,
): { problem: Problem; shop: JobShop } {
  const random = new Random(seed)
  const names = Array.from({ length: machines }, (_, m) => `m${m}`)
  const tasks = Array.from({ length: jobs }, (_, j) => {
    const order = names.map((_, m) => m)
    random.shuffle(order)
    return order
      .map((m) => names[m]!)
      .map((name, k) => {
        const anyOf = isFlexible && random.below(2) === 0 ? names : [name]
        return {
          id: `${j}.${k}`,
          jobId: `j${j}`,
          modes: [{ work: leastWork + random.below(20), demands: [{ anyOf }] }],
        }
      })
  })
  const problem = defineProblem({
    horizonMinutes: 10_000,
    resources: names.map((id) => ({ id })),
    jobs: tasks.map((_, j) => ({ id: `j${j}`, releaseAt: random.below(2) * random.below(15) })),
    tasks: tasks.flat(),
    lags: tasks.flatMap((list) => list.slice(1).map((task, k) => ({ from: list[k]!.id, to: task.id }))),
    objective: { kind: 'weighted', weights: { makespan: 1 } },
  })
  return { problem, shop: asJobShop(problem)! }
}
