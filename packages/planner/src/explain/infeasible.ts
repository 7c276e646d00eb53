import type { Problem } from '../model/problem.ts'
import { Budget } from '../search/budget.ts'
import { relax } from '../shop/bound.ts'
import { compile } from '../shop/compile.ts'
import { solveShop } from '../shop/solve.ts'
import { dayAndTime } from './explain.ts'

/** One requirement that takes part in a conflict. */
export interface ConflictItem {
  readonly kind:
    'release' | 'precedence' | 'maximumLag' | 'deadline' | 'latestEnd' | 'locked' | 'unavailable' | 'horizon'
  /** Task, job or resource it belongs to. */
  readonly id: string
  readonly text: string
}

export interface Conflict {
  /** `proved`: no plan can exist. `notFound`: no plan was found, and with any one item dropped one was. */
  readonly certainty: 'proved' | 'notFound'
  readonly items: readonly ConflictItem[]
  readonly text: string
}

/**
 * What can't be planned, and the few requirements that clash. First the time-related rules alone, where the chain of
 * longest paths is a proof; then, with resources, QuickXplain (Junker 2004) over deadlines, locks, maximum lags and
 * absences with the planner itself as the test. Null when a plan was found.
 */
export function explainInfeasible(
  problem: Problem,
  options: { readonly iterations?: number; readonly show?: (minute: number) => string } = {},
): Conflict | null {
  const show = options.show ?? dayAndTime
  const compiled = compile(problem)
  const relaxation = relax(compiled)
  if (relaxation.conflict !== null)
    return proved(problem, relaxation.conflict, relaxation.start, relaxation.end, show)
  const iterations = options.iterations ?? 40
  const isPlannable = (candidate: Problem): boolean => {
    const budget = new Budget({ iterations }, null, null)
    const result = solveShop(candidate, {
      seed: 1,
      budget,
      progress: () => budget.progress(),
      baseline: null,
      onImprovement: null,
    })
    return result.plan.unplannedJobs.length === 0
  }
  if (isPlannable(problem)) return null
  const soft = softItems(problem, show)
  const without = (dropped: ReadonlySet<SoftItem>): Problem =>
    [...dropped].reduce((rest, item) => item.drop(rest), problem)
  const isConsistent = (kept: readonly SoftItem[]): boolean =>
    isPlannable(without(new Set(soft.filter((item) => !kept.includes(item)))))
  if (!isConsistent([])) {
    const text =
      'No plan was found even without any deadline, lock, maximum lag or absence: the work itself finds no room before the horizon.'
    const item: ConflictItem = {
      kind: 'horizon',
      id: '',
      text: `the horizon ends ${show(problem.horizonMinutes)}`,
    }
    return { certainty: 'notFound', items: [item], text }
  }
  const items = quickXplain([], [], soft, isConsistent)
  return {
    certainty: 'notFound',
    items: items.map(({ kind, id, text }) => ({ kind, id, text })),
    text: `No plan was found that keeps all of these: ${items.map((item) => item.text).join('; ')}. Without any one of them there is one.`,
  }
}

function proved(
  problem: Problem,
  chain: readonly number[],
  start: Int32Array,
  end: Int32Array,
  show: (minute: number) => string,
): Conflict {
  const items: ConflictItem[] = []
  const first = problem.tasks[chain[0]!]!
  const job = problem.jobs.find((candidate) => candidate.id === first.jobId)!
  items.push({
    kind: 'release',
    id: first.id,
    text: `${first.id} can't start before ${show(Math.max(job.releaseAt, first.earliestStart, first.fixed?.start ?? 0))}`,
  })
  chain.slice(1).forEach((i, k) => {
    const from = problem.tasks[chain[k]!]!
    const to = problem.tasks[i]!
    const forward = problem.lags.find((lag) => lag.from === from.id && lag.to === to.id)
    if (forward)
      items.push({
        kind: 'precedence',
        id: to.id,
        text: `${to.id} follows ${from.id}, so it can't start before ${show(start[i]!)}`,
      })
    else
      items.push({
        kind: 'maximumLag',
        id: to.id,
        text: `${to.id} may be followed by ${from.id} only so soon that it can't start before ${show(start[i]!)}`,
      })
  })
  const last = problem.tasks[chain.at(-1)!]!
  const lastJob = problem.jobs.find((candidate) => candidate.id === last.jobId)!
  const limits = [
    { at: last.latestEnd ?? Infinity, kind: 'latestEnd' as const, text: `${last.id} must end by` },
    { at: lastJob.deadlineAt ?? Infinity, kind: 'deadline' as const, text: `${lastJob.id} must be done by` },
    { at: problem.horizonMinutes, kind: 'horizon' as const, text: 'the horizon ends' },
  ]
  const limit = limits.reduce((least, candidate) => (candidate.at < least.at ? candidate : least))
  items.push({ kind: limit.kind, id: last.id, text: `${limit.text} ${show(limit.at)}` })
  const done = end[chain.at(-1)!]!
  const ends = done >= problem.horizonMinutes ? 'not before the horizon' : `at ${show(done)} at the earliest`
  return {
    certainty: 'proved',
    items,
    text: `No plan can exist: ${items.map((item) => item.text).join('; ')}; but ${last.id} ends ${ends}, with everybody free.`,
  }
}

