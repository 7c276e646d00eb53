import type { ObjectiveTerm, Problem } from './problem.ts'

/**
 * Whether the problem is a classical one: constant durations, no calendars, absences, holds, batches, set-ups,
 * deadlines, stocks or fixed tasks. The specialised engines ask this first and then look at the rest.
 */
export function overheadFree(problem: Problem): boolean {
  return (
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

/** Whether the objective is one term and nothing else. */
export function isOnly(problem: Problem, term: ObjectiveTerm): boolean {
  const { objective } = problem
  if (objective.kind === 'lexicographic') return objective.order.length === 1 && objective.order[0] === term
  return Object.entries(objective.weights).every(([name, weight]) => name === term || weight === 0)
}

/** Weight of the objective's only term. */
export const weightOf = (problem: Problem, term: ObjectiveTerm): number =>
  problem.objective.kind === 'weighted' ? (problem.objective.weights[term] ?? 0) : 1
