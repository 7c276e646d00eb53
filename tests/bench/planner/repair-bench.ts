import {
  check,
  defineProblem,
  repair,
  solve,
  type Plan,
  type Problem,
  type RepairEvent,
} from '../../../packages/planner/src/index.ts'
import { repairShop } from './repair-shop.ts'

const day = 1440

/** An event of each kind in turn, somewhere in the second and third week. */
function drawEvent(problem: Problem, plan: Plan, number: number): RepairEvent {
  const at = 7 * day + ((number * 977) % (12 * day)) + 600
  const pick = <T>(list: readonly T[]): T => list[(number * 131) % list.length]!
  if (number % 3 === 0) {
    const cures = plan.tasks.filter((entry) => entry.taskId.endsWith('/cure'))
    const cure = cures.find((entry) => entry.start <= at && at < entry.end) ?? pick(cures)
    return { kind: 'taskEnds', at: cure.start + 60, taskId: cure.taskId, end: cure.end + 180 }
  }
  const isBay = number % 3 === 1
  // One that is in use within the day, so that the event hits something.
  const busy = [
    ...plan.holds.map((hold) => [hold.resourceId, hold.from] as const),
    ...plan.tasks.flatMap((entry) => entry.resources.map((name) => [name, entry.start] as const)),
  ]
    .filter(([name, start]) => name.startsWith(isBay ? 'bay' : 'bonder') && at <= start && start < at + day)
    .map(([name]) => name)
  const resource = problem.resources.find(
    ({ id }) => id === (busy.length > 0 ? pick(busy) : isBay ? 'bay-1' : 'bonder-1'),
  )!
  return {
    kind: 'resourceUnavailable',
    at,
    resourceId: resource.id,
    from: at,
    until: at + (isBay ? 2 : 1) * day,
  }
}

/** Repairs one published plan after many single events; times include the check of the repaired plan. */
export function benchRepair(
  vehicles: number,
  seed: number,
  load: number,
  events: number,
  nowMs: () => number,
): Record<string, unknown> {
  const problem = defineProblem(repairShop(vehicles, seed, load))
  const { plan } = solve(problem, { seed, stop: { iterations: 3000 } })
  const times: number[] = []
  const movedTasks: number[] = []
  const movedJobs: number[] = []
  let infeasible = 0
  for (let number = 0; number < events; number++) {
    const event = drawEvent(problem, plan, number)
    const begun = nowMs()
    const repaired = repair(problem, plan, event, {
      seed,
      nowMs,
      stop: { milliseconds: 60, iterations: 400 },
    })
    const verdict = check(repaired.problem, repaired.result.plan, plan)
    times.push(nowMs() - begun)
    movedTasks.push(repaired.moved.length)
    movedJobs.push(new Set(repaired.moved.map((entry) => entry.taskId.split('/')[0])).size)
    if (verdict.feasible) continue
    infeasible++
    console.log(`  event ${number} ${event.kind}: ${verdict.violations[0]!.message}`)
  }
  const at = (list: readonly number[], share: number): number =>
    list.toSorted((a, b) => a - b)[Math.min(list.length - 1, Math.floor(share * list.length))]!
  console.log(
    `repair of shop ${vehicles}: ${events} events, median ${at(times, 0.5).toFixed(0)} ms, p95 ${at(times, 0.95).toFixed(0)} ms; ` +
      `tasks moved: median ${at(movedTasks, 0.5)}, p95 ${at(movedTasks, 0.95)} of ${plan.tasks.length}; vehicles touched: median ${at(movedJobs, 0.5)}, p95 ${at(movedJobs, 0.95)}; infeasible ${infeasible}`,
  )
  return {
    suite: `repair-${vehicles}`,
    instances: events,
    medianMs: at(times, 0.5),
    p95Ms: at(times, 0.95),
    medianMoved: at(movedTasks, 0.5),
    p95Moved: at(movedTasks, 0.95),
    infeasible,
  }
}
