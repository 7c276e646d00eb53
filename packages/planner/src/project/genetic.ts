/**
 * Genetic search over activity lists for the RCPSP, every child improved by double justification: the hybrid genetic
 * algorithm of Valls, Ballestin & Quintanilla 2008 (doi 10.1016/j.ejor.2006.12.033) with the resource-driven time
 * window as crossover of Debels & Vanhoucke 2007 (doi 10.1287/opre.1060.0358). A schedule already in the population
 * is refused, which matters most of all.
 */
import type { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { headsAndTails, projectBound } from './bounds.ts'
import type { Project } from './instance.ts'
import { SerialScheme } from './scheme.ts'

interface Member {
  list: Int32Array
  start: Int32Array
  makespan: number
  hash: number
}

export interface ProjectOutcome {
  readonly start: Int32Array
  readonly makespan: number
  readonly bound: number
}

export interface GeneticSettings {
  readonly population?: number
  readonly mutation?: number
  readonly windowShare?: number
}

export function solveProject(
  project: Project,
  seed: number,
  budget: Budget,
  onImprovement: (start: Int32Array, makespan: number) => void,
  settings: GeneticSettings = {},
): ProjectOutcome {
  const bound = projectBound(project)
  const search = new Genetic(project, new Random(seed), budget, bound, onImprovement, settings)
  search.run()
  return { start: search.best.start, makespan: search.best.makespan, bound }
}

class Genetic {
  best: Member
  private readonly project: Project
  private readonly random: Random
  private readonly budget: Budget
  private readonly bound: number
  private readonly scheme: SerialScheme
  private readonly onImprovement: (start: Int32Array, makespan: number) => void
  private readonly tails: Int32Array
  private readonly size: number
  private readonly mutation: number
  private readonly windowShare: number
  private readonly weight: Float64Array

  constructor(
    project: Project,
    random: Random,
    budget: Budget,
    bound: number,
    onImprovement: (start: Int32Array, makespan: number) => void,
    settings: GeneticSettings,
  ) {
    this.project = project
    this.random = random
    this.budget = budget
    this.bound = bound
    this.onImprovement = onImprovement
    this.scheme = new SerialScheme(project)
    this.tails = headsAndTails(project).tails
    const schedules = budget.scheduleLimit ?? 50_000
    this.size = settings.population ?? Math.max(12, Math.min(180, Math.round(Math.sqrt(schedules) * 0.75)))
    // About eight shifts a list, measured best for 30 as for 120 activities.
    this.mutation = settings.mutation ?? Math.min(0.5, 8 / project.n)
    this.windowShare = settings.windowShare ?? 0.5
    this.weight = new Float64Array(project.n)
    for (let i = 0; i < project.n; i++) {
      let share = 0
      for (let k = 0; k < project.resources; k++)
        share += project.demand[i * project.resources + k]! / project.capacity[k]!
      this.weight[i] = share * project.duration[i]!
    }
    this.best = this.member(Int32Array.from(project.topological))
    this.justify(this.best)
    onImprovement(this.best.start, this.best.makespan)
  }

  run(): void {
    while (!this.isDone()) {
      const population: Member[] = []
      const hashes = new Set<number>()
      while (population.length < this.size && !this.isDone()) {
        const member = this.member(this.sampleList(population.length === 0 ? 0 : 0.3 + this.random.unit()))
        this.justify(member)
        if (hashes.has(member.hash)) {
          this.budget.iterations++
          if (this.random.below(4) > 0) continue
        }
        hashes.add(member.hash)
        population.push(member)
      }
      let idle = 0
      const patience = 30 * this.size
      while (idle < patience && !this.isDone()) {
        this.budget.iterations++
        const before = this.best.makespan
        const father = this.tournament(population)
        let mother = this.tournament(population)
        if (mother === father) mother = population[this.random.below(population.length)]!
        const child = this.member(this.cross(father, mother))
        if (hashes.has(child.hash)) {
          idle++
          continue
        }
        this.justify(child)
        if (hashes.has(child.hash)) {
          idle++
          continue
        }
        const worst = this.worstOf(population)
        if (child.makespan <= worst.makespan) {
          hashes.delete(worst.hash)
          hashes.add(child.hash)
          population[population.indexOf(worst)] = child
        }
        idle = this.best.makespan < before ? 0 : idle + 1
      }
    }
  }

  private isDone(): boolean {
    this.budget.schedules = this.scheme.passes
    return this.best.makespan <= this.bound || this.budget.spent()
  }

  private member(list: Int32Array): Member {
    const start = new Int32Array(this.project.n)
    const makespan = this.scheme.forward(list, start)
    this.scheme.sort(list, makespan, (i) => start[i]!)
    const member = { list, start, makespan, hash: hashOf(start) }
    this.keepBest(member)
    return member
  }

  private justify(member: Member): void {
    member.makespan = this.scheme.justify(member.list, member.start, member.makespan)
    member.hash = hashOf(member.start)
    this.keepBest(member)
  }

  private keepBest(member: Member): void {
    if (this.best && member.makespan >= this.best.makespan) return
    this.best = { ...member, list: member.list.slice(), start: member.start.slice() }
    this.budget.improved(member.makespan)
    this.onImprovement(this.best.start, this.best.makespan)
  }

  private tournament(population: readonly Member[]): Member {
    const a = population[this.random.below(population.length)]!
    const b = population[this.random.below(population.length)]!
    return a.makespan <= b.makespan ? a : b
  }

  private worstOf(population: readonly Member[]): Member {
    let worst = population[0]!
    let ties = 1
    for (const member of population) {
      if (member.makespan > worst.makespan) {
        worst = member
        ties = 1
      } else if (member.makespan === worst.makespan && this.random.below(++ties) === 0) worst = member
    }
    return worst
  }

  /** Random list biased to long tails (regret of the latest finish time), `noise` 0 for the plain rule. */
  private sampleList(noise: number): Int32Array {
    const { n, predecessors, successors, duration } = this.project
    const degree = Int32Array.from(predecessors, (list) => list.length)
    const ready: number[] = []
    for (let i = 0; i < n; i++) if (degree[i] === 0) ready.push(i)
    const list = new Int32Array(n)
    for (let at = 0; at < n; at++) {
      let pick = 0
      let score = -1
      for (let k = 0; k < ready.length; k++) {
        const i = ready[k]!
        const value = (this.tails[i]! + duration[i]! + 1) * (1 + noise * this.random.unit())
        if (value > score) {
          score = value
          pick = k
        }
      }
      const i = ready[pick]!
      ready[pick] = ready.at(-1)!
      ready.pop()
      list[at] = i
      for (const next of successors[i]!) if (--degree[next]! === 0) ready.push(next)
    }
    return list
  }

  /** The father's busiest window in his order; what he does before and after it in the mother's order. */
  private cross(father: Member, mother: Member): Int32Array {
    const { n } = this.project
    const { random } = this
    const list = new Int32Array(n)
    let from = random.below(n)
    let until = from + 1 + random.below(Math.max(1, Math.floor(n * this.windowShare)) + Math.floor(n / 4))
    if (random.below(2) === 0) {
      // Of a few windows, the one with the most work on the resources a minute.
      let densest = -1
      for (let trial = 0; trial < 3; trial++) {
        const a = random.below(n)
        const b = Math.min(n, a + Math.floor(n / 4) + random.below(Math.floor(n / 2)))
        let work = 0
        for (let at = a; at < b; at++) work += this.weight[father.list[at]!]!
        const span = father.start[father.list[b - 1]!]! - father.start[father.list[a]!]! + 1
        if (work / span > densest) {
          densest = work / span
          from = a
          until = b
        }
      }
    }
    if (until > n) until = n
    const zone = new Uint8Array(n)
    for (let at = 0; at < n; at++) zone[father.list[at]!] = at < from ? 0 : at < until ? 1 : 2
    let early = 0
    let late = until
    for (let at = 0; at < n; at++) {
      const i = mother.list[at]!
      if (zone[i] === 0) list[early++] = i
      else if (zone[i] === 2) list[late++] = i
    }
    for (let at = from; at < until; at++) list[at] = father.list[at]!
    this.mutate(list)
    return list
  }

  /** Shifts activities to another place that precedence allows. */
  private mutate(list: Int32Array): void {
    const { n, predecessors, successors } = this.project
    const { random } = this
    for (let at = 0; at < n; at++) {
      if (random.unit() >= this.mutation) continue
      const i = list[at]!
      let low = at
      while (low > 0 && !predecessors[i]!.includes(list[low - 1]!)) low--
      let high = at
      while (high < n - 1 && !successors[i]!.includes(list[high + 1]!)) high++
      const to = low + random.below(high - low + 1)
      if (to < at) list.copyWithin(to + 1, to, at)
      else list.copyWithin(at, at + 1, to + 1)
      list[to] = i
    }
  }
}

function hashOf(start: Int32Array): number {
  let hash = 0x811c9dc5
  for (let i = 0; i < start.length; i++) hash = Math.imul(hash ^ start[i]!, 0x01000193) ^ (hash >>> 15)
  return hash >>> 0
}
