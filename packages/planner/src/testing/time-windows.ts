import type { Problem } from '../model/problem.ts'

export interface Window {
  /** Earliest start. */
  readonly earliest: number
  /** Latest start. */
  readonly latest: number
  readonly latestEnd: number
}

/** When each task may start, by release, deadline, lags and a price that must stay `below`. Constant durations only. */
export function timeWindows(problem: Problem, below: number): Window[] {
  const { objective, tasks, jobs, lags, horizonMinutes } = problem
  const number = new Map(tasks.map((task, i) => [task.id, i]))
  const weightOf = (term: 'makespan' | 'weightedTardiness'): number =>
    objective.kind === 'weighted' ? (objective.weights[term] ?? 0) : objective.order[0] === term ? 1 : 0
  const shortest = tasks.map((task) => Math.min(...task.modes.map((mode) => mode.work)))
  const earliest: number[] = []
  const latestEnd: number[] = []
  for (const task of tasks) {
    const job = jobs.find((candidate) => candidate.id === task.jobId)!
    const perMinute = job.weight * weightOf('weightedTardiness')
    earliest.push(Math.max(task.earliestStart, job.releaseAt))
    latestEnd.push(
      Math.min(
        horizonMinutes,
        job.deadlineAt ?? Infinity,
        task.latestEnd ?? Infinity,
        job.dueAt !== null && perMinute > 0 ? job.dueAt + Math.floor(below / perMinute) : Infinity,
        weightOf('makespan') > 0 ? Math.floor(below / weightOf('makespan')) : Infinity,
      ),
    )
  }
  const ends = lags.map((lag) => [number.get(lag.from)!, number.get(lag.to)!] as const)
  // Lags run forward only, so as many rounds as there are tasks reach every window.
  for (let isChanged = true, round = 0; isChanged && round <= tasks.length; round++) {
    isChanged = false
    lags.forEach((lag, k) => {
      const [from, to] = ends[k]!
      const soonest = earliest[from]! + lag.minMinutes + (lag.after === 'end' ? shortest[from]! : 0)
      // The end of `from` follows from a lag after its start only when its length is known, so it is left as it is.
      const last = lag.after === 'end' ? latestEnd[to]! - shortest[to]! - lag.minMinutes : Infinity
      if (soonest > earliest[to]!) isChanged = true
      if (last < latestEnd[from]!) isChanged = true
      earliest[to] = Math.max(earliest[to]!, soonest)
      latestEnd[from] = Math.min(latestEnd[from]!, last)
    })
  }
  return tasks.map((_, i) => ({
    earliest: earliest[i]!,
    latest: latestEnd[i]! - shortest[i]!,
    latestEnd: latestEnd[i]!,
  }))
}
