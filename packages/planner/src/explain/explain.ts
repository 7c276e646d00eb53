import type { Plan, PlannedTask } from '../model/plan.ts'
import type { Problem, Resource, Task } from '../model/problem.ts'

/** What keeps a task from starting earlier. */
export interface Reason {
  readonly kind:
    | 'fixed'
    | 'predecessor'
    | 'resource'
    | 'hold'
    | 'setup'
    | 'calendar'
    | 'unavailable'
    | 'release'
    | 'maximumLag'
    | 'choice'
  readonly text: string
  /** The task behind it, whose own reason is the next link of the chain. */
  readonly taskId: string | null
  readonly resourceId: string | null
}

export interface Explanation {
  readonly taskId: string
  readonly start: number
  /** Everything that binds at the start, the strongest first. */
  readonly reasons: readonly Reason[]
  /** From the task back to what started it all: each task with the reason that binds it. */
  readonly chain: readonly { readonly taskId: string; readonly reason: Reason }[]
  readonly text: string
}

interface Stay {
  readonly taskId: string
  readonly name: string
  readonly from: number
  readonly until: number
  readonly units: number
}

/** "day 3 08:30", counting days from 1 at the origin of the horizon. */
export function dayAndTime(minute: number): string {
  const two = (value: number): string => String(value).padStart(2, '0')
  const ofDay = ((minute % 1440) + 1440) % 1440
  return `day ${Math.floor(minute / 1440) + 1} ${two(Math.floor(ofDay / 60))}:${two(ofDay % 60)}`
}

/** Explains the starts of one plan; set up once, asked for any number of tasks. */
export class Explainer {
  private readonly problem: Problem
  private readonly show: (minute: number) => string
  private readonly tasks: ReadonlyMap<string, Task>
  private readonly planned: ReadonlyMap<string, PlannedTask>
  private readonly resources: ReadonlyMap<string, Resource>
  private readonly stays = new Map<string, Stay[]>()
  private readonly heldOn: ReadonlyMap<string, string>

  constructor(problem: Problem, plan: Plan, show: (minute: number) => string = dayAndTime) {
    this.problem = problem
    this.show = show
    this.tasks = new Map(problem.tasks.map((task) => [task.id, task]))
    this.planned = new Map(plan.tasks.map((entry) => [entry.taskId, entry]))
    this.resources = new Map(problem.resources.map((resource) => [resource.id, resource]))
    this.heldOn = new Map(plan.holds.map((entry) => [entry.holdId, entry.resourceId]))
    const book = (resourceId: string, stay: Stay): void => {
      const list = this.stays.get(resourceId) ?? []
      list.push(stay)
      this.stays.set(resourceId, list)
    }
    for (const entry of plan.tasks) {
      const demands = this.tasks.get(entry.taskId)?.modes[entry.mode]?.demands ?? []
      entry.resources.forEach((name, d) =>
        book(name, {
          taskId: entry.taskId,
          name: entry.taskId,
          from: entry.start,
          until: entry.end,
          units: demands[d]?.units ?? 1,
        }),
      )
    }
    const holds = new Map(problem.holds.map((hold) => [hold.id, hold]))
    for (const entry of plan.holds) {
      const hold = holds.get(entry.holdId)
      if (hold)
        book(entry.resourceId, {
          taskId: hold.untilTask,
          name: `hold ${hold.id}`,
          from: entry.from,
          until: entry.until,
          units: hold.units,
        })
    }
  }

  /** @throws RangeError when the plan has no such task. */
  explain(taskId: string): Explanation {
    const entry = this.planned.get(taskId)
    if (!entry) throw new RangeError(`explain: the plan has no task ${taskId}; ask for one of its tasks`)
    const reasons = this.reasonsOf(entry)
    const chain = [{ taskId, reason: reasons[0]! }]
    for (const seen = new Set([taskId]); ;) {
      const next = chain.at(-1)!.reason.taskId
      const nextEntry = next === null || seen.has(next) ? undefined : this.planned.get(next)
      if (!nextEntry) break
      seen.add(next!)
      chain.push({ taskId: next!, reason: this.reasonsOf(nextEntry)[0]! })
    }
    return {
      taskId,
      start: entry.start,
      reasons,
      chain,
      text: `${taskId} starts at ${this.show(entry.start)} because ${reasons.map((reason) => reason.text).join(', and ')}.`,
    }
  }

  private reasonsOf(entry: PlannedTask): Reason[] {
    const task = this.tasks.get(entry.taskId)!
    if (task.fixed !== null) {
      return [{ kind: 'fixed', text: `it is ${task.fixed.state}`, taskId: null, resourceId: null }]
    }
    const exact = this.bindingAt(task, entry, entry.start)
    if (exact.length > 0) return exact
    // Nothing ends just then: perhaps work stood still before, and something ended in the break.
    const calendar = this.calendarReason(task, entry)
    if (calendar) return [calendar.reason, ...this.bindingAt(task, entry, calendar.since).slice(0, 1)]
    const pull = this.pullReason(entry)
    if (pull) return [pull]
    return [
      {
        kind: 'choice',
        text: 'the plan gives what comes before it on its resources the better place',
        taskId: null,
        resourceId: null,
      },
    ]
  }

