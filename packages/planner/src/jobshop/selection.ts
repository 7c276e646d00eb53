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
  /** Operations in topological order. */
  readonly order: Int32Array
  makespan = 0
  private readonly degree: Uint8Array

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
    this.makespan = other.makespan
  }

  /** Heads from scratch. False when the order has a cycle (heads are then meaningless). */
  evaluateHeads(): boolean {
    const { n, before, after, release } = this.shop
    const { previous, next, head, order, degree, duration } = this
    let filled = 0
    for (let i = 0; i < n; i++) {
      const d = (before[i] !== n ? 1 : 0) + (previous[i] !== n ? 1 : 0)
      degree[i] = d
      if (d === 0) order[filled++] = i
    }
    for (let at = 0; at < filled; at++) {
      const i = order[at]!
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
}
