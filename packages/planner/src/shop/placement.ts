/**
 * Serial schedule generation by insertion: components go one after another into the idle gaps of the resources, each
 * at the earliest place that keeps its lags and holds. Where a maximum lag would break or a held resource isn't free
 * for long enough, the earlier task is moved on and everything after it placed again (the unscheduling step of
 * Franck, Neumann & Schwindt 2001, doi 10.1007/PL00013356). Lower bounds only rise, so this ends.
 */
import type { Random } from '../search/random.ts'
import type { Board } from './board.ts'
import { unlimited, type Compiled, type Component } from './compiled.ts'
import type { Published } from './published.ts'
import { TaskFit } from './task-fit.ts'

/** Components of more tasks than tries allow are given up as unplaceable; each try places one task. */
const triesPerTask = 40

export class Placement {
  readonly fit: TaskFit
  private readonly board: Board
  private readonly compiled: Compiled
  private readonly random: Random
  private readonly low: Int32Array
  private readonly need: Int32Array
  private readonly leastSpan: Int32Array
  /** Shortest span that a hold turned out to need in this placement, its least possible one before. */
  private readonly seenSpan: Int32Array
  /** Task to start no earlier than `notBefore`, though it could; -1 for none. */
  idler = -1
  notBefore = 0
  private readonly position: Int32Array
  private readonly published: Published | null
  private readonly preferred: Int32Array

  constructor(board: Board, random: Random, published: Published | null) {
    this.board = board
    this.compiled = board.compiled
    this.random = random
    this.fit = new TaskFit(board, random)
    const n = board.start.length
    this.low = new Int32Array(n)
    this.need = new Int32Array(this.compiled.holds.length)
    this.position = new Int32Array(n)
    for (const group of this.compiled.groups)
      for (const { tasks } of group.components) tasks.forEach((task, k) => (this.position[task] = k))
    this.leastSpan = this.leastSpans()
    this.seenSpan = new Int32Array(this.compiled.holds.length)
    this.published = published
    this.preferred = new Int32Array(this.compiled.width)
  }

  /** Shortest time each hold can last: the longest path between its ends, each task at its quickest. */
  private leastSpans(): Int32Array {
    const { holds, lagsIn, modes, fastest, groups, isFixed } = this.compiled
    const shortest = modes.map((list, i) =>
      isFixed[i]
        ? 0
        : Math.min(
            ...list.map((mode) => {
              const numbers = [mode.profile, ...(mode.byResource?.values() ?? [])]
              return Math.ceil(mode.work / Math.max(...numbers.map((p) => fastest[p]!)))
            }),
          ),
    )
    const spans = new Int32Array(holds.length)
    const path = new Float64Array(modes.length)
    for (const group of groups) {
      for (const h of group.holds) {
        const hold = holds[h]!
        for (const i of group.tasks) {
          path[i] = i === hold.from ? 0 : -Infinity
          for (const lag of lagsIn[i]!) {
            const before = path[lag.other]! + (lag.afterEnd ? shortest[lag.other]! : 0) + lag.min
            if (i !== hold.from && before > path[i]!) path[i] = before
          }
        }
        spans[h] = Math.max(1, path[hold.until]! + (hold.untilEnd ? shortest[hold.until]! : 0))
      }
    }
    return spans
  }

  /**
   * Places the group as early as it goes. `sticky` keeps each task from starting before its published time.
   * `order` lists its components in another order that respects precedence. When there is no place the group is
   * left off the board and the answer is false.
   */
  placeGroup(g: number, level: 0 | 1, sticky: boolean, order: Int32Array | null = null): boolean {
    const { components } = this.compiled.groups[g]!
    for (let k = 0; k < components.length; k++) {
      const component = components[order === null ? k : order[k]!]!
      if (this.placeComponent(component, level, sticky)) continue
      this.giveUp(g)
      return false
    }
    return true
  }

  /** Takes what is placed of the group off the board. */
  giveUp(g: number): void {
    this.board.removeGroup(g)
  }

  /** Places one component, those before it in its group being placed; false when there is no place. */
  placeComponent(component: Component, level: 0 | 1, sticky: boolean): boolean {
    const { tasks, holds } = component
    const { earliest } = this.compiled
    for (let k = 0; k < tasks.length; k++) this.low[tasks[k]!] = earliest[tasks[k]!]!
    if (this.idler >= 0) this.low[this.idler] = Math.max(earliest[this.idler]!, this.notBefore)
    for (let k = 0; k < holds.length; k++) {
      this.need[holds[k]!] = this.leastSpan[holds[k]!]!
      this.seenSpan[holds[k]!] = 0
    }
    return this.placeTasks(component, level, sticky)
  }