interface SoftItem extends ConflictItem {
  readonly drop: (problem: Problem) => Problem
}

/** Requirements somebody could give way on. */
function softItems(problem: Problem, show: (minute: number) => string): SoftItem[] {
  const items: SoftItem[] = []
  for (const job of problem.jobs) {
    if (job.deadlineAt === null) continue
    items.push({
      kind: 'deadline',
      id: job.id,
      text: `${job.id} must be done by ${show(job.deadlineAt)}`,
      drop: (p) => ({
        ...p,
        jobs: p.jobs.map((other) => (other.id === job.id ? { ...other, deadlineAt: null } : other)),
      }),
    })
  }
  for (const task of problem.tasks) {
    if (task.latestEnd !== null) {
      items.push({
        kind: 'latestEnd',
        id: task.id,
        text: `${task.id} must end by ${show(task.latestEnd)}`,
        drop: (p) => ({
          ...p,
          tasks: p.tasks.map((other) => (other.id === task.id ? { ...other, latestEnd: null } : other)),
        }),
      })
    }
    if (task.fixed?.state !== 'locked') continue
    items.push({
      kind: 'locked',
      id: task.id,
      text: `${task.id} is locked at ${show(task.fixed.start)}`,
      drop: (p) => ({
        ...p,
        tasks: p.tasks.map((other) => (other.id === task.id ? { ...other, fixed: null } : other)),
      }),
    })
  }
  for (const lag of problem.lags) {
    if (lag.maxMinutes === null) continue
    items.push({
      kind: 'maximumLag',
      id: lag.to,
      text: `${lag.to} starts at most ${lag.maxMinutes} min after the ${lag.after} of ${lag.from}`,
      drop: (p) => ({
        ...p,
        lags: p.lags.map((other) =>
          other.from === lag.from && other.to === lag.to ? { ...other, maxMinutes: null } : other,
        ),
      }),
    })
  }
  for (const resource of problem.resources) {
    for (const [from, until] of resource.unavailable) {
      items.push({
        kind: 'unavailable',
        id: resource.id,
        text: `${resource.id} is unavailable from ${show(from)} to ${show(until)}`,
        drop: (p) => ({
          ...p,
          resources: p.resources.map((other) =>
            other.id === resource.id
              ? { ...other, unavailable: other.unavailable.filter(([a]) => a !== from) }
              : other,
          ),
        }),
      })
    }
  }
  return items
}

/** Junker 2004: a conflict from which nothing can be left out, in about k log(n / k) tests. */
function quickXplain(
  kept: readonly SoftItem[],
  added: readonly SoftItem[],
  rest: readonly SoftItem[],
  isConsistent: (items: readonly SoftItem[]) => boolean,
): SoftItem[] {
  if (added.length > 0 && !isConsistent(kept)) return []
  if (rest.length <= 1) return [...rest]
  const half = rest.length >> 1
  const first = rest.slice(0, half)
  const second = rest.slice(half)
  const inSecond = quickXplain([...kept, ...first], first, second, isConsistent)
  const inFirst = quickXplain([...kept, ...inSecond], inSecond, first, isConsistent)
  return [...inFirst, ...inSecond]
}
