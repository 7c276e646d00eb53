/**
 * Judges a plan by the rules alone. This folder imports nothing but types: no line is shared with the solver, so a
 * mistake there can't hide itself here. Written to be read, not to be fast.
 */
import type { ObjectiveValues, Plan, PlannedTask } from '../model/plan.ts'
import type { Lag, Problem, Task } from '../model/problem.ts'
import { checkResource, type Stay } from './check-resource.ts'
import { findHoldsOver } from './holds-over.ts'
import { valuesOf } from './values.ts'
import type { Report, Violation } from './violation.ts'

export interface Verdict {
  readonly feasible: boolean
  readonly violations: readonly Violation[]
  /** Worked out from the plan by this file alone. */
  readonly values: ObjectiveValues
}

/** Checks every rule of the problem against the plan; `baseline` is what the `change` term is measured from. */
export function check(problem: Problem, plan: Plan, baseline: Plan | null = null): Verdict {
  const violations: Violation[] = []
  const report: Report = (rule, taskIds, message, { at = null, by = 1, resourceId = null } = {}) => {
    violations.push({ rule, taskIds, resourceId, at, by, message })
  }
  const planned = new Map<string, PlannedTask>()
  for (const entry of plan.tasks) {
    if (planned.has(entry.taskId)) report('form', [entry.taskId], `${entry.taskId} is planned twice`)
    planned.set(entry.taskId, entry)
  }
  const held = new Map(plan.holds.map((entry) => [entry.holdId, entry]))
  const resources = new Map(problem.resources.map((resource) => [resource.id, resource]))
  const calendars = new Map(problem.calendars.map((calendar) => [calendar.id, calendar]))
  const jobs = new Map(problem.jobs.map((job) => [job.id, job]))
  const holdsOver = findHoldsOver(problem)
  const isFact = (task: Task | undefined): boolean =>
    task?.fixed?.state === 'running' || task?.fixed?.state === 'done'
  const tasks = new Map(problem.tasks.map((task) => [task.id, task]))

  for (const entry of plan.tasks) {
    if (!tasks.has(entry.taskId)) report('form', [entry.taskId], `${entry.taskId} is no task of the problem`)
  }
  for (const task of problem.tasks) {
    const entry = planned.get(task.id)
    if (!entry) {
      report('unplanned', [task.id], `${task.id} has no place in the plan`)
      continue
    }
    checkTask(task, entry)
  }

  function checkTask(task: Task, entry: PlannedTask): void {
    const id = [task.id]
    const mode = task.modes[entry.mode]
    const job = jobs.get(task.jobId)!
    if (
      !Number.isInteger(entry.start) ||
      !Number.isInteger(entry.end) ||
      entry.start < 0 ||
      entry.end < entry.start
    ) {
      report('form', id, `${task.id} runs from ${entry.start} to ${entry.end}`)
      return
    }
    if (!mode || entry.resources.length !== mode.demands.length) {
      report('mode', id, `${task.id} has no mode ${entry.mode} with ${entry.resources.length} resources`)
      return
    }
    mode.demands.forEach((demand, d) => {
      const name = entry.resources[d]!
      if (!demand.anyOf.includes(name)) report('mode', id, `${task.id} can't use ${name}`)
    })
    const { fixed } = task
    if (fixed) {
      const same =
        fixed.start === entry.start &&
        fixed.mode === entry.mode &&
        fixed.resources.every((name, d) => name === entry.resources[d])
      if (!same)
        report(
          'fixed',
          id,
          `${task.id} is ${fixed.state} at ${fixed.start} on ${fixed.resources.join(', ')}, not at ${entry.start}`,
        )
      if (fixed.end !== null && fixed.end !== entry.end)
        report('fixed', id, `${task.id} ends at ${fixed.end}, not ${entry.end}`)
    }
    if (isFact(task)) return
    const earliest = Math.max(job.releaseAt, task.earliestStart)
    if (entry.start < earliest)
      report('window', id, `${task.id} starts at ${entry.start}, before ${earliest}`, {
        at: entry.start,
        by: earliest - entry.start,
      })
    const latest = Math.min(problem.horizonMinutes, task.latestEnd ?? Infinity, job.deadlineAt ?? Infinity)
    if (entry.end > latest)
      report('window', id, `${task.id} ends at ${entry.end}, after ${latest}`, {
        at: entry.end,
        by: entry.end - latest,
      })
    if (fixed?.end === null || fixed === null) checkDuration(task, entry)
  }

  /** Adds up the work piece by piece, from one change of rate, shift or break to the next. */
  function checkDuration(task: Task, entry: PlannedTask): void {
    const mode = task.modes[entry.mode]!
    const used = entry.resources
      .map((name) => resources.get(name))
      .filter((resource) => resource !== undefined)
    const working = used
      .map((resource) => calendars.get(resource.calendarId ?? ''))
      .filter((calendar) => calendar !== undefined)
      .map((calendar) =>
        [...calendar.shifts, ...(entry.overtime ? calendar.overtime : [])].toSorted((a, b) => a[0] - b[0]),
      )
    const near = working.map((intervals) =>
      intervals.filter(([from, until]) => from <= entry.end && until >= entry.start),
    )
    const openAt = (minute: number): boolean =>
      near.every((intervals) => intervals.some(([from, until]) => from <= minute && minute < until))
    const onSite = [...entry.resources, ...heldOver(task.id)]
    const override = onSite.map((name) => mode.profileByResource[name]).find((name) => name !== undefined)
    const profileId = override ?? mode.profileId
    const points = problem.profiles.find((profile) => profile.id === profileId)?.points ?? [
      { atMinute: 0, ratePerMinute: 1 },
    ]
    const rateAt = (minute: number): number =>
      points.findLast((point) => point.atMinute <= minute)?.ratePerMinute ?? 0
    // Past the planned end one change is enough to see that the task isn't done in time.
    const changes = [...points.map((point) => point.atMinute), ...near.flat(2), entry.end + 1]
      .filter((minute) => minute > entry.start && minute <= entry.end + 1)
      .toSorted((a, b) => a - b)

    let minute = entry.start
    let left = mode.work
    for (const change of changes) {
      if (left <= 0) break
      const rate = task.breaks === 'pause' && !openAt(minute) ? 0 : rateAt(minute)
      const needed = rate > 0 ? Math.ceil(left / rate) : Infinity
      if (minute + needed <= change) {
        minute += needed
        left = 0
      } else {
        left -= rate * (change - minute)
        minute = change
      }
    }
    if (left > 0)
      report('duration', [task.id], `${task.id} needs longer than from ${entry.start} to ${entry.end}`, {
        at: entry.end,
        by: left,
      })
    else if (minute !== entry.end)
      report('duration', [task.id], `${task.id} from ${entry.start} ends at ${minute}, not ${entry.end}`, {
        at: minute,
        by: entry.end - minute,
      })
    if (task.breaks === 'ignore' || mode.work === 0) return
    if (!openAt(entry.start))
      report('calendar', [task.id], `${task.id} starts at ${entry.start}, in a break`, { at: entry.start })
    if (task.breaks === 'pause') return
    const broken = changes.find((change) => change < entry.end && !openAt(change))
    if (broken !== undefined)
      report('calendar', [task.id], `${task.id} may not span the break at ${broken}`, { at: broken })
  }

  /** Resources held over the task: it lies between the first and the last task of the hold. */
  function heldOver(taskId: string): string[] {
    return (holdsOver.get(taskId) ?? []).flatMap((id) => held.get(id)?.resourceId ?? [])
  }

  for (const lag of problem.lags) checkLag(lag)
  function checkLag(lag: Lag): void {
    const first = planned.get(lag.from)
    const second = planned.get(lag.to)
    if (!first || !second || (isFact(tasks.get(lag.from)) && isFact(tasks.get(lag.to)))) return
    const anchor = lag.after === 'end' ? first.end : first.start
    const wait = second.start - anchor
    if (wait < lag.minMinutes)
      report(
        'lag',
        [lag.from, lag.to],
        `${lag.to} starts ${wait} min after ${lag.from}, at least ${lag.minMinutes} needed`,
        { at: second.start, by: lag.minMinutes - wait },
      )
    if (lag.maxMinutes !== null && wait > lag.maxMinutes) {
      report(
        'maxLag',
        [lag.from, lag.to],
        `${lag.to} starts ${wait} min after ${lag.from}, at most ${lag.maxMinutes} allowed`,
        { at: second.start, by: wait - lag.maxMinutes },
      )
    }
  }

  const stays = new Map<string, Stay[]>(problem.resources.map((resource) => [resource.id, []]))
  for (const entry of plan.tasks) {
    const task = tasks.get(entry.taskId)
    task?.modes[entry.mode]?.demands.forEach((demand, d) => {
      stays.get(entry.resources[d] ?? '')?.push({
        name: task.id,
        taskId: task.id,
        family: task.family,
        from: entry.start,
        until: entry.end,
        units: demand.units,
        fact: isFact(task),
        isHold: false,
      })
    })
  }
  for (const hold of problem.holds) {
    const first = planned.get(hold.fromTask)
    const last = planned.get(hold.untilTask)
    if (!first || !last) continue
    const entry = held.get(hold.id)
    const ids = [hold.fromTask, hold.untilTask]
    if (!entry) {
      report('hold', ids, `hold ${hold.id} is missing`)
      continue
    }
    const until = hold.until === 'end' ? last.end : last.start
    if (entry.from !== first.start || entry.until !== until) {
      report(
        'hold',
        ids,
        `hold ${hold.id} lasts from ${entry.from} to ${entry.until}, must be ${first.start} to ${until}`,
        {
          at: first.start,
          by: Math.abs(entry.from - first.start) + Math.abs(entry.until - until),
          resourceId: entry.resourceId,
        },
      )
    }
    if (
      !hold.anyOf.includes(entry.resourceId) ||
      (hold.fixedResource ?? entry.resourceId) !== entry.resourceId
    ) {
      report('hold', ids, `hold ${hold.id} can't be on ${entry.resourceId}`, {
        at: first.start,
        resourceId: entry.resourceId,
      })
    }
    stays.get(entry.resourceId)?.push({
      name: `hold ${hold.id}`,
      taskId: hold.fromTask,
      family: null,
      from: entry.from,
      until: entry.until,
      units: hold.units,
      fact: isFact(tasks.get(hold.fromTask)),
      isHold: true,
    })
  }
  for (const resource of problem.resources) checkResource(resource, stays.get(resource.id)!, report)

  return {
    feasible: violations.length === 0,
    violations,
    values: valuesOf(problem, planned, plan.holds, baseline),
  }
}
