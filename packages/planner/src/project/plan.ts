import type { Plan } from '../model/plan.ts'
import type { Problem } from '../model/problem.ts'

/** Start times in the problem's own names. */
export function projectPlan(problem: Problem, start: Int32Array): Plan {
  return {
    tasks: problem.tasks.map((task, i) => ({
      taskId: task.id,
      start: start[i]!,
      end: start[i]! + task.modes[0]!.work,
      mode: 0,
      resources: task.modes[0]!.demands.map((demand) => demand.anyOf[0]!),
      overtime: false,
    })),
    holds: [],
    unplannedJobs: [],
  }
}
