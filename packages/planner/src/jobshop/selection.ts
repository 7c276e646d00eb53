import type { JobShop } from './instance.ts'

/**
 * A complete selection of the disjunctive graph: a machine for each operation and an order on each machine, with
 * heads and tails. `head` is the earliest start; `tail` the longest path from the start of the operation to the end,
 * its own duration included, so that makespan = max(head + tail).
 */
export class Selection {
  readonly shop: JobShop
  /** Index into the shop's choices. */
  readonly choice: Int32Array
  readonly machine: Int32Array
  readonly duration: Int32Array
  readonly previous: Int32Array
  readonly next: Int32Array
  readonly head: Int32Array
  readonly tail: Int32Array
  /** Operations in topological order, and where each stands in it. */
  readonly order: Int32Array
  readonly position: Int32Array
  makespan = 0
  private readonly degree: Uint8Array
  private readonly later: Int32Array

  constructor(shop: JobShop) {
    const { n } = shop
    this.shop = shop
    this.choice = new Int32Array(n)
    this.machine = new Int32Array(n + 1).fill(-1)
    this.duration = new Int32Array(n + 1)
    this.previous = new Int32Array(n + 1).fill(n)
    this.next = new Int32Array(n + 1).fill(n)
    this.head = new Int32Array(n + 1)
    this.tail = new Int32Array(n + 1)
    this.order = new Int32Array(n)
    this.position = new Int32Array(n + 1)
    this.later = new Int32Array(n)
    this.degree = new Uint8Array(n + 1)
  }

  choose(operation: number, choice: number): void {
    this.choice[operation] = choice
    this.machine[operation] = this.shop.choiceMachine[choice]!
    this.duration[operation] = this.shop.choiceDuration[choice]!
  }

  /** Chains the machines in the order of `list`, which must respect the jobs' chains; choices stay. */
  sequence(list: ArrayLike<number>): void {
    const { n, machines } = this.shop
    const last = new Int32Array(machines).fill(n)
    for (let i = 0; i < n; i++) {
      const operation = list[i]!
      const before = last[this.machine[operation]!]!
      this.previous[operation] = before
      this.next[operation] = n
      if (before !== n) this.next[before] = operation
      last[this.machine[operation]!] = operation
    }
  }

  copyFrom(other: Selection): void {
    this.choice.set(other.choice)
    this.machine.set(other.machine)
    this.duration.set(other.duration)
    this.previous.set(other.previous)
    this.next.set(other.next)
    this.head.set(other.head)
    this.tail.set(other.tail)
    this.order.set(other.order)
    this.position.set(other.position)
    this.makespan = other.makespan
  }

  /** Heads from scratch. False when the order has a cycle (heads are then meaningless). */
  evaluateHeads(): boolean {
    const { n, before, after, release } = this.shop
    const { previous, next, head, order, position, degree, duration } = this
    let filled = 0
    for (let i = 0; i < n; i++) {
      const d = (before[i] !== n ? 1 : 0) + (previous[i] !== n ? 1 : 0)
      degree[i] = d
      if (d === 0) order[filled++] = i
    }
    for (let at = 0; at < filled; at++) {
      const i = order[at]!
      position[i] = at
      const chain = before[i]!
      const machine = previous[i]!
      const a = head[chain]! + duration[chain]!
      const b = head[machine]! + duration[machine]!
      const c = release[i]!
      const ab = a > b ? a : b
      head[i] = ab > c ? ab : c
      const s = after[i]!
      if (s !== n && --degree[s]! === 0) order[filled++] = s
      const t = next[i]!
      if (t !== n && --degree[t]! === 0) order[filled++] = t
    }
    return filled === n
  }

  /** Heads, tails and makespan from scratch. False when the order has a cycle. */
  evaluate(): boolean {
    if (!this.evaluateHeads()) return false
    const { n, after } = this.shop
    const { next, head, tail, order, duration } = this
    let makespan = 0
    for (let at = n - 1; at >= 0; at--) {
      const i = order[at]!
      const a = tail[after[i]!]!
      const b = tail[next[i]!]!
      const t = (a > b ? a : b) + duration[i]!
      tail[i] = t
      if (head[i]! + t > makespan) makespan = head[i]! + t
    }
    this.makespan = makespan
    return true
  }

  /**
   * Brings the order up to date after operations from `u` to `v` on one machine were moved among themselves, where `u`
   * was their first and `v` their last. Only what lies between them moves: first what must now come before `v`,
   * then the rest. False, with nothing changed, when the move makes a cycle.
   */
  reorder(u: number, v: number): boolean {
    const { after } = this.shop
    const { next, order, position, degree, later } = this
    const from = position[u]!
    const to = position[v]!
    // `degree` serves as marks here: 1 for what leads to v.
    degree[v] = 1
    for (let at = to - 1; at >= from; at--) {
      const i = order[at]!
      degree[i] = degree[after[i]!]! | degree[next[i]!]!
    }
    const isCycle = degree[u] === 1
    let filled = from
    let left = 0
    for (let at = from; at <= to; at++) {
      const i = order[at]!
      if (degree[i] === 1) {
        degree[i] = 0
        if (isCycle) continue
        position[i] = filled
        order[filled++] = i
      } else later[left++] = i
    }
    if (isCycle) return false
    for (let k = 0; k < left; k++) {
      const i = later[k]!
      position[i] = filled
      order[filled++] = i
    }
    return true
  }

  /** As `evaluateHeads` after such a move; false, with the heads as they were, when it makes a cycle. */
  evaluateHeadsAfter(u: number, v: number): boolean {
    const { n, before, release } = this.shop
    const { previous, head, order, duration } = this
    const from = this.position[u]!
    if (!this.reorder(u, v)) return false
    for (let at = from; at < n; at++) {
      const i = order[at]!
      const chain = before[i]!
      const machine = previous[i]!
      const a = head[chain]! + duration[chain]!
      const b = head[machine]! + duration[machine]!
      const c = release[i]!
      const ab = a > b ? a : b
      head[i] = ab > c ? ab : c
    }
    return true
  }

  /** As `evaluate` after such a move. */
  evaluateAfter(u: number, v: number): boolean {
    const { n, after } = this.shop
    const { next, head, tail, order, duration } = this
    const to = this.position[v]!
    if (!this.evaluateHeadsAfter(u, v)) return false
    for (let at = to; at >= 0; at--) {
      const i = order[at]!
      const a = tail[after[i]!]!
      const b = tail[next[i]!]!
      tail[i] = (a > b ? a : b) + duration[i]!
    }
    let makespan = 0
    for (let i = 0; i < n; i++) {
      const end = head[i]! + duration[i]!
      if (end > makespan) makespan = end
    }
    this.makespan = makespan
    return true
  }
}
