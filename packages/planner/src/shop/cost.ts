import { objectiveTerms, type ObjectiveTerm } from '../model/problem.ts'
import type { ObjectiveValues } from '../model/plan.ts'
import type { Board } from './board.ts'
import type { Compiled } from './compiled.ts'
import type { Published } from './published.ts'

/** Price of a group that found no place: above anything else. */
const unplaced = 1e12
/** A level of a lexicographic objective outweighs this much of the next in the annealer, and all of it in the best. */
const levelRatio = 1e-6

/** Prices the plan on a board, group by group, so that a change costs only what it touches. */
export class Cost {
  readonly perGroup: Float64Array
  private readonly end: Int32Array
  private readonly factor: Readonly<Record<ObjectiveTerm, number>>
  private readonly board: Board
  private readonly compiled: Compiled
  private readonly published: Published | null
  private readonly usesStocks: boolean
  private readonly overtimeCost: Float64Array

  constructor(board: Board, published: Published | null) {
    this.board = board
    this.compiled = board.compiled
    this.published = published
    const { objective, stocks, resources } = this.compiled.problem
    const factor: Record<ObjectiveTerm, number> = {
      weightedTardiness: 0,
      shortage: 0,
      waste: 0,
      overtime: 0,
      change: 0,
      makespan: 0,
    }
    if (objective.kind === 'weighted')
      for (const term of objectiveTerms) factor[term] = objective.weights[term] ?? 0
    else objective.order.forEach((term, level) => (factor[term] = levelRatio ** level))
    this.factor = factor
    this.usesStocks = stocks.length > 0 && (factor.shortage > 0 || factor.waste > 0)
    this.overtimeCost = Float64Array.from(resources, (resource) => resource.overtimeCostPerMinute)
    this.perGroup = new Float64Array(this.compiled.groups.length)
    this.end = new Int32Array(this.compiled.groups.length)
  }

  /** Works out the cost of one group anew. */
  updateGroup(g: number): number {
    const { board, compiled, factor } = this
    if (!board.isPlaced(g)) {
      this.end[g] = 0
      return (this.perGroup[g] = unplaced)
    }
    const { tasks } = compiled.groups[g]!
    let last = 0
    for (let k = 0; k < tasks.length; k++) if (board.end[tasks[k]!]! > last) last = board.end[tasks[k]!]!
    this.end[g] = last
    let cost = factor.weightedTardiness * this.tardiness(g)
    if (compiled.hasOvertime && factor.overtime > 0) cost += factor.overtime * this.overtime(g)
    if (this.published !== null && factor.change > 0) cost += factor.change * this.change(g)
    return (this.perGroup[g] = cost)
  }

  total(): number {
    let sum = 0
    let last = 0
    for (let g = 0; g < this.perGroup.length; g++) {
      sum += this.perGroup[g]!
      if (this.end[g]! > last) last = this.end[g]!
    }
    sum += this.factor.makespan * last
    if (this.usesStocks) {
      const { shortage, waste } = this.stocks()
      sum += this.factor.shortage * shortage + this.factor.waste * waste
    }
    return sum
  }

  updateAll(): number {
    for (let g = 0; g < this.perGroup.length; g++) this.updateGroup(g)
    return this.total()
  }

  /** The unweighted terms of the whole plan. */
  values(): ObjectiveValues {
    let weightedTardiness = 0
    let overtime = 0
    let change = 0
    let makespan = 0
    for (let g = 0; g < this.perGroup.length; g++) {
      weightedTardiness += this.tardiness(g)
      overtime += this.overtime(g)
      change += this.change(g)
    }
    for (let i = 0; i < this.board.start.length; i++)
      if (this.board.start[i]! >= 0) makespan = Math.max(makespan, this.board.end[i]!)
    return { weightedTardiness, ...this.stocks(), overtime, change, makespan }
  }

  private tardiness(g: number): number {
    const { board, compiled } = this
    const { jobs } = compiled.problem
    const group = compiled.groups[g]!
    let sum = 0
    for (let k = 0; k < group.jobs.length; k++) {
      const j = group.jobs[k]!
      const { dueAt, weight } = jobs[j]!
      if (dueAt === null) continue
      let last = 0
      for (let t = 0; t < group.tasks.length; t++) {
        const i = group.tasks[t]!
        if (compiled.jobOf[i] === j && board.start[i]! >= 0 && board.end[i]! > last) last = board.end[i]!
      }
      if (last > dueAt) sum += weight * (last - dueAt)
    }
    return sum
  }

  private overtime(g: number): number {
    const { board, compiled } = this
    if (!compiled.hasOvertime) return 0
    let sum = 0
    for (const i of compiled.groups[g]!.tasks) {
      if (board.overtime[i] === 0 || board.start[i]! < 0 || compiled.breaks[i] === 'ignore') continue
      const { demands } = compiled.modes[i]![board.mode[i]!]!
      demands.forEach((demand, d) => {
        const r = board.taken[i * compiled.width + d]!
        const profile = compiled.calendarOf[r]! < 0 ? null : compiled.overtime[compiled.calendarOf[r]!]!
        if (profile)
          sum +=
            demand.units *
            this.overtimeCost[r]! *
            (profile.workBy(board.end[i]!) - profile.workBy(board.start[i]!))
      })
    }
    return sum
  }

  private change(g: number): number {
    const { board, compiled, published } = this
    if (published === null) return 0
    const { perMinuteMoved, perResourceChanged, fadesOutAt } = compiled.problem.stability
    const { tasks, holds } = compiled.groups[g]!
    let sum = 0
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!
      const before = published.start[i]!
      if (before < 0 || board.start[i]! < 0) continue
      const fade = fadesOutAt === null ? 1 : Math.max(0, 1 - before / fadesOutAt)
      sum += perMinuteMoved * fade * Math.abs(board.start[i]! - before)
      for (let d = 0; d < compiled.width; d++) {
        const r = published.taken[i * compiled.width + d]!
        if (r >= 0 && r !== board.taken[i * compiled.width + d]) sum += perResourceChanged
      }
    }
    for (let k = 0; k < holds.length; k++) {
      const h = holds[k]!
      if (
        published.holdResource[h]! >= 0 &&
        board.holdStart[h]! >= 0 &&
        published.holdResource[h] !== board.holdResource[h]
      )
        sum += perResourceChanged
    }
    return sum
  }

  /** First-expired-first-out use of the lots in the order of starts. */
  private stocks(): { shortage: number; waste: number } {
    const { problem } = this.compiled
    const { start } = this.board
    let shortage = 0
    let waste = 0
    for (const stock of problem.stocks) {
      const lots = stock.lots
        .map((lot) => ({ amount: lot.amount, expiresAt: lot.expiresAt ?? Infinity }))
        .sort((a, b) => a.expiresAt - b.expiresAt)
      const uses = problem.tasks
        .flatMap((task, i) =>
          task.uses
            .filter((use) => use.stockId === stock.id && start[i]! >= 0)
            .map((use) => ({ at: start[i]!, amount: use.amount })),
        )
        .sort((a, b) => a.at - b.at)
      for (const use of uses) {
        let needed = use.amount
        for (const lot of lots) {
          if (needed === 0) break
          if (lot.expiresAt <= use.at) continue
          const taken = Math.min(needed, lot.amount)
          lot.amount -= taken
          needed -= taken
        }
        shortage += needed
      }
      for (const lot of lots) if (lot.expiresAt <= problem.horizonMinutes) waste += lot.amount
    }
    return { shortage, waste }
  }
}
