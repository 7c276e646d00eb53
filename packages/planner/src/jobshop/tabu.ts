/**
 * Tabu search on critical blocks for the job shop: the N7 moves of Zhang et al. 2007 (doi 10.1016/j.cor.2005.12.002),
 * feasibility and estimates after Balas & Vazacopoulos 1998 (doi 10.1287/mnsc.44.2.262), cut-off and tenure about as
 * in Peng, Lu & Cheng 2015 (doi 10.1016/j.cor.2014.08.006).
 */
import type { Budget } from '../search/budget.ts'
import type { Random } from '../search/random.ts'
import type { Selection } from './selection.ts'

export class BlockTabu {
  /** tabu[a * width + rank[b]]: until when "a before b" may not be brought back. */
  private readonly tabu: Int32Array
  private readonly rank: Int32Array
  private readonly width: number
  private readonly heads: Int32Array
  private readonly tails: Int32Array
  private readonly between: Int32Array
  private readonly block: Int32Array
  private readonly random: Random
  private readonly budget: Budget
  private clock = 0
  private readonly baseTenure: number

  constructor(sample: Selection, random: Random, budget: Budget) {
    const { n, machines } = sample.shop
    this.random = random
    this.budget = budget
    const counts = new Int32Array(machines)
    this.rank = new Int32Array(n)
    for (let i = 0; i < n; i++) this.rank[i] = counts[sample.machine[i]!]!++
    this.width = Math.max(...counts)
    this.tabu = new Int32Array(n * this.width)
    this.heads = new Int32Array(n)
    this.tails = new Int32Array(n)
    this.between = new Int32Array(this.width + 1)
    this.block = new Int32Array(n)
    const jobs = n / machines
    this.baseTenure = Math.round(10 + jobs / machines)
  }

  /**
   * Improves `now` until `cutoff` moves in a row bring nothing, and leaves the best found in `best`.
   * `now` must be evaluated. Stops at `bound`, a proved lower bound. True when the best is proved optimal.
   */
  run(now: Selection, best: Selection, cutoff: number, bound: number): boolean {
    best.copyFrom(now)
    this.tabu.fill(0)
    this.clock = 0
    let idle = 0
    while (idle < cutoff && best.makespan > bound && !this.budget.spent()) {
      this.budget.iterations++
      this.clock++
      if (!this.step(now, best.makespan)) {
        return true
      }
      if (now.makespan < best.makespan) {
        best.copyFrom(now)
        idle = 0
      } else idle++
    }
    return best.makespan <= bound
  }

  private bestScore = 0
  private bestCount = 0
  private bestU = -1
  private bestV = -1
  private bestForward = false
  private randomU = -1
  private randomV = -1
  private randomForward = false
  private seen = 0

  /** One move. False when the critical path has no block to break, which proves the optimum. */
  private step(now: Selection, best: number): boolean {
    const { n } = now.shop
    const { next, duration, head, tail, machine } = now
    const { random, block } = this
    this.bestScore = Infinity
    this.bestCount = 0
    this.seen = 0

    // A random critical path, block by block.
    let start = n
    let ties = 0
    for (let i = 0; i < n; i++) {
      if (
        head[i] === now.shop.release[i] &&
        head[i]! + tail[i]! === now.makespan &&
        random.below(++ties) === 0
      )
        start = i
    }
    let at = start
    // An operation with a release date could go before another that starts at its own.
    let isFirstBlock = start !== n && now.shop.release[start] === 0
    while (at !== n) {
      let size = 0
      block[size++] = at
      let follow = n
      for (;;) {
        const i = block[size - 1]!
        const end = head[i]! + duration[i]!
        const onMachine = next[i]!
        const inJob = now.shop.after[i]!
        const byMachine =
          onMachine !== n && head[onMachine] === end && end + tail[onMachine]! === now.makespan
        const byJob = inJob !== n && head[inJob] === end && end + tail[inJob]! === now.makespan
        if (byMachine && (!byJob || random.below(2) === 0)) {
          block[size++] = onMachine
          continue
        }
        // A job's neighbour on the same machine stays in the block.
        if (byJob && machine[inJob] === machine[i]) {
          block[size++] = inJob
          continue
        }
        follow = byJob ? inJob : n
        break
      }
      if (size > 1) this.scan(now, size, best, isFirstBlock, follow === n)
      isFirstBlock = false
      at = follow
    }
    if (this.seen === 0) return false
    const isChosen = this.bestScore < Infinity
    const u = isChosen ? this.bestU : this.randomU
    const v = isChosen ? this.bestV : this.randomV
    this.apply(now, u, v, isChosen ? this.bestForward : this.randomForward)
    if (!now.evaluateAfter(u, v))
      throw new Error('a move made a cycle: head and tail conditions were not kept')
    return true
  }

