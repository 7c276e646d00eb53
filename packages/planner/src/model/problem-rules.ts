import type { Interval, Mode, Problem } from './problem.ts'
import type { JsonReader } from './read-json.ts'

/** One rule a line or two; each says what must hold and, when it doesn't, what to change. */
export function checkRules(problem: Problem, read: JsonReader): void {
  const ids = {
    profiles: unique(problem.profiles, 'profiles', read),
    calendars: unique(problem.calendars, 'calendars', read),
    resources: unique(problem.resources, 'resources', read),
    jobs: unique(problem.jobs, 'jobs', read),
    tasks: unique(problem.tasks, 'tasks', read),
    stocks: unique(problem.stocks, 'stocks', read),
  }
  unique(problem.holds, 'holds', read)
  const known = (set: ReadonlyMap<string, number>, name: string, field: string, noun: string): boolean => {
    if (!set.has(name)) read.fault(field, name, `name one of the ${noun} given`)
    return set.has(name)
  }

  problem.profiles.forEach((profile, i) => {
    const at = `profiles[${i}].points`
    if (profile.points[0]?.atMinute !== 0)
      read.fault(at, profile.points[0]?.atMinute, 'let the first point be at minute 0')
    profile.points.forEach((point, k) => {
      const before = profile.points[k - 1]
      if (before && before.atMinute >= point.atMinute)
        read.fault(`${at}[${k}].atMinute`, point.atMinute, 'sort points by time')
    })
  })
  problem.calendars.forEach((calendar, i) => {
    sorted(calendar.shifts, `calendars[${i}].shifts`, read)
    sorted(calendar.overtime, `calendars[${i}].overtime`, read)
    for (const [from, until] of calendar.overtime) {
      if (calendar.shifts.some((shift) => from < shift[1] && shift[0] < until)) {
        read.fault(`calendars[${i}].overtime`, [from, until], 'keep overtime outside the shifts')
      }
    }
  })
  problem.resources.forEach((resource, i) => {
    const at = `resources[${i}]`
    if (resource.calendarId !== null)
      known(ids.calendars, resource.calendarId, `${at}.calendarId`, 'calendars')
    sorted(resource.unavailable, `${at}.unavailable`, read)
    if (resource.setups.length > 0 && (resource.capacity !== 1 || resource.batch)) {
      read.fault(
        `${at}.setups`,
        resource.setups.length,
        'give set-ups only to a resource of capacity 1 that does not batch',
      )
    }
  })
  problem.jobs.forEach((job, i) => {
    if (job.deadlineAt !== null && job.deadlineAt < job.releaseAt) {
      read.fault(
        `jobs[${i}].deadlineAt`,
        job.deadlineAt,
        `give a deadline after the release at ${job.releaseAt}`,
      )
    }
  })

  const checkUnits = (anyOf: readonly string[], units: number, at: string): void => {
    if (anyOf.length === 0) read.fault(`${at}.anyOf`, anyOf, 'name at least one resource')
    if (new Set(anyOf).size !== anyOf.length) read.fault(`${at}.anyOf`, anyOf, 'name each resource once')
    for (const name of anyOf) {
      if (!known(ids.resources, name, `${at}.anyOf`, 'resources')) continue
      const { capacity } = problem.resources[ids.resources.get(name)!]!
      if (capacity < units)
        read.fault(`${at}.units`, units, `ask for at most ${capacity}, the capacity of ${name}`)
    }
  }
  const batchWork = new Map<string, Mode>()
  problem.tasks.forEach((task, i) => {
    const at = `tasks[${i}]`
    known(ids.jobs, task.jobId, `${at}.jobId`, 'jobs')
    if (task.modes.length === 0) read.fault(`${at}.modes`, task.modes, 'give at least one mode')
    if (task.latestEnd !== null && task.latestEnd < task.earliestStart) {
      read.fault(`${at}.latestEnd`, task.latestEnd, `give a time after earliestStart ${task.earliestStart}`)
    }
    task.uses.forEach((use, k) => known(ids.stocks, use.stockId, `${at}.uses[${k}].stockId`, 'stocks'))
    task.modes.forEach((mode, m) => {
      const where = `${at}.modes[${m}]`
      if (mode.profileId !== null) known(ids.profiles, mode.profileId, `${where}.profileId`, 'profiles')
      for (const [resource, profile] of Object.entries(mode.profileByResource)) {
        known(ids.resources, resource, `${where}.profileByResource`, 'resources')
        known(ids.profiles, profile, `${where}.profileByResource.${resource}`, 'profiles')
      }
      mode.demands.forEach((demand, d) => {
        checkUnits(demand.anyOf, demand.units, `${where}.demands[${d}]`)
        if (task.family === null) return
        for (const name of demand.anyOf) {
          const resource = problem.resources[ids.resources.get(name) ?? -1]
          if (!resource?.batch) continue
          const first = batchWork.get(`${name} ${task.family}`) ?? mode
          batchWork.set(`${name} ${task.family}`, first)
          if (first.work !== mode.work || first.profileId !== mode.profileId) {
            read.fault(
              `${where}.work`,
              mode.work,
              `give all tasks of family ${task.family} on ${name} the same work and profile`,
            )
          }
        }
      })
    })
    const { fixed } = task
    if (fixed === null) return
    const mode = task.modes[fixed.mode]
    if (!mode) read.fault(`${at}.fixed.mode`, fixed.mode, `give a mode from 0 to ${task.modes.length - 1}`)
    else if (mode.demands.length !== fixed.resources.length) {
      read.fault(
        `${at}.fixed.resources`,
        fixed.resources,
        `name one resource for each of the ${mode.demands.length} demands`,
      )
    }
    for (const name of fixed.resources) known(ids.resources, name, `${at}.fixed.resources`, 'resources')
    if (fixed.end !== null && fixed.end < fixed.start)
      read.fault(`${at}.fixed.end`, fixed.end, 'give an end after the start')
  })

  const successors = problem.tasks.map((): number[] => [])
  problem.lags.forEach((lag, i) => {
    const at = `lags[${i}]`
    const both = [
      known(ids.tasks, lag.from, `${at}.from`, 'tasks'),
      known(ids.tasks, lag.to, `${at}.to`, 'tasks'),
    ]
    if (both.every(Boolean)) successors[ids.tasks.get(lag.from)!]!.push(ids.tasks.get(lag.to)!)
    if (lag.maxMinutes !== null && lag.maxMinutes < lag.minMinutes) {
      read.fault(`${at}.maxMinutes`, lag.maxMinutes, `give at least minMinutes ${lag.minMinutes}`)
    }
  })
  const cycle = findCycle(successors)
  if (cycle)
    read.fault(
      'lags',
      cycle.map((i) => problem.tasks[i]!.id),
      'break this circle of precedences',
    )
  problem.holds.forEach((hold, i) => {
    const at = `holds[${i}]`
    checkUnits(hold.anyOf, hold.units, at)
    const both = [
      known(ids.tasks, hold.fromTask, `${at}.fromTask`, 'tasks'),
      known(ids.tasks, hold.untilTask, `${at}.untilTask`, 'tasks'),
    ]
    if (hold.fixedResource !== null && !hold.anyOf.includes(hold.fixedResource)) {
      read.fault(`${at}.fixedResource`, hold.fixedResource, `name one of ${hold.anyOf.join(', ')}`)
    }
    if (!both.every(Boolean) || cycle) return
    const same = hold.fromTask === hold.untilTask
    if (
      same
        ? hold.until === 'start'
        : !reaches(successors, ids.tasks.get(hold.fromTask)!, ids.tasks.get(hold.untilTask)!)
    ) {
      read.fault(`${at}.untilTask`, hold.untilTask, `name a task that follows ${hold.fromTask} by precedence`)
    }
  })
}

