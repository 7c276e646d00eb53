/**
 * A problem as a mixed-integer linear program, in the LP text form that most solvers read: start times, one binary for
 * each order of two stays on one resource, big M over the windows of both (Manne 1960, doi 10.1287/opre.8.2.219).
 * For tests and benches, as a second opinion that knows nothing of the engine.
 */
import type { Problem } from '../model/problem.ts'
import { timeWindows, type Window } from './time-windows.ts'

/** Variable to coefficient; '' is the constant. */
type Linear = ReadonlyMap<string, number>

interface Stay {
  readonly start: Linear
  readonly end: Linear
  readonly window: Window
  readonly units: number
  /** The resources it may be on, each with the binary that says so; null: it is there in any case. */
  readonly on: ReadonlyMap<string, string | null>
}

const linear = (terms: Readonly<Record<string, number>>): Linear => new Map(Object.entries(terms))

function sum(...parts: readonly (readonly [factor: number, part: Linear])[]): Linear {
  const total = new Map<string, number>()
  for (const [factor, part] of parts)
    for (const [name, value] of part) total.set(name, (total.get(name) ?? 0) + factor * value)
  return total
}

const text = (expression: Linear): string =>
  [...expression]
    .filter(([name]) => name !== '')
    .map(([name, value]) => `${value < 0 ? '-' : '+'} ${Math.abs(value)} ${name}`)
    .join(' ')

/** Whether pairs of stays on one resource, told apart by order, are all that its capacity forbids. */
function isDisjunctive(stays: readonly Stay[], capacity: number): boolean {
  const peaceful = stays.filter((a) => stays.some((b) => a !== b && a.units + b.units <= capacity))
  return peaceful.reduce((units, stay) => units + stay.units, 0) <= capacity
}

/** Whether every duration is constant and positive and nothing is asked that the program below leaves out. */
function canBeSaid(problem: Problem): boolean {
  const { objective } = problem
  const isAsked = new Set([
    ...problem.tasks.flatMap(({ modes }) =>
      modes.flatMap(({ demands }) => demands.flatMap(({ anyOf }) => anyOf)),
    ),
    ...problem.holds.flatMap(({ anyOf }) => anyOf),
  ])
  const terms = objective.kind === 'weighted' ? Object.keys(objective.weights) : objective.order.slice(0, 1)
  return (
    terms.every((term) => ['makespan', 'weightedTardiness', 'overtime'].includes(term)) &&
    problem.resources.every(
      ({ id, calendarId, batch, setups }) =>
        !isAsked.has(id) || (calendarId === null && !batch && setups.length === 0),
    ) &&
    problem.tasks.every(
      ({ fixed, uses, modes }) =>
        fixed === null &&
        uses.length === 0 &&
        modes.every(({ work, profileId }) => work > 0 && profileId === null),
    ) &&
    problem.holds.every(
      ({ fromTask, untilTask, until }) =>
        until === 'end' ||
        problem.lags.some((lag) => lag.from === fromTask && lag.to === untilTask && lag.after === 'end'),
    )
  )
}

/**
 * The program, or null where it can't say the problem (calendars, profiles, batches, set-up, stock, facts, shared
 * capacity). Of a lexicographic objective it has the first level. `below` asks only for plans that cost at least one
 * less, which tightens every window; it needs whole-number prices.
 */
