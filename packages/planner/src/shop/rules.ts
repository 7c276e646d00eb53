import type { Compiled } from './compiled.ts'

/** What the priority rules know of a group. */
export interface GroupFacts {
  readonly due: number
  readonly weight: number
  readonly release: number
  /** Work at its quickest, in minutes. */
  readonly work: number
}

export function groupFacts(compiled: Compiled): GroupFacts[] {
  const { groups, problem, modes, fastest, earliest } = compiled
  return groups.map((group) => {
    const jobs = Array.from(group.jobs, (j) => problem.jobs[j]!)
    return {
      due: Math.min(...jobs.map((job) => job.dueAt ?? job.deadlineAt ?? problem.horizonMinutes)),
      weight: Math.max(...jobs.map((job) => job.weight), 1e-9),
      release: group.tasks.reduce((least, i) => Math.min(least, earliest[i]!), problem.horizonMinutes),
      work: group.tasks.reduce(
        (sum, i) => sum + Math.min(...modes[i]!.map((mode) => mode.work / fastest[mode.profile]!)),
        0,
      ),
    }
  })
}

/** Priority rules: the lower the key, the sooner a group is inserted. */
export const rules: readonly ((facts: GroupFacts) => number)[] = [
  // Earliest due date.
  (facts) => facts.due,
  // Least slack.
  (facts) => facts.due - 3 * facts.work,
  // Weighted due date: heavy jobs as if due sooner.
  (facts) => facts.release + (facts.due - facts.release) / Math.sqrt(facts.weight),
  // First come, first served.
  (facts) => facts.release * 1e4 + facts.due / 1e4,
  // Weighted shortest processing time.
  (facts) => facts.work / facts.weight,
]
