import type { Plan } from '../model/plan.ts'
import type { Snapshot } from './board.ts'
import type { Compiled } from './compiled.ts'

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
