/**
 * Tabu search for the flexible job shop. A move takes one critical operation out and puts it back anywhere on any of
 * its machines; after Mastrolilli & Gambardella 2000 (doi 10.1002/(SICI)1099-1425(200001/02)3:1<3::AID-JOS32>3.0.CO;2-Y)
 * only places between two sets of operations are tried, which are surely free of cycles and contain a best one.
 * Heads and tails are those of the graph without the operation, so the new makespan is known exactly.
 */
import type { Budget } from '../search/budget.ts'
import type { Random } from '../search/random.ts'
import type { Selection } from './selection.ts'

/** Weight of the path through the moved operation beside the makespan: it only breaks ties. */
const pathShare = 1e-6

export class FlexibleTabu {
  /** Until when an operation may not go to a machine. */
  private readonly tabu: Int32Array
  private readonly heads: Int32Array
  private readonly tails: Int32Array
  /** Latest end of the operations before each position of the topological order. */
  private readonly endBefore: Int32Array
  private readonly critical: Int32Array
  private readonly line: Int32Array
  private readonly lineFrom: Int32Array
  private readonly lineSize: Int32Array
  private readonly random: Random
  private readonly budget: Budget
  private clock = 0
  private score = 0
  private ties = 0
  private moved = -1
  private movedChoice = -1
  private movedAfter = -1
  private fallbackTies = 0
  private fallback = -1
  private fallbackChoice = -1
  private fallbackAfter = -1

  constructor(sample: Selection, random: Random, budget: Budget) {
    const { n, machines } = sample.shop
    this.tabu = new Int32Array(n * machines)
    this.heads = new Int32Array(n + 1)
    this.tails = new Int32Array(n + 1)
    this.endBefore = new Int32Array(n + 1)
    this.critical = new Int32Array(n)
    this.line = new Int32Array(n)
    this.lineFrom = new Int32Array(machines)
    this.lineSize = new Int32Array(machines)
    this.random = random
    this.budget = budget
  }

  /** As `BlockTabu.run`. */
  run(now: Selection, best: Selection, cutoff: number, bound: number): boolean {
    best.copyFrom(now)
    this.tabu.fill(0)
    this.clock = 0
    let idle = 0
    while (idle < cutoff && best.makespan > bound && !this.budget.spent()) {
      this.budget.iterations++
      this.clock++
      if (!this.step(now, best.makespan)) return false
      if (now.makespan < best.makespan) {
        best.copyFrom(now)
        idle = 0
      } else idle++
    }
    return best.makespan <= bound
  }

  private step(now: Selection, best: number): boolean {
    const { n, machines } = now.shop
    const { order } = now
    this.lineSize.fill(0)
    for (let k = 0; k < n; k++) this.lineSize[now.machine[k]!]!++
    let sum = 0
    for (let m = 0; m < machines; m++) {
      this.lineFrom[m] = sum
      sum += this.lineSize[m]!
      this.lineSize[m] = 0
    }
    for (let k = 0; k < n; k++) {
      const i = order[k]!
      const m = now.machine[i]!
      this.line[this.lineFrom[m]! + this.lineSize[m]!++] = i
    }
    const count = this.findCriticalPath(now)
    this.score = Infinity
    this.ties = 0
    this.fallbackTies = 0
    this.fallback = -1
    for (let c = 0; c < count; c++) this.scan(now, this.critical[c]!, best)
    if (this.score === Infinity) {
      if (this.fallback < 0) return false
      this.moved = this.fallback
      this.movedChoice = this.fallbackChoice
      this.movedAfter = this.fallbackAfter
    }
    const left = now.machine[this.moved]!
    const tenure = Math.min(count, 20) + 6 + this.random.below(8)
    this.tabu[this.moved * machines + left] = this.clock + tenure
    unlink(now, this.moved)
    now.choose(this.moved, this.movedChoice)
    linkAfter(
      now,
      this.moved,
      this.movedAfter,
      this.line[this.lineFrom[now.machine[this.moved]!]!] ?? n,
      this.lineSize[now.machine[this.moved]!]!,
      this.moved,
    )
    if (!now.evaluate()) throw new Error('a move made a cycle: the insertion sets were not kept')
    return true
  }

  /** A random critical path, as positions in `critical`; its length. */
  private findCriticalPath(now: Selection): number {
    const { n, before } = now.shop
    const { order, head, duration, previous, position } = now
    let latest = 0
    let at = n
    let ties = 0
    for (let k = 0; k < n; k++) {
      const i = order[k]!
      const end = head[i]! + duration[i]!
      if (end === now.makespan && this.random.below(++ties) === 0) at = i
      this.endBefore[k] = latest
      if (end > latest) latest = end
    }
    let count = 0
    while (at !== n) {
      this.critical[count++] = position[at]!
      const p = before[at]!
      const m = previous[at]!
      const byJob = p !== n && head[p]! + duration[p]! === head[at]
      const byMachine = m !== n && head[m]! + duration[m]! === head[at]
      at = byMachine && (!byJob || this.random.below(2) === 0) ? m : byJob ? p : n
    }
    return count
  }