function unique(
  items: readonly { readonly id: string }[],
  field: string,
  read: JsonReader,
): Map<string, number> {
  const seen = new Map<string, number>()
  items.forEach((item, i) => {
    if (seen.has(item.id)) read.fault(`${field}[${i}].id`, item.id, 'give every item its own id')
    seen.set(item.id, i)
  })
  return seen
}

function sorted(intervals: readonly Interval[], field: string, read: JsonReader): void {
  intervals.forEach(([from, until], i) => {
    if (from >= until) read.fault(`${field}[${i}]`, [from, until], 'let it end after it begins')
    if (i > 0 && intervals[i - 1]![1] > from)
      read.fault(`${field}[${i}]`, [from, until], 'sort the intervals, without overlap')
  })
}

function findCycle(successors: readonly (readonly number[])[]): number[] | null {
  const state = new Uint8Array(successors.length)
  const path: number[] = []
  const visit = (node: number): number[] | null => {
    state[node] = 1
    path.push(node)
    for (const next of successors[node]!) {
      if (state[next] === 1) return path.slice(path.indexOf(next))
      const found = state[next] === 0 ? visit(next) : null
      if (found) return found
    }
    path.pop()
    state[node] = 2
    return null
  }
  for (let i = 0; i < successors.length; i++) {
    const found = state[i] === 0 ? visit(i) : null
    if (found) return found
  }
  return null
}

function reaches(successors: readonly (readonly number[])[], from: number, to: number): boolean {
  const seen = new Set<number>([from])
  for (const node of seen) {
    for (const next of successors[node]!) seen.add(next)
  }
  return seen.has(to) && from !== to
}
