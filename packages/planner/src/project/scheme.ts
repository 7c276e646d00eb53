import type { Project } from './instance.ts'

/**
 * Serial schedule generation scheme (Kolisch 1996, doi 10.1016/0377-2217(95)00357-6) forwards and backwards, and
 * double justification (Valls, Ballestin & Quintanilla 2005, doi 10.1016/j.ejor.2004.04.008). Every pass counts as
 * one schedule.
 */
export class SerialScheme {
  readonly project: Project
  /** Passes so far. */
  passes = 0
  private readonly usage: Int32Array
  private readonly count: Int32Array
  private readonly sorted: Int32Array
  private readonly needs: Int32Array
  private readonly needFrom: Int32Array

  constructor(project: Project) {
    this.project = project
    const { n, resources, demand, horizon } = project
    this.usage = new Int32Array((horizon + 1) * resources)
    this.count = new Int32Array(horizon + 2)
    this.sorted = new Int32Array(n)
    const needs: number[] = []
    this.needFrom = new Int32Array(n + 1)
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < resources; k++) if (demand[i * resources + k]! > 0) needs.push(k)
      this.needFrom[i + 1] = needs.length
    }
    this.needs = Int32Array.from(needs)
  }

  /** Starts each activity of the list as early as it can; returns the makespan. */
  forward(list: Int32Array, start: Int32Array): number {
    const { n, duration, predecessors, release } = this.project
    this.passes++
    this.usage.fill(0)
    let makespan = 0
    for (let at = 0; at < n; at++) {
      const i = list[at]!
      let t = release[i]!
      const before = predecessors[i]!
      for (let k = 0; k < before.length; k++) {
        const end = start[before[k]!]! + duration[before[k]!]!
        if (end > t) t = end
      }
      t = this.book(i, t)
      start[i] = t
      if (t + duration[i]! > makespan) makespan = t + duration[i]!
    }
    return makespan
  }

  /** Ends each activity of the list as late as it can before `deadline`. */
  private backward(list: Int32Array, start: Int32Array, deadline: number): void {
    const { n, duration, successors } = this.project
    this.passes++
    this.usage.fill(0)
    for (let at = 0; at < n; at++) {
      const i = list[at]!
      let end = deadline
      const after = successors[i]!
      for (let k = 0; k < after.length; k++) if (start[after[k]!]! < end) end = start[after[k]!]!
      // In mirrored time the latest end is the earliest start.
      start[i] = deadline - this.book(i, deadline - end) - duration[i]!
    }
  }

  /** First minute from `from` on at which the activity fits; books it. */
  private book(i: number, from: number): number {
    const { resources, demand, capacity, duration } = this.project
    const { usage, needs, needFrom } = this
    const work = duration[i]!
    const first = needFrom[i]!
    const last = needFrom[i + 1]!
    let t = from
    if (work === 0 || first === last) return t
    // Scan from the far end of the window: a conflict there skips the most.
    for (let ok = false; !ok;) {
      ok = true
      for (let minute = t + work - 1; minute >= t; minute--) {
        const cell = minute * resources
        for (let k = first; k < last; k++) {
          const r = needs[k]!
          if (usage[cell + r]! + demand[i * resources + r]! > capacity[r]!) {
            t = minute + 1
            ok = false
            break
          }
        }
        if (!ok) break
      }
    }
    for (let minute = t; minute < t + work; minute++) {
      const cell = minute * resources
      for (let k = first; k < last; k++) usage[cell + needs[k]!]! += demand[i * resources + needs[k]!]!
    }
    return t
  }

  /**
   * Backward then forward pass over a schedule; rewrites `list` (by start) and `start`. Returns the makespan, never
   * longer than before. Reversing before the stable sort keeps activities without duration in precedence order.
   */
  justify(list: Int32Array, start: Int32Array, makespan: number): number {
    const { duration } = this.project
    list.reverse()
    this.sort(list, makespan, (i) => makespan - start[i]! - duration[i]!)
    this.backward(list, start, makespan)
    list.reverse()
    this.sort(list, makespan, (i) => start[i]!)
    const result = this.forward(list, start)
    this.sort(list, result, (i) => start[i]!)
    return result
  }

  /** Stable counting sort of the list by a key from 0 to `limit`. */
  sort(list: Int32Array, limit: number, key: (i: number) => number): void {
    const { n } = this.project
    const { count, sorted } = this
    count.fill(0, 0, limit + 2)
    for (let at = 0; at < n; at++) count[key(list[at]!) + 1]!++
    for (let value = 1; value <= limit + 1; value++) count[value]! += count[value - 1]!
    for (let at = 0; at < n; at++) sorted[count[key(list[at]!)]!++] = list[at]!
    list.set(sorted)
  }
}
