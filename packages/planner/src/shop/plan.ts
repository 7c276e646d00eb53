import type { Plan } from '../model/plan.ts'
import type { Snapshot } from './board.ts'
import type { Compiled } from './compile.ts'
import type { Published } from './placement.ts'

/** A snapshot of the board in the problem's own names. */
export function shopPlan(compiled: Compiled, at: Snapshot): Plan {
  const { problem, width, modes, jobOf, holds } = compiled
  const name = (r: number): string => problem.resources[r]!.id
  const unplanned = new Set<number>()
  problem.tasks.forEach((_, i) => {
    if (at.start[i]! < 0) unplanned.add(jobOf[i]!)
  })
  return {
    tasks: problem.tasks.flatMap((task, i) => {
      if (at.start[i]! < 0) return []
      const { demands } = modes[i]![at.mode[i]!]!
      const resources = demands.map((_, d) => name(at.taken[i * width + d]!))
      return [
        {
          taskId: task.id,
          start: at.start[i]!,
          end: at.end[i]!,
          mode: at.mode[i]!,
          resources,
          overtime: at.overtime[i] === 1,
        },
      ]
    }),
    holds: problem.holds.flatMap((hold, h) =>
      at.holdStart[h]! < 0 || at.start[holds[h]!.until]! < 0
        ? []
        : [
            {
              holdId: hold.id,
              resourceId: name(at.holdResource[h]!),
              from: at.holdStart[h]!,
              until: at.holdEnd[h]!,
            },
          ],
    ),
    unplannedJobs: [...unplanned].sort((a, b) => a - b).map((j) => problem.jobs[j]!.id),
  }
}

/** The published plan in indices; what it doesn't know is -1. */
export function publishedFrom(compiled: Compiled, plan: Plan): Published {
  const { problem, width, holds } = compiled
  const resourceIndex = new Map(problem.resources.map((resource, r) => [resource.id, r]))
  const taskIndex = new Map(problem.tasks.map((task, i) => [task.id, i]))
  const holdIndex = new Map(problem.holds.map((hold, h) => [hold.id, h]))
  const start = new Int32Array(problem.tasks.length).fill(-1)
  const taken = new Int32Array(problem.tasks.length * width).fill(-1)
  const holdResource = new Int32Array(holds.length).fill(-1)
  for (const entry of plan.tasks) {
    const i = taskIndex.get(entry.taskId)
    if (i === undefined) continue
    start[i] = entry.start
    entry.resources.forEach((name, d) => {
      if (d < width) taken[i * width + d] = resourceIndex.get(name) ?? -1
    })
  }
  for (const entry of plan.holds) {
    const h = holdIndex.get(entry.holdId)
    if (h !== undefined) holdResource[h] = resourceIndex.get(entry.resourceId) ?? -1
  }
  return { start, taken, holdResource }
}