  /** N7 of one block. At the outer end of the first and last block of the path nothing can be gained. */
  private scan(now: Selection, size: number, best: number, isFirst: boolean, isLast: boolean): void {
    const { block } = this
    const first = block[0]!
    const last = block[size - 1]!
    if (size === 2) {
      if (!(isFirst && isLast)) this.consider(now, first, last, true, best)
      return
    }
    if (!isLast) {
      for (let k = 0; k < size - 1; k++) this.consider(now, block[k]!, last, true, best)
      for (let k = 1; k < size - 2; k++) this.consider(now, block[k]!, last, false, best)
    }
    if (!isFirst) {
      for (let k = 1; k < size - 1; k++) this.consider(now, first, block[k]!, true, best)
      for (let k = 2; k < size; k++) this.consider(now, first, block[k]!, false, best)
    }
  }

  /** Weighs moving u right after v (forward) or v right before u, when it surely makes no cycle. */
  private consider(now: Selection, u: number, v: number, forward: boolean, best: number): void {
    const { n, before, after, release } = now.shop
    const { head, tail, duration, next, previous } = now
    if (forward) {
      const s = after[u]!
      if (s === v || (s !== n && tail[v]! < tail[s]! + (duration[s] === 0 ? 1 : 0))) return
    } else {
      const p = before[v]!
      if (
        p === u ||
        (p !== n && head[u]! + duration[u]! < head[p]! + duration[p]! + (duration[p] === 0 ? 1 : 0))
      )
        return
    }
    const { between, heads, tails, tabu, rank, width, clock } = this
    let size = 0
    if (forward)
      for (let i = next[u]!; ; i = next[i]!) {
        between[size++] = i
        if (i === v) break
      }
    else for (let i = u; i !== v; i = next[i]!) between[size++] = i
    // New order: forward between.., u; backward v, between...
    const moved = forward ? u : v
    let isTabu = false
    for (let k = 0; k < size; k++) {
      const x = between[k]!
      const until = forward ? tabu[x * width + rank[u]!]! : tabu[v * width + rank[x]!]!
      if (until > clock) isTabu = true
    }
    const prior = previous[u]!
    let end = head[prior]! + duration[prior]!
    const place = (i: number): void => {
      const p = before[i]!
      const a = head[p]! + duration[p]!
      let h = a > end ? a : end
      if (release[i]! > h) h = release[i]!
      heads[i] = h
      end = h + duration[i]!
    }
    if (!forward) place(v)
    for (let k = 0; k < size; k++) place(between[k]!)
    if (forward) place(u)
    let behind = tail[next[v]!]!
    let score = 0
    const close = (i: number): void => {
      const a = tail[after[i]!]!
      const t = (a > behind ? a : behind) + duration[i]!
      tails[i] = t
      behind = t
      if (heads[i]! + t > score) score = heads[i]! + t
    }
    if (forward) close(u)
    for (let k = size - 1; k >= 0; k--) close(between[k]!)
    if (!forward) close(moved)

    if (this.random.below(++this.seen) === 0) {
      this.randomU = u
      this.randomV = v
      this.randomForward = forward
    }
    if (isTabu && score >= best) return
    if (score < this.bestScore) {
      this.bestScore = score
      this.bestCount = 0
    } else if (score > this.bestScore) return
    if (this.random.below(++this.bestCount) === 0) {
      this.bestU = u
      this.bestV = v
      this.bestForward = forward
    }
  }

  private apply(now: Selection, u: number, v: number, forward: boolean): void {
    const { n } = now.shop
    const { next, previous } = now
    const { tabu, rank, width } = this
    const tenure =
      this.clock + this.baseTenure + this.random.below(Math.max(2, Math.round(this.baseTenure * 0.4)))
    const link = (a: number, b: number): void => {
      if (a !== n) next[a] = b
      if (b !== n) previous[b] = a
    }
    if (forward) {
      for (let i = next[u]!; ; i = next[i]!) {
        tabu[u * width + rank[i]!] = tenure
        if (i === v) break
      }
      const behind = next[v]!
      link(previous[u]!, next[u]!)
      link(v, u)
      link(u, behind)
    } else {
      for (let i = u; i !== v; i = next[i]!) tabu[i * width + rank[v]!] = tenure
      const prior = previous[u]!
      link(previous[v]!, next[v]!)
      link(v, u)
      link(prior, v)
    }
  }
}
