import type { Problem } from '../model/problem.ts'
import { overheadFree } from '../model/structure.ts'

/** The resource-constrained project scheduling problem (RCPSP), single mode, in arrays. */
export interface Project {
  readonly n: number
  readonly resources: number
  readonly duration: Int32Array
  /** demand[i * resources + k] units of resource k. */
  readonly demand: Int32Array
  readonly capacity: Int32Array
  readonly release: Int32Array
  readonly predecessors: readonly Int32Array[]
  readonly successors: readonly Int32Array[]
  /** Activities so that predecessors come first. */
  readonly topological: Int32Array
  /** Sum of durations after the latest release: no left-shifted schedule is longer. */
  readonly horizon: number
}

/** Longest schedule kept as one counter a minute and resource. */
const longestHorizon = 20_000

/** Reads the problem as an RCPSP, whatever its objective; null when it is anything more or too long to count by minutes. */
export function asProject(problem: Problem): Project | null {
  if (!overheadFree(problem)) return null
  const n = problem.tasks.length
  const resources = problem.resources.length
  const taskIndex = new Map(problem.tasks.map((task, i) => [task.id, i]))
  const resourceIndex = new Map(problem.resources.map((resource, i) => [resource.id, i]))
  const jobs = new Map(problem.jobs.map((job) => [job.id, job]))
  if (problem.lags.some((lag) => lag.after !== 'end' || lag.minMinutes !== 0 || lag.maxMinutes !== null))
    return null
  const demand = new Int32Array(n * resources)
  for (const [i, task] of problem.tasks.entries()) {
    if (task.modes.length !== 1 || task.modes[0]!.demands.some((entry) => entry.anyOf.length !== 1))
      return null
    for (const { anyOf, units } of task.modes[0]!.demands)
      demand[i * resources + resourceIndex.get(anyOf[0]!)!]! += units
  }
  const capacity = Int32Array.from(problem.resources, (resource) => resource.capacity)
  for (let cell = 0; cell < demand.length; cell++)
    if (demand[cell]! > capacity[cell % resources]!) return null
  const works = problem.tasks.map((task) => task.modes[0]!.work)
  const release = Int32Array.from(problem.tasks, (task) =>
    Math.max(task.earliestStart, jobs.get(task.jobId)!.releaseAt),
  )
  const horizon =
    works.reduce((sum, work) => sum + work, 0) + release.reduce((latest, at) => Math.max(latest, at), 0)
  if (horizon > longestHorizon) return null
  const predecessors: number[][] = works.map(() => [])
  const successors: number[][] = works.map(() => [])
  for (const lag of problem.lags) {
    const from = taskIndex.get(lag.from)!
    const to = taskIndex.get(lag.to)!
    if (successors[from]!.includes(to)) continue
    successors[from]!.push(to)
    predecessors[to]!.push(from)
  }
  return {
    n,
    resources,
    duration: Int32Array.from(works),
    demand,
    capacity,
    release,
    predecessors: predecessors.map((list) => Int32Array.from(list)),
    successors: successors.map((list) => Int32Array.from(list)),
    topological: sortTopologically(predecessors, successors),
    horizon,
  }
}

function sortTopologically(predecessors: readonly number[][], successors: readonly number[][]): Int32Array {
  const degree = predecessors.map((list) => list.length)
  const order = degree.flatMap((d, i) => (d === 0 ? [i] : []))
  for (const i of order) for (const next of successors[i]!) if (--degree[next]! === 0) order.push(next)
  return Int32Array.from(order)
}