  private placeTasks(component: Component, level: 0 | 1, sticky: boolean): boolean {
    const { tasks } = component
    const { isFixed } = this.compiled
    let tries = triesPerTask * (tasks.length + 1)
    for (let k = 0; k < tasks.length;) {
      if (--tries < 0) return false
      const i = tasks[k]!
      const back = isFixed[i] === 1 ? this.passFixed(i) : this.placeTask(i, level, sticky)
      if (back === -1) k++
      else if (back === -2) return false
      else {
        this.takeBack(component, back, k)
        k = back
      }
    }
    return true
  }

  /** -1: placed; -2: no place; otherwise the position to go back to, whose lower bound has been raised. */
  private placeTask(i: number, level: 0 | 1, sticky: boolean): number {
    const { compiled, board, fit, low, published } = this
    const { lagsIn, lagsOut, holdsFrom, isFixed, width, modes } = compiled
    let from = low[i]!
    const before = lagsIn[i]!
    for (let k = 0; k < before.length; k++) {
      const lag = before[k]!
      const at = (lag.afterEnd ? board.end[lag.other]! : board.start[lag.other]!) + lag.min
      if (at > from) from = at
    }
    let preferred: Int32Array | null = null
    if (published !== null && published.start[i]! >= 0) {
      preferred = this.preferred
      for (let d = 0; d < width; d++) preferred[d] = published.taken[i * width + d]!
      if (sticky && published.start[i]! > from) from = published.start[i]!
    }
    const starting = holdsFrom[i]!
    for (let tries = 0; ; tries++) {
      if (tries > 400 || !fit.find(i, from, level, preferred)) return -2
      if (starting.length === 0) break
      const later = this.chooseHolds(i, starting, fit.start)
      if (later < 0) {
        if (!modes[i]!.some((mode) => mode.byResource !== null)) break
        // What is held changes how long the task takes.
        const { start } = fit
        if (!fit.find(i, start, level, preferred)) return -2
        if (fit.start === start) break
        from = fit.start
      } else from = later
    }
    board.start[i] = fit.start
    board.end[i] = fit.end
    board.mode[i] = fit.mode
    board.overtime[i] = level
    board.taken.set(fit.resources, i * width)
    board.bookTask(i)
    for (let k = 0; k < starting.length; k++) {
      const h = starting[k]!
      board.bookHold(h, board.holdResource[h]!, fit.start, fit.start + this.need[h]!)
    }
    const back = this.endHolds(i)
    if (back !== -1) return back
    for (let k = 0; k < before.length; k++) {
      const lag = before[k]!
      if (lag.max === unlimited) continue
      const anchor = lag.afterEnd ? board.end[lag.other]! : board.start[lag.other]!
      if (board.start[i]! - anchor <= lag.max) continue
      if (isFixed[lag.other] === 1) return -2
      this.raise(lag.other, board.start[i]! - lag.max, lag.afterEnd)
      return this.position[lag.other]!
    }
    const after = lagsOut[i]!
    for (let k = 0; k < after.length; k++) {
      const lag = after[k]!
      if (isFixed[lag.other] === 0) continue
      const anchor = lag.afterEnd ? board.end[i]! : board.start[i]!
      const wait = board.start[lag.other]! - anchor
      if (wait < lag.min) return -2
      if (wait <= lag.max) continue
      this.raise(i, board.start[lag.other]! - lag.max, lag.afterEnd)
      return this.position[i]!
    }
    return -1
  }

  /** A task that can't move still begins and ends holds. */
  private passFixed(i: number): number {
    const { board, need } = this
    const { holdsFrom, holds } = this.compiled
    for (const h of holdsFrom[i]!) {
      if (board.isFixedHold(h) || board.holdStart[h]! >= 0) continue
      const start = board.start[i]!
      // What the hold covers in the past is a fact; only room from its end so far on has to be found.
      if (holds[h]!.fixedResource < 0 && this.chooseHolds(i, Int32Array.of(h), start) >= 0) return -2
      if (holds[h]!.fixedResource >= 0) board.holdResource[h] = holds[h]!.fixedResource
      const r = board.holdResource[h]!
      if (board.holdConflict(h, r, start, start + need[h]!) >= 0) return -2
      board.bookHold(h, r, start, start + need[h]!)
    }
    return this.endHolds(i)
  }

