import type { Plan } from '../model/plan.ts'
import type { Problem } from '../model/problem.ts'
import type { Selection } from './selection.ts'

/** The semi-active schedule of a selection in the problem's own names. */
export function jobShopPlan(problem: Problem, selection: Selection): Plan {
  const { choiceMode } = selection.shop
  return {
    tasks: problem.tasks.map((task, i) => ({
      taskId: task.id,
      start: selection.head[i]!,
      end: selection.head[i]! + selection.duration[i]!,
      mode: choiceMode[selection.choice[i]!]!,
      resources: [problem.resources[selection.machine[i]!]!.id],
      overtime: false,
    })),
    holds: [],
    unplannedJobs: [],
  }
}
