import type { Problem } from '../model/problem.ts'
import { compileProfile, intervalsProfile, plainProfile, product, type Profile } from '../time/profile.ts'
import {
  unlimited,
  type Compiled,
  type CompiledHold,
  type CompiledLag,
  type CompiledMode,
} from './compiled.ts'
import { components, coveringHolds } from './components.ts'

export function compile(problem: Problem): Compiled {
  const horizon = problem.horizonMinutes
  const index = (items: readonly { readonly id: string }[]): Map<string, number> =>
    new Map(items.map((item, i) => [item.id, i]))
  const resourceIndex = index(problem.resources)
  const taskIndex = index(problem.tasks)
  const jobIndex = index(problem.jobs)
  const profileIndex = index(problem.profiles)
  const calendarIndex = index(problem.calendars)
  const profiles = [plainProfile, ...problem.profiles.map((profile) => compileProfile(profile, horizon))]
  const profileNumber = (id: string | null): number => (id === null ? 0 : profileIndex.get(id)! + 1)
  const familyIndex = new Map<string, number>()
  for (const task of problem.tasks)
    if (task.family !== null && !familyIndex.has(task.family)) familyIndex.set(task.family, familyIndex.size)
  const families = familyIndex.size
  const regular = problem.calendars.map((calendar) => intervalsProfile(calendar.shifts, horizon))
  const open: [Profile[], Profile[]] = [
    regular,
    problem.calendars.map((calendar, c) =>
      calendar.overtime.length === 0
        ? regular[c]!
        : intervalsProfile([...calendar.shifts, ...calendar.overtime], horizon),
    ),
  ]
  const calendarOf = Int32Array.from(problem.resources, (r) =>
    r.calendarId === null ? -1 : calendarIndex.get(r.calendarId)!,
  )
  const numbers = (names: readonly string[]): Int32Array =>
    new Int32Array(names.map((name) => resourceIndex.get(name)!))
  const modes = problem.tasks.map((task) =>
    task.modes.map((mode): CompiledMode => {
      const entries = Object.entries(mode.profileByResource)
      const choices = (d: number): number => mode.demands[d]!.anyOf.length
      return {
        work: mode.work,
        profile: profileNumber(mode.profileId),
        byResource:
          entries.length === 0
            ? null
            : new Map(entries.map(([r, p]) => [resourceIndex.get(r)!, profileNumber(p)])),
        demands: mode.demands.map((demand) => ({ resources: numbers(demand.anyOf), units: demand.units })),
        order: new Int32Array(mode.demands.map((_, d) => d).sort((a, b) => choices(a) - choices(b))),
      }
    }),
  )
  const lagsIn: CompiledLag[][] = problem.tasks.map(() => [])
  const lagsOut: CompiledLag[][] = problem.tasks.map(() => [])
  for (const lag of problem.lags) {
    const entry = { afterEnd: lag.after === 'end', min: lag.minMinutes, max: lag.maxMinutes ?? unlimited }
    const from = taskIndex.get(lag.from)!
    const to = taskIndex.get(lag.to)!
    lagsIn[to]!.push({ ...entry, other: from })
    lagsOut[from]!.push({ ...entry, other: to })
  }
  const holds = problem.holds.map((hold): CompiledHold => ({
    from: taskIndex.get(hold.fromTask)!,
    until: taskIndex.get(hold.untilTask)!,
    untilEnd: hold.until === 'end',
    resources: numbers(hold.anyOf),
    units: hold.units,
    fixedResource: hold.fixedResource === null ? -1 : resourceIndex.get(hold.fixedResource)!,
  }))
  const asks = modes.map((list) => list.some((mode) => mode.byResource !== null))
  const holdsAt = (end: 'from' | 'until'): Int32Array[] => {
    const lists: number[][] = problem.tasks.map(() => [])
    holds.forEach((hold, h) => lists[hold[end]]!.push(h))
    // Of holds that begin together the one with the fewest places chooses first, or another may take its only one.
    for (const list of lists) list.sort((a, b) => holds[a]!.resources.length - holds[b]!.resources.length)
    return lists.map((list) => new Int32Array(list))
  }
  const holdsFrom = holdsAt('from')
  const jobOf = Int32Array.from(problem.tasks, (task) => jobIndex.get(task.jobId)!)
  const jobs = problem.jobs
  const isFixed = Uint8Array.from(problem.tasks, (task) => (task.fixed === null ? 0 : 1))
  const latestEnd = Int32Array.from(problem.tasks, (task, i) =>
    Math.min(horizon, task.latestEnd ?? unlimited, jobs[jobOf[i]!]!.deadlineAt ?? unlimited),
  )
  problem.tasks.forEach((task, i) => {
    if (task.fixed === null) return
    for (const lag of lagsIn[i]!)
      if (lag.afterEnd) latestEnd[lag.other] = Math.min(latestEnd[lag.other]!, task.fixed.start - lag.min)
  })
  const { groups, groupOf } = components(problem.jobs.length, jobOf, lagsIn, lagsOut, holds, isFixed)

  const single: (Profile | undefined)[] = []
  const cache = new Map<string, Profile>()
  const effective = (profile: number, calendars: readonly number[], level: 0 | 1): Profile => {
    if (calendars.length <= 1) {
      const at = (profile * (problem.calendars.length + 1) + 1 + (calendars[0] ?? -1)) * 2 + level
      return (single[at] ??= product([profiles[profile]!, ...calendars.map((c) => open[level][c]!)], horizon))
    }
    const distinct = [...new Set(calendars)].sort((a, b) => a - b)
    const key = `${profile}/${distinct.join(',')}/${level}`
    let found = cache.get(key)
    if (!found) {
      found = product([profiles[profile]!, ...distinct.map((c) => open[level][c]!)], horizon)
      cache.set(key, found)
    }
    return found
  }
  return {
    problem,
    horizon,
    profiles,
    fastest: Float64Array.from(profiles, (profile) =>
      profile.rate.reduce((most, rate) => Math.max(most, rate), 1),
    ),
    batches: Uint8Array.from(problem.resources, (resource) => (resource.batch ? 1 : 0)),
    calendarOf,
    open,
    overtime: problem.calendars.map((calendar) =>
      calendar.overtime.length === 0 ? null : intervalsProfile(calendar.overtime, horizon),
    ),
    hasOvertime: problem.calendars.some((calendar) => calendar.overtime.length > 0),
    jobOf,
    groupOf,
    breaks: problem.tasks.map((task) => task.breaks),
    family: Int32Array.from(problem.tasks, (task) =>
      task.family === null ? -1 : familyIndex.get(task.family)!,
    ),
    earliest: Int32Array.from(problem.tasks, (task, i) =>
      Math.max(task.earliestStart, jobs[jobOf[i]!]!.releaseAt),
    ),
    latestEnd,
    modes,
    lagsIn,
    lagsOut,
    holds,
    holdsFrom,
    holdsUntil: holdsAt('until'),
    holdsOver: coveringHolds(lagsIn, lagsOut, holds, holdsFrom, asks),
    isFixed,
    groups,
    width: Math.max(1, ...modes.flat().map((mode) => mode.demands.length)),
    families,
    setups: problem.resources.map((resource) => {
      if (resource.setups.length === 0) return null
      const table = new Int32Array(families * families)
      for (const { fromFamily, toFamily, minutes } of resource.setups) {
        const from = familyIndex.get(fromFamily)
        const to = familyIndex.get(toFamily)
        if (from !== undefined && to !== undefined) table[from * families + to] = minutes
      }
      return table
    }),
    effective,
  }
}