  /** Settles the holds that task i ends; goes back to their first task when the resource isn't free for so long. */
  private endHolds(i: number): number {
    const { board } = this
    const { holdsUntil, holds, isFixed } = this.compiled
    const ending = holdsUntil[i]!
    for (let k = 0; k < ending.length; k++) {
      const h = ending[k]!
      const hold = holds[h]!
      if (board.isFixedHold(h)) continue
      const from = board.start[hold.from]!
      const until = hold.untilEnd ? board.end[i]! : board.start[i]!
      const resource = board.holdResource[h]!
      board.unbookHold(h)
      if (board.holdConflict(h, resource, from, until) < 0) {
        board.bookHold(h, resource, from, until)
        continue
      }
      if (isFixed[hold.from] === 1) return -2
      const span = Math.max(until - from, this.need[h]! + 1)
      this.need[h] = span
      const seen = this.seenSpan[h]!
      this.seenSpan[h] = seen === 0 ? span : Math.min(seen, span)
      return this.position[hold.from]!
    }
    return -1
  }

  /** Picks a resource for each hold from `start` on; -1 when done, else the next start worth trying. */
  private chooseHolds(i: number, starting: Int32Array, start: number): number {
    const { board, need, published } = this
    const { batches } = this.compiled
    for (let k = 0; k < starting.length; k++) {
      const h = starting[k]!
      const { resources, units, fixedResource } = this.compiled.holds[h]!
      let next = 2 ** 30
      let best = -1
      let tightness = -1
      for (let c = 0; c < resources.length; c++) {
        const r = resources[c]!
        if (fixedResource >= 0 && r !== fixedResource) continue
        // The task itself, or another hold that begins with it, may be about to take the same resource.
        let needed = units + this.ownUnits(i, r)
        for (let e = 0; e < k; e++)
          if (board.holdResource[starting[e]!] === r) needed += this.compiled.holds[starting[e]!]!.units
        if (needed > this.compiled.problem.resources[r]!.capacity) continue
        const later =
          batches[r] === 1
            ? board.timelines[r]!.conflict(start, start + need[h]!, needed, -1)
            : board.timelines[r]!.gap(start, need[h]!, needed)
        if (later > start) {
          if (later < next) next = later
          continue
        }
        let tight = board.timelines[r]!.freeSince(start)
        if (this.fit.blink > 0 && (this.random.bits() & 127) < this.fit.blink) tight = 0
        if (published !== null && published.holdResource[h] === r) tight = 2 ** 30
        if (tight > tightness) {
          tightness = tight
          best = r
        }
      }
      if (best < 0) {
        // Spans differ little from start to start; the shortest seen saves trying gaps that are too small.
        need[h] = Math.max(this.leastSpan[h]!, this.seenSpan[h]!)
        return next
      }
      board.holdResource[h] = best
    }
    return -1
  }

  /** Units of a resource that the place just found for task i takes. */
  private ownUnits(i: number, r: number): number {
    const { compiled, fit } = this
    if (compiled.isFixed[i] === 1) return 0
    const { demands } = compiled.modes[i]![fit.mode]!
    let units = 0
    for (let d = 0; d < demands.length; d++) if (fit.resources[d] === r) units += demands[d]!.units
    return units
  }

  /** Raises the lower bound of task a so that its start, or end, isn't before `minute`. */
  private raise(a: number, minute: number, isEnd: boolean): void {
    const { board, compiled, low } = this
    if (!isEnd) {
      low[a] = Math.max(minute, board.start[a]! + 1)
      return
    }
    const { calendarOf, breaks, modes, width, effective } = compiled
    const mode = modes[a]![board.mode[a]!]!
    const used = [...board.taken.subarray(a * width, a * width + mode.demands.length)]
    const calendars = breaks[a] === 'pause' ? used.map((r) => calendarOf[r]!).filter((c) => c >= 0) : []
    const profile = effective(
      board.profileOf(a, board.mode[a]!, used),
      calendars,
      board.overtime[a] === 1 ? 1 : 0,
    )
    low[a] = Math.max(profile.latestStart(minute - 1, mode.work) + 1, board.start[a]! + 1)
  }

  /** Takes back what was placed from position `from` to `to`, with its holds. */
  private takeBack(component: Component, from: number, to: number): void {
    const { board, need } = this
    const { isFixed, holds } = this.compiled
    for (let k = to; k >= from; k--) {
      const i = component.tasks[k]!
      if (isFixed[i] === 0 && board.start[i]! >= 0) board.unbookTask(i)
    }
    for (let k = 0; k < component.holds.length; k++) {
      const h = component.holds[k]!
      const hold = holds[h]!
      if (board.isFixedHold(h)) continue
      const begin = this.position[hold.from]!
      if (begin >= from) board.unbookHold(h)
      else if (this.position[hold.until]! >= from && begin < from && board.holdStart[h]! >= 0) {
        const r = board.holdResource[h]!
        const start = board.holdStart[h]!
        board.unbookHold(h)
        board.bookHold(h, r, start, start + Math.min(need[h]!, this.leastSpan[h]!))
      }
    }
  }
}
