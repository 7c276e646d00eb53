import type { Problem } from './problem.ts'

/**
 * Whether the problem is a classical one: makespan only, constant durations, no calendars, absences, holds, batches,
 * set-ups, deadlines, stocks or fixed tasks. The specialised engines ask this first and then look at the rest.
 */
export function overheadFree(problem: Problem): boolean {
  const { objective } = problem
  const isMakespan =
    objective.kind === 'lexicographic'
      ? objective.order.length === 1 && objective.order[0] === 'makespan'
      : Object.entries(objective.weights).every(([term, weight]) => term === 'makespan' || weight === 0)
  return (
    isMakespan &&
    problem.holds.length === 0 &&
    problem.stocks.length === 0 &&
    problem.resources.every(
      (r) => r.calendarId === null && r.unavailable.length === 0 && !r.batch && r.setups.length === 0,
    ) &&
    problem.jobs.every((job) => job.deadlineAt === null) &&
    problem.tasks.every(
      (task) =>
        task.latestEnd === null &&
        task.fixed === null &&
        task.modes.every(
          (mode) => mode.profileId === null && Object.keys(mode.profileByResource).length === 0,
        ),
    )
  )
}

/** Weight of the makespan in a problem that `overheadFree` accepts. */
export const makespanWeight = (problem: Problem): number =>
  problem.objective.kind === 'weighted' ? (problem.objective.weights.makespan ?? 0) : 1