  /** What frees the way at exactly `minute`. */
  private bindingAt(task: Task, entry: PlannedTask, minute: number): Reason[] {
    const reasons: Reason[] = []
    for (const lag of this.problem.lags) {
      if (lag.to !== task.id) continue
      const before = this.planned.get(lag.from)
      const anchor = lag.after === 'end' ? before?.end : before?.start
      if (anchor === undefined || anchor + lag.minMinutes !== minute) continue
      const wait = lag.minMinutes > 0 ? ` and ${lag.minMinutes} min must pass` : ''
      reasons.push({
        kind: 'predecessor',
        text: `${lag.from} ${lag.after}s at ${this.show(anchor)}${wait}`,
        taskId: lag.from,
        resourceId: null,
      })
    }
    const wanted = entry.resources.map((name) => [name, 'resource'] as const)
    const held = this.problem.holds
      .filter((hold) => hold.fromTask === task.id)
      .flatMap((hold) => (this.heldOn.has(hold.id) ? [[this.heldOn.get(hold.id)!, 'hold'] as const] : []))
    for (const [name, kind] of [...wanted, ...held]) {
      const resource = this.resources.get(name)!
      const stay = this.stays
        .get(name)
        ?.find((other) => other.until === minute && other.taskId !== task.id && other.from < other.until)
      if (stay)
        reasons.push({
          kind,
          text: `${name} is taken by ${stay.name} until ${this.show(minute)}`,
          taskId: stay.taskId,
          resourceId: name,
        })
      const closed = resource.unavailable.find(([, until]) => until === minute)
      if (closed)
        reasons.push({
          kind: 'unavailable',
          text: `${name} is unavailable until ${this.show(minute)}`,
          taskId: null,
          resourceId: name,
        })
      for (const setup of resource.setups) {
        const before = this.stays
          .get(name)
          ?.find(
            (other) =>
              other.until + setup.minutes === minute &&
              this.tasks.get(other.taskId)?.family === setup.fromFamily,
          )
        if (before && setup.minutes > 0 && setup.toFamily === task.family) {
          reasons.push({
            kind: 'setup',
            text: `${name} needs ${setup.minutes} min of set-up after ${before.name}`,
            taskId: before.taskId,
            resourceId: name,
          })
        }
      }
    }
    const release = this.problem.jobs.find((job) => job.id === task.jobId)?.releaseAt ?? 0
    if (minute === Math.max(release, task.earliestStart)) {
      reasons.push({
        kind: 'release',
        text: `it may not start before ${this.show(minute)}`,
        taskId: null,
        resourceId: null,
      })
    }
    return reasons
  }

  /** The start is where a calendar opens, or where the task first fits between breaks. */
  private calendarReason(task: Task, entry: PlannedTask): { reason: Reason; since: number } | null {
    if (task.breaks === 'ignore') return null
    for (const name of entry.resources) {
      const resource = this.resources.get(name)!
      const calendar = this.problem.calendars.find((candidate) => candidate.id === resource.calendarId)
      if (!calendar) continue
      const open = [...calendar.shifts, ...(entry.overtime ? calendar.overtime : [])].toSorted(
        (a, b) => a[0] - b[0],
      )
      if (!open.some(([from]) => from === entry.start)) continue
      const closedSince = open.filter(([, until]) => until <= entry.start).at(-1)?.[1] ?? 0
      // What ended last in the break, or in the end of the shift that the task no longer fitted into.
      const since = this.lastBoundBefore(task, entry, entry.start)
      const fitted = since < closedSince && task.breaks === 'forbid' ? ', where it fits without a break,' : ''
      return {
        reason: {
          kind: 'calendar',
          text: `${name} works again${fitted} from ${this.show(entry.start)}`,
          taskId: null,
          resourceId: name,
        },
        since,
      }
    }
    return null
  }

  private lastBoundBefore(task: Task, entry: PlannedTask, minute: number): number {
    let last = 0
    for (const lag of this.problem.lags) {
      const before = lag.to === task.id ? this.planned.get(lag.from) : undefined
      if (before) last = Math.max(last, (lag.after === 'end' ? before.end : before.start) + lag.minMinutes)
    }
    for (const name of entry.resources) {
      for (const stay of this.stays.get(name) ?? [])
        if (stay.until <= minute && stay.taskId !== task.id) last = Math.max(last, stay.until)
    }
    return last
  }

  /** It waits for a later task that may not follow it by more than a maximum lag. */
  private pullReason(entry: PlannedTask): Reason | null {
    for (const lag of this.problem.lags) {
      if (lag.from !== entry.taskId || lag.maxMinutes === null) continue
      const next = this.planned.get(lag.to)
      const anchor = lag.after === 'end' ? entry.end : entry.start
      if (!next) continue
      const slack = anchor + lag.maxMinutes - next.start
      // Breaks may keep the task from ending at the very minute that the lag asks for.
      if (slack <= Math.max(0, entry.end - entry.start)) {
        return {
          kind: 'maximumLag',
          text: `${lag.to} may start at most ${lag.maxMinutes} min after its ${lag.after} and starts at ${this.show(next.start)}`,
          taskId: lag.to,
          resourceId: null,
        }
      }
    }
    return null
  }
}

/** Why a task starts when it does: `new Explainer(problem, plan, show).explain(taskId)`. */
export const explain = (
  problem: Problem,
  plan: Plan,
  taskId: string,
  show: (minute: number) => string = dayAndTime,
): Explanation => new Explainer(problem, plan, show).explain(taskId)