  /** Weighs every place for the operation at `position` of the topological order. */
  private scan(now: Selection, position: number, best: number): void {
    const { n, before, after, release, choiceFrom, choiceMachine, choiceDuration, machines } = now.shop
    const { order, duration } = now
    const v = order[position]!
    const { heads, tails, line, lineFrom, lineSize } = this
    const without = this.headsWithout(now, v, position)
    // No place of v can be better than the best so far.
    if (without > this.score) return
    this.tailsWithout(now, v, position)
    const p = before[v]!
    const s = after[v]!
    const ready = Math.max(heads[p]! + duration[p]!, release[v]!)
    const rest = tails[s]!
    for (let c = choiceFrom[v]!; c < choiceFrom[v + 1]!; c++) {
      const m = choiceMachine[c]!
      const work = choiceDuration[c]!
      const isTabu = this.tabu[v * machines + m]! > this.clock
      const from = lineFrom[m]!
      const to = from + lineSize[m]!
      // `low`: v goes after every operation with a longer tail than its own; `high`: before every one that ends late.
      let low = from - 1
      for (let k = from; k < to; k++) {
        const x = line[k]!
        if (x === v) continue
        if (tails[x]! <= rest || heads[x]! + duration[x]! > ready) break
        low = k
      }
      let high = to
      for (let k = to - 1; k > low; k--) {
        const x = line[k]!
        if (x === v) continue
        if (tails[x]! > rest || heads[x]! + duration[x]! <= ready) break
        high = k
      }
      for (let k = low; k < high; k++) {
        const x = k < from ? n : line[k]!
        if (x === v) continue
        let y = k + 1 < to ? line[k + 1]! : n
        if (y === v) {
          y = k + 2 < to ? line[k + 2]! : n
          if (m === now.machine[v] && c === now.choice[v]) continue
        }
        const h = Math.max(ready, x === n ? 0 : heads[x]! + duration[x]!)
        const t = Math.max(rest, y === n ? 0 : tails[y]!)
        // Where another critical path stays, the shorter path through v is still a step on.
        const through = h + work + t
        const score = Math.max(through, without) + through * pathShare
        if (this.random.below(++this.fallbackTies) === 0) {
          this.fallback = v
          this.fallbackChoice = c
          this.fallbackAfter = x
        }
        if (isTabu && Math.max(through, without) >= best) continue
        if (score > this.score) continue
        if (score < this.score) {
          this.score = score
          this.ties = 0
        }
        if (this.random.below(++this.ties) === 0) {
          this.moved = v
          this.movedChoice = c
          this.movedAfter = x
        }
      }
    }
  }

  /** Heads and makespan when v takes no machine and no time; only what it can change is worked out anew. */
  private headsWithout(now: Selection, v: number, position: number): number {
    const { n, before, release } = now.shop
    const { order, duration, previous } = now
    const { heads } = this
    const follower = now.next[v]!
    heads.set(now.head)
    let makespan = this.endBefore[position]!
    for (let k = position; k < n; k++) {
      const i = order[k]!
      const p = before[i]!
      const m = i === follower ? previous[v]! : previous[i]!
      const a = heads[p]! + (p === v ? 0 : duration[p]!)
      const b = i === v ? 0 : heads[m]! + duration[m]!
      const c = release[i]!
      const h = a > b ? (a > c ? a : c) : b > c ? b : c
      heads[i] = h
      const end = i === v ? h : h + duration[i]!
      if (end > makespan) makespan = end
    }
    return makespan
  }

  private tailsWithout(now: Selection, v: number, position: number): void {
    const { after } = now.shop
    const { order, duration, next } = now
    const { tails } = this
    const leader = now.previous[v]!
    tails.set(now.tail)
    for (let k = position; k >= 0; k--) {
      const i = order[k]!
      const m = i === leader ? next[v]! : next[i]!
      const a = tails[after[i]!]!
      const b = i === v ? 0 : tails[m]!
      tails[i] = (a > b ? a : b) + (i === v ? 0 : duration[i]!)
    }
  }
}

function unlink(now: Selection, v: number): void {
  const { n } = now.shop
  const p = now.previous[v]!
  const s = now.next[v]!
  if (p !== n) now.next[p] = s
  if (s !== n) now.previous[s] = p
}

/** Puts v right after x on its machine; with x the sentinel, before the machine's first operation. */
function linkAfter(now: Selection, v: number, x: number, first: number, size: number, skip: number): void {
  const { n } = now.shop
  let s = n
  if (x !== n) {
    s = now.next[x]!
    now.next[x] = v
  } else if (size > 0) {
    // The machine's first operation may be v itself, already taken out.
    s = first === skip ? now.next[skip]! : first
  }
  now.previous[v] = x
  now.next[v] = s
  if (s !== n) now.previous[s] = v
}
