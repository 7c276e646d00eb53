import { never } from '../time/profile.ts'
import type { Compiled } from './compiled.ts'
import { BatchTimeline, CumulativeTimeline, UnaryTimeline, type Timeline } from './timeline.ts'

/**
 * The plan in the making: where every task and hold stands, and what each resource has booked. Tasks that aren't
 * placed have start -1.
 */
export class Board {
  readonly compiled: Compiled
  readonly timelines: readonly Timeline[]
  readonly start: Int32Array
  readonly end: Int32Array
  readonly mode: Int32Array
  /** Resource of demand d of task i at i * width + d. */
  readonly taken: Int32Array
  readonly overtime: Uint8Array
  readonly holdResource: Int32Array
  readonly holdStart: Int32Array
  readonly holdEnd: Int32Array

  constructor(compiled: Compiled) {
    this.compiled = compiled
    const n = compiled.jobOf.length
    const { holds, width, problem } = compiled
    this.timelines = problem.resources.map((resource, r) => {
      if (resource.batch) return new BatchTimeline(resource.capacity)
      if (resource.capacity > 1) return new CumulativeTimeline(resource.capacity)
      return new UnaryTimeline(compiled.setups[r]!, compiled.families)
    })
    this.start = new Int32Array(n).fill(-1)
    this.end = new Int32Array(n)
    this.mode = new Int32Array(n)
    this.taken = new Int32Array(n * width)
    this.overtime = new Uint8Array(n)
    this.holdResource = new Int32Array(holds.length).fill(-1)
    this.holdStart = new Int32Array(holds.length).fill(-1)
    this.holdEnd = new Int32Array(holds.length)
    problem.resources.forEach((resource, r) => {
      for (const [from, until] of resource.unavailable)
        this.bookFact(r, from, until, resource.capacity, -1, -1)
    })
    this.placeFixed()
  }

  /** Books what is free of a stay that can't be moved, even when it clashes with another such stay. */
  private bookFact(
    r: number,
    from: number,
    until: number,
    units: number,
    family: number,
    owner: number,
  ): void {
    const timeline = this.timelines[r]!
    const { capacity } = this.compiled.problem.resources[r]!
    for (let amount = units; amount > 0; amount--) {
      if (timeline.conflict(from, until, amount, family) >= 0) continue
      timeline.add(from, until, amount, family, owner)
      return
    }
    if (until - from <= 1 || capacity === 0) return
    const middle = (from + until) >> 1
    this.bookFact(r, from, middle, units, family, owner)
    this.bookFact(r, middle, until, units, family, owner)
  }

  private placeFixed(): void {
    const { problem, isFixed, modes, calendarOf, breaks, effective, holds, family, width } = this.compiled
    const resourceIndex = new Map(problem.resources.map((resource, r) => [resource.id, r]))
    problem.tasks.forEach((task, i) => {
      const { fixed } = task
      if (fixed === null) return
      this.start[i] = fixed.start
      this.mode[i] = fixed.mode
      this.overtime[i] = fixed.overtime ? 1 : 0
      fixed.resources.forEach((name, d) => (this.taken[i * width + d] = resourceIndex.get(name)!))
    })
    holds.forEach((hold, h) => {
      if (isFixed[hold.from]) this.holdResource[h] = hold.fixedResource
    })
    problem.tasks.forEach((task, i) => {
      const { fixed } = task
      if (fixed === null) return
      const mode = modes[i]![fixed.mode]!
      const used = [...this.taken.subarray(i * width, i * width + mode.demands.length)]
      const calendars = breaks[i] === 'pause' ? used.map((r) => calendarOf[r]!).filter((c) => c >= 0) : []
      const profile = effective(this.profileOf(i, fixed.mode, used), calendars, fixed.overtime ? 1 : 0)
      this.end[i] = fixed.end ?? Math.min(profile.finish(fixed.start, mode.work), never)
      mode.demands.forEach((demand, d) =>
        this.bookFact(used[d]!, fixed.start, this.end[i]!, demand.units, family[i]!, i),
      )
    })
    holds.forEach((hold, h) => {
      if (!isFixed[hold.from] || !isFixed[hold.until] || this.holdResource[h]! < 0) return
      this.holdStart[h] = this.start[hold.from]!
      this.holdEnd[h] = hold.untilEnd ? this.end[hold.until]! : this.start[hold.until]!
      this.bookFact(
        this.holdResource[h]!,
        this.holdStart[h]!,
        this.holdEnd[h]!,
        hold.units,
        -1,
        this.holdOwner(h),
      )
    })
  }

  /** Holds own their bookings under numbers after those of the tasks. */
  holdOwner(h: number): number {
    return this.start.length + h
  }

  /** Profile number of a task on given resources: the first override among what it uses and what is held over it. */
  profileOf(i: number, mode: number, used: ArrayLike<number>): number {
    const { modes, holdsOver } = this.compiled
    const { byResource, profile } = modes[i]![mode]!
    if (byResource === null) return profile
    for (let k = 0; k < used.length; k++) {
      const found = byResource.get(used[k]!)
      if (found !== undefined) return found
    }
    for (const h of holdsOver[i]!) {
      const found = byResource.get(this.holdResource[h]!)
      if (found !== undefined) return found
    }
    return profile
  }

  bookTask(i: number): void {
    const { modes, family, width } = this.compiled
    const { demands } = modes[i]![this.mode[i]!]!
    for (let d = 0; d < demands.length; d++) {
      this.timelines[this.taken[i * width + d]!]!.add(
        this.start[i]!,
        this.end[i]!,
        demands[d]!.units,
        family[i]!,
        i,
      )
    }
  }

