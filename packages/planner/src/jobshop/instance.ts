import type { Problem } from '../model/problem.ts'
import { overheadFree } from '../model/structure.ts'

/**
 * A (flexible) job shop in arrays: operations 0 .. n-1 in chains, each with choices of a machine and a duration.
 * Index n is a sentinel without time, so that "no predecessor" needs no test in inner loops.
 */
export interface JobShop {
  readonly n: number
  readonly machines: number
  /** Chain neighbours, n where there is none. */
  readonly before: Int32Array
  readonly after: Int32Array
  /** No start before it. */
  readonly release: Int32Array
  /** Choices of operation i are at choiceFrom[i] .. choiceFrom[i + 1] - 1, in the order of the problem's modes. */
  readonly choiceFrom: Int32Array
  readonly choiceMachine: Int32Array
  readonly choiceDuration: Int32Array
  /** Which mode of the task, and which alternative of its demand, each choice stands for. */
  readonly choiceMode: Int32Array
  readonly isFlexible: boolean
}

/** Reads the problem as a job shop, whatever its objective; null when it is anything more. */
export function asJobShop(problem: Problem): JobShop | null {
  if (!overheadFree(problem)) return null
  const n = problem.tasks.length
  if (n === 0 || problem.resources.some((resource) => resource.capacity !== 1)) return null
  const taskIndex = new Map(problem.tasks.map((task, i) => [task.id, i]))
  const machineIndex = new Map(problem.resources.map((resource, i) => [resource.id, i]))
  const jobs = new Map(problem.jobs.map((job) => [job.id, job]))
  const before = new Int32Array(n + 1).fill(n)
  const after = new Int32Array(n + 1).fill(n)
  for (const lag of problem.lags) {
    const from = taskIndex.get(lag.from)!
    const to = taskIndex.get(lag.to)!
    if (lag.after !== 'end' || lag.minMinutes !== 0 || lag.maxMinutes !== null) return null
    if (after[from] !== n || before[to] !== n) return null
    after[from] = to
    before[to] = from
  }
  const choiceFrom = new Int32Array(n + 2)
  const machine: number[] = []
  const duration: number[] = []
  const modes: number[] = []
  const release = new Int32Array(n + 1)
  for (const [i, task] of problem.tasks.entries()) {
    release[i] = Math.max(task.earliestStart, jobs.get(task.jobId)!.releaseAt)
    for (const [m, mode] of task.modes.entries()) {
      if (mode.demands.length !== 1 || mode.work >= 2 ** 30) return null
      for (const name of mode.demands[0]!.anyOf) {
        machine.push(machineIndex.get(name)!)
        duration.push(mode.work)
        modes.push(m)
      }
    }
    choiceFrom[i + 1] = machine.length
  }
  choiceFrom[n + 1] = machine.length
  const isFlexible = machine.length > n
  // The flexible moves tell before from after by time alone, which an operation without any would blur.
  if (isFlexible && duration.includes(0)) return null
  return {
    n,
    machines: problem.resources.length,
    before,
    after,
    release,
    choiceFrom,
    choiceMachine: Int32Array.from(machine),
    choiceDuration: Int32Array.from(duration),
    choiceMode: Int32Array.from(modes),
    isFlexible,
  }
}
