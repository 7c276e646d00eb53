import type { ObjectiveValues, Plan, PlannedHold, PlannedTask } from '../model/plan.ts'
import type { Problem } from '../model/problem.ts'

/** Every objective term of a plan, worked out anew; the `change` term against `baseline`. */
export function valuesOf(
  problem: Problem,
  planned: ReadonlyMap<string, PlannedTask>,
  holds: readonly PlannedHold[],
  baseline: Plan | null,
): ObjectiveValues {
  const entries = problem.tasks.flatMap((task) => planned.get(task.id) ?? [])
  let weightedTardiness = 0
  for (const job of problem.jobs) {
    const ends = problem.tasks
      .filter((task) => task.jobId === job.id)
      .map((task) => planned.get(task.id)?.end ?? 0)
    if (job.dueAt !== null) weightedTardiness += job.weight * Math.max(0, Math.max(...ends, 0) - job.dueAt)
  }
  let overtime = 0
  for (const task of problem.tasks) {
    const entry = planned.get(task.id)
    if (!entry?.overtime || task.breaks === 'ignore') continue
    entry.resources.forEach((name, d) => {
      const resource = problem.resources.find((candidate) => candidate.id === name)
      const intervals =
        problem.calendars.find((calendar) => calendar.id === resource?.calendarId)?.overtime ?? []
      const units = task.modes[entry.mode]?.demands[d]?.units ?? 0
      for (const [from, until] of intervals) {
        overtime +=
          Math.max(0, Math.min(until, entry.end) - Math.max(from, entry.start)) *
          units *
          (resource?.overtimeCostPerMinute ?? 0)
      }
    })
  }
  const left = problem.stocks.map((stock) => stock.lots.map((lot) => ({ ...lot })))
  let shortage = 0
  const uses = problem.tasks
    .flatMap((task) => task.uses.map((use) => ({ ...use, start: planned.get(task.id)?.start })))
    .filter((use) => use.start !== undefined)
    .toSorted((a, b) => a.start! - b.start!)
  for (const use of uses) {
    let needed = use.amount
    const lots = left[problem.stocks.findIndex((stock) => stock.id === use.stockId)] ?? []
    for (const lot of lots.toSorted((a, b) => (a.expiresAt ?? Infinity) - (b.expiresAt ?? Infinity) || 0)) {
      if (lot.expiresAt !== null && lot.expiresAt <= use.start!) continue
      const taken = Math.min(needed, lot.amount)
      lot.amount -= taken
      needed -= taken
    }
    shortage += needed
  }
  const waste = left
    .flat()
    .filter((lot) => lot.expiresAt !== null && lot.expiresAt <= problem.horizonMinutes)
    .reduce((sum, lot) => sum + lot.amount, 0)
  let change = 0
  const { perMinuteMoved, perResourceChanged, fadesOutAt } = problem.stability
  for (const before of baseline?.tasks ?? []) {
    const now = planned.get(before.taskId)
    if (!now) continue
    const price = perMinuteMoved * (fadesOutAt === null ? 1 : Math.max(0, 1 - before.start / fadesOutAt))
    change += price * Math.abs(now.start - before.start)
    change += perResourceChanged * before.resources.filter((name, d) => now.resources[d] !== name).length
  }
  const holdNow = new Map(holds.map((hold) => [hold.holdId, hold]))
  for (const before of baseline?.holds ?? []) {
    const now = holdNow.get(before.holdId)
    if (now && now.resourceId !== before.resourceId) change += perResourceChanged
  }
  const makespan = entries.reduce((latest, entry) => Math.max(latest, entry.end), 0)
  return { weightedTardiness, shortage, waste, overtime, change, makespan }
}