  unbookTask(i: number): void {
    const { modes, width } = this.compiled
    const { demands } = modes[i]![this.mode[i]!]!
    for (let d = 0; d < demands.length; d++) {
      this.timelines[this.taken[i * width + d]!]!.remove(this.start[i]!, this.end[i]!, demands[d]!.units, i)
    }
    this.start[i] = -1
  }

  bookHold(h: number, resource: number, from: number, until: number): void {
    this.holdResource[h] = resource
    this.holdStart[h] = from
    this.holdEnd[h] = until
    const { units } = this.compiled.holds[h]!
    const owner = this.holdOwner(h)
    if (!this.isBroken(h, resource)) this.timelines[resource]!.add(from, until, units, -1, owner)
    else
      for (const [a, b] of this.pieces(resource, from, until))
        this.timelines[resource]!.add(a, b, units, -1, owner)
  }

  unbookHold(h: number): void {
    const from = this.holdStart[h]!
    if (from < 0) return
    const resource = this.holdResource[h]!
    const { units } = this.compiled.holds[h]!
    const owner = this.holdOwner(h)
    const until = this.holdEnd[h]!
    if (!this.isBroken(h, resource)) this.timelines[resource]!.remove(from, until, units, owner)
    else
      for (const [a, b] of this.pieces(resource, from, until))
        this.timelines[resource]!.remove(a, b, units, owner)
    this.holdStart[h] = -1
  }

  /** As `Timeline.conflict` for a hold. */
  holdConflict(h: number, resource: number, from: number, until: number): number {
    const { units } = this.compiled.holds[h]!
    if (!this.isBroken(h, resource)) return this.timelines[resource]!.conflict(from, until, units, -1)
    let next = -1
    for (const [a, b] of this.pieces(resource, from, until))
      next = Math.max(next, this.timelines[resource]!.conflict(a, b, units, -1))
    return next
  }

  /** A hold that has begun stays where it is even while its resource is unavailable: only the rest needs booking. */
  private isBroken(h: number, resource: number): boolean {
    const { isFixed, holds, problem } = this.compiled
    return isFixed[holds[h]!.from] === 1 && problem.resources[resource]!.unavailable.length > 0
  }

  private pieces(resource: number, from: number, until: number): [number, number][] {
    const pieces: [number, number][] = []
    let at = from
    for (const [a, b] of this.compiled.problem.resources[resource]!.unavailable) {
      if (b <= at || a >= until) continue
      if (a > at) pieces.push([at, a])
      at = b
    }
    if (at < until) pieces.push([at, until])
    return pieces
  }

  isFixedHold(h: number): boolean {
    const { isFixed, holds } = this.compiled
    return isFixed[holds[h]!.from] === 1 && isFixed[holds[h]!.until] === 1
  }

  /** Takes everything of the group off the board that may move. */
  removeGroup(g: number): void {
    const { groups, isFixed } = this.compiled
    const { tasks, holds } = groups[g]!
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!
      if (isFixed[i] === 0 && this.start[i]! >= 0) this.unbookTask(i)
    }
    for (let k = 0; k < holds.length; k++) if (!this.isFixedHold(holds[k]!)) this.unbookHold(holds[k]!)
  }

  isPlaced(g: number): boolean {
    const { tasks } = this.compiled.groups[g]!
    for (let k = 0; k < tasks.length; k++) if (this.start[tasks[k]!]! < 0) return false
    return true
  }
}

/** A copy of everything on a board that may move. */
export class Snapshot {
  readonly start: Int32Array
  readonly end: Int32Array
  readonly mode: Int32Array
  readonly taken: Int32Array
  readonly overtime: Uint8Array
  readonly holdResource: Int32Array
  readonly holdStart: Int32Array
  readonly holdEnd: Int32Array

  constructor(board: Board) {
    this.start = board.start.slice()
    this.end = board.end.slice()
    this.mode = board.mode.slice()
    this.taken = board.taken.slice()
    this.overtime = board.overtime.slice()
    this.holdResource = board.holdResource.slice()
    this.holdStart = board.holdStart.slice()
    this.holdEnd = board.holdEnd.slice()
  }

  /** Notes where the group stands now. */
  save(board: Board, g: number): void {
    const { width, groups } = board.compiled
    for (const i of groups[g]!.tasks) {
      this.start[i] = board.start[i]!
      this.end[i] = board.end[i]!
      this.mode[i] = board.mode[i]!
      this.overtime[i] = board.overtime[i]!
      for (let d = 0; d < width; d++) this.taken[i * width + d] = board.taken[i * width + d]!
    }
    for (const h of groups[g]!.holds) {
      this.holdResource[h] = board.holdResource[h]!
      this.holdStart[h] = board.holdStart[h]!
      this.holdEnd[h] = board.holdEnd[h]!
    }
  }

  /** Puts the group, which must be off the board, back where it was noted. */
  restore(board: Board, g: number): void {
    const { width, groups, isFixed } = board.compiled
    for (const i of groups[g]!.tasks) {
      if (isFixed[i] === 1 || this.start[i]! < 0) continue
      board.start[i] = this.start[i]!
      board.end[i] = this.end[i]!
      board.mode[i] = this.mode[i]!
      board.overtime[i] = this.overtime[i]!
      for (let d = 0; d < width; d++) board.taken[i * width + d] = this.taken[i * width + d]!
      board.bookTask(i)
    }
    for (const h of groups[g]!.holds) {
      if (board.isFixedHold(h) || this.holdStart[h]! < 0) continue
      board.bookHold(h, this.holdResource[h]!, this.holdStart[h]!, this.holdEnd[h]!)
    }
  }
}