export function disjunctiveMilp(problem: Problem, below = Infinity): string | null {
  if (!canBeSaid(problem)) return null
  const rows: string[] = []
  const bounds: string[] = []
  const binaries: string[] = []
  const row = (expression: Linear, sense: '<=' | '>=' | '=', right: number): void => {
    rows.push(` c${rows.length}: ${text(expression)} ${sense} ${right - (expression.get('') ?? 0)}`)
  }
  const binary = (name: string): string => {
    binaries.push(name)
    return name
  }
  const windows = timeWindows(problem, below)
  const number = new Map(problem.tasks.map((task, i) => [task.id, i]))
  const start = problem.tasks.map((_, i) => linear({ [`s${i}`]: 1 }))
  const stays: Stay[] = []
  const end = problem.tasks.map((task, i) => {
    const window = windows[i]!
    bounds.push(` ${window.earliest} <= s${i} <= ${window.latest}`)
    const isChoice = task.modes.length > 1
    const chosen = task.modes.map((_, m) => (isChoice ? binary(`z${i}_${m}`) : null))
    if (isChoice) row(linear(Object.fromEntries(chosen.map((name) => [name!, 1]))), '=', 1)
    const length = new Map<string, number>()
    task.modes.forEach((mode, m) => length.set(chosen[m] ?? '', mode.work))
    const ends = sum([1, start[i]!], [1, length])
    task.modes.forEach((mode, m) =>
      mode.demands.forEach(({ anyOf, units }, d) => {
        const on = new Map(
          anyOf.map((id, r) => [id, anyOf.length === 1 ? chosen[m]! : binary(`y${i}_${m}_${d}_${r}`)]),
        )
        if (anyOf.length > 1) {
          const any = linear(Object.fromEntries([...on.values()].map((name) => [name!, 1])))
          if (chosen[m] === null) row(any, '=', 1)
          else row(sum([1, any], [-1, linear({ [chosen[m]!]: 1 })]), '=', 0)
        }
        stays.push({ start: start[i]!, end: ends, window, units, on })
      }),
    )
    return ends
  })
  problem.holds.forEach((hold, h) => {
    const [from, until] = [number.get(hold.fromTask)!, number.get(hold.untilTask)!]
    const anyOf = hold.fixedResource === null ? hold.anyOf : [hold.fixedResource]
    const on = new Map(anyOf.map((id, r) => [id, anyOf.length === 1 ? null : binary(`h${h}_${r}`)]))
    if (anyOf.length > 1) row(linear(Object.fromEntries([...on.values()].map((name) => [name!, 1]))), '=', 1)
    stays.push({
      start: start[from]!,
      end: hold.until === 'end' ? end[until]! : start[until]!,
      window: { ...windows[from]!, latestEnd: windows[until]!.latestEnd },
      units: hold.units,
      on,
    })
  })
  for (const { id, unavailable, capacity } of problem.resources) {
    for (const [from, until] of unavailable) {
      const window = { earliest: from, latest: from, latestEnd: until }
      const on = new Map([[id, null]])
      stays.push({ start: linear({ '': from }), end: linear({ '': until }), window, units: capacity, on })
    }
  }
  for (const lag of problem.lags) {
    const [from, to] = [number.get(lag.from)!, number.get(lag.to)!]
    const wait = sum([1, start[to]!], [-1, lag.after === 'end' ? end[from]! : start[from]!])
    row(wait, '>=', lag.minMinutes)
    if (lag.maxMinutes !== null) row(wait, '<=', lag.maxMinutes)
  }
  for (const { id, capacity } of problem.resources) {
    const here = stays.filter((stay) => stay.on.has(id))
    if (!isDisjunctive(here, capacity)) return null
    for (const [k, a] of here.entries()) {
      for (const b of here.slice(k + 1)) {
        if (a.units + b.units <= capacity) continue
        const order = binary(`o${rows.length}`)
        const absent = [a, b].flatMap((stay) => stay.on.get(id) ?? [])
        // One before the other, unless one of the two is elsewhere.
        const before = (first: Stay, second: Stay, unless: Linear): void => {
          const big = Math.max(0, first.window.latestEnd - second.window.earliest)
          const slack = absent.map((name) => [-big, linear({ '': 1, [name]: -1 })] as const)
          row(sum([1, first.end], [-1, second.start], [-big, unless], ...slack), '<=', 0)
        }
        before(a, b, linear({ [order]: 1 }))
        before(b, a, linear({ '': 1, [order]: -1 }))
      }
    }
  }
  const price = objectiveOf(problem)
  problem.tasks.forEach((task, i) => {
    const j = problem.jobs.findIndex((job) => job.id === task.jobId)
    const job = problem.jobs[j]!
    row(end[i]!, '<=', windows[i]!.latestEnd)
    row(sum([1, linear({ makespan: 1 })], [-1, end[i]!]), '>=', 0)
    if (job.dueAt !== null) row(sum([1, linear({ [`t${j}`]: 1 })], [-1, end[i]!]), '>=', -job.dueAt)
  })
  if (below < Infinity) row(price, '<=', below - 1)
  return [
    'Minimize',
    ` cost: ${text(price)}`,
    'Subject To',
    ...rows,
    'Bounds',
    ...bounds,
    'Binary',
    ...binaries.map((name) => ` ${name}`),
    'End',
    '',
  ].join('\n')
}

function objectiveOf({ objective, jobs }: Problem): Linear {
  const weightOf = (term: 'makespan' | 'weightedTardiness'): number =>
    objective.kind === 'weighted' ? (objective.weights[term] ?? 0) : objective.order[0] === term ? 1 : 0
  const tardiness = jobs.flatMap((job, j) =>
    job.dueAt === null ? [] : [[`t${j}`, job.weight * weightOf('weightedTardiness')] as const],
  )
  return new Map([['makespan', weightOf('makespan')], ...tardiness])
}
