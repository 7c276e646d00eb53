/**
 * The earliest fit of one task: over its modes and alternative resources the place that ends first, from a given
 * minute on. This is the one look-up that every search over the shop model goes through.
 */
import { never, type Profile } from '../time/profile.ts'
import type { Random } from '../search/random.ts'
import type { Board } from './board.ts'
import type { Compiled, CompiledMode } from './compiled.ts'

/** Combinations of alternatives tried when durations depend on who is chosen. */
const mostCombinations = 36
const nothing = new Int32Array(0)

export class TaskFit {
  /** The place found by `find`. */
  mode = 0
  start = 0
  end = 0
  readonly resources: Int32Array
  /** Chance in 256 to pass over a resource, for variety in the search. */
  blink = 0
  private readonly board: Board
  private readonly compiled: Compiled
  private readonly random: Random
  private readonly trial: Int32Array
  /** effective profiles by profile, calendar and level, filled on demand. */
  private readonly single: (Profile | undefined)[]
  private readonly calendars: number

  constructor(board: Board, random: Random) {
    this.board = board
    this.compiled = board.compiled
    this.random = random
    this.resources = new Int32Array(this.compiled.width)
    this.trial = new Int32Array(this.compiled.width)
    this.calendars = this.compiled.problem.calendars.length + 1
    this.single = Array.from({ length: this.compiled.profiles.length * this.calendars * 2 })
  }

  /** Profile under one calendar (-1 for none). */
  private profile(profile: number, calendar: number, level: 0 | 1): Profile {
    const key = (profile * this.calendars + calendar + 1) * 2 + level
    return (this.single[key] ??= this.compiled.effective(profile, calendar < 0 ? [] : [calendar], level))
  }

  /**
   * Finds the place of task i from `from` on that ends first, and before its latest end. Resource `preferred[d]`
   * wins ties when given. False when there is none.
   */
  find(i: number, from: number, level: 0 | 1, preferred: Int32Array | null): boolean {
    const modes = this.compiled.modes[i]!
    this.end = this.compiled.latestEnd[i]! + 1
    let found = false
    for (let m = 0; m < modes.length; m++) {
      const mode = modes[m]!
      if (mode.demands.length === 0) found = this.findFree(i, m, from) || found
      else if (mode.demands.length === 1) found = this.findOne(i, m, mode, from, level, preferred) || found
      else found = this.findSeveral(i, m, mode, from, level, preferred) || found
    }
    return found
  }

  private findFree(i: number, m: number, from: number): boolean {
    const profile = this.compiled.profiles[this.board.profileOf(i, m, nothing)]!
    const end = profile.finish(from, this.compiled.modes[i]![m]!.work)
    if (end >= this.end) return false
    this.mode = m
    this.start = from
    this.end = end
    return true
  }

  private findOne(
    i: number,
    m: number,
    mode: CompiledMode,
    from: number,
    level: 0 | 1,
    preferred: Int32Array | null,
  ): boolean {
    const { compiled, board } = this
    const { calendarOf, open, family, fastest, batches } = compiled
    const breaks = compiled.breaks[i]!
    const { resources, units } = mode.demands[0]!
    const { work } = mode
    const own = family[i]!
    const count = resources.length
    const offset = count > 12 ? this.random.below(count) : 0
    let found = false
    let tightness = -1
    // The earliest end anybody could give: when reached, only a tighter fit is worth looking for.
    let floor = -1
    // Many alternatives are free at one minute and keep the same hours: the same end.
    let askedOf: Profile | null = null
    let askedAt = -1
    let answer = 0
    for (let k = 0; k < count; k++) {
      const r = resources[k + offset < count ? k + offset : k + offset - count]!
      if (this.blink > 0 && count > 1 && (this.random.bits() & 255) < this.blink) continue
      const calendar = calendarOf[r]!
      const base = mode.byResource === null ? mode.profile : board.profileOf(i, m, [r])
      const profile = this.profile(base, breaks === 'pause' ? calendar : -1, level)
      const window = breaks === 'forbid' && calendar >= 0 ? open[level][calendar]! : null
      const waits = breaks === 'pause' && calendar >= 0 && work > 0
      const timeline = board.timelines[r]!
      // No stay is shorter than this, so smaller gaps need no closer look.
      const least = batches[r] === 1 ? 0 : Math.floor(work / fastest[base]!)
      let t = least > 0 ? timeline.gap(from, least, units) : from
      for (;;) {
        if (waits) t = open[level][calendar]!.nextWorking(t)
        else if (window !== null && work > 0) t = window.nextWorking(t)
        if (t + least > this.end) break
        if (t !== askedAt || profile !== askedOf) {
          askedOf = profile
          askedAt = t
          answer = profile.finish(t, work)
        }
        const end = answer
        if (end > this.end || (end === this.end && !found)) break
        if (window !== null && work > 0) {
          const stop = window.nextBreak(t)
          if (stop < end) {
            t = stop
            continue
          }
        }
        const next = timeline.conflict(t, end, units, own)
        if (next >= 0) {
          t = least > 0 ? timeline.gap(next, least, units) : next
          continue
        }
        let tight = timeline.freeSince(t)
        if (preferred !== null && preferred[0] === r) tight = never
        if (end < this.end || t > this.start || (t === this.start && tight > tightness)) {
          this.mode = m
          this.start = t
          this.end = end
          this.resources[0] = r
          tightness = tight
          found = true
        }
        break
      }
      if (found && count > 12) {
        if (floor < 0) floor = profile.finish(waits ? open[level][calendar]!.nextWorking(from) : from, work)
        if (this.end <= floor) break
      }
    }
    return found
  }

  private findSeveral(
    i: number,
    m: number,
    mode: CompiledMode,
    from: number,
    level: 0 | 1,
    preferred: Int32Array | null,
  ): boolean {
    const { compiled } = this
    const breaks = compiled.breaks[i]!
    const sameCalendar = mode.demands.every(({ resources }) => {
      for (let k = 1; k < resources.length; k++)
        if (compiled.calendarOf[resources[k]!] !== compiled.calendarOf[resources[0]!]) return false
      return true
    })
    if (mode.byResource === null && (breaks !== 'pause' || sameCalendar))
      return this.sweep(i, m, mode, from, level, preferred)
    return this.combine(i, m, mode, from, level, preferred, 0, mostCombinations)
  }

  /** Durations don't depend on the choice: move one start time on until every demand finds somebody. */
  private sweep(
    i: number,
    m: number,
    mode: CompiledMode,
    from: number,
    level: 0 | 1,
    preferred: Int32Array | null,
  ): boolean {
    const { compiled, board, trial } = this
    const { calendarOf, open, family } = compiled
    const breaks = compiled.breaks[i]!
    const { demands, order, work } = mode
    const calendars =
      breaks === 'pause' ? demands.map((d) => calendarOf[d.resources[0]!]!).filter((c) => c >= 0) : []
    const profile =
      calendars.length <= 1
        ? this.profile(mode.profile, calendars[0] ?? -1, level)
        : compiled.effective(mode.profile, calendars, level)
    let t = from
    for (;;) {
      if (breaks === 'pause' && work > 0) {
        for (let again = true; again;) {
          again = false
          for (const calendar of calendars) {
            const next = open[level][calendar]!.nextWorking(t)
            if (next > t) {
              t = next
              again = true
            }
          }
        }
      }
      if (t >= this.end) return false
      const end = profile.finish(t, work)
      if (end >= this.end) return false
      let later = -1
      for (let at = 0; at < demands.length && later < 0; at++) {
        const d = order[at]!
        const { resources, units } = demands[d]!
        let soonest = never
        let tightness = -1
        for (let k = 0; k < resources.length; k++) {
          const r = resources[k]!
          let needed = units
          for (let e = 0; e < at; e++) if (trial[order[e]!] === r) needed += demands[order[e]!]!.units
          if (needed > compiled.problem.resources[r]!.capacity) continue
          if (this.blink > 0 && resources.length > 1 && (this.random.bits() & 255) < this.blink) continue
          let next = board.timelines[r]!.conflict(t, end, needed, family[i]!)
          const calendar = calendarOf[r]!
          if (breaks === 'forbid' && calendar >= 0 && work > 0) {
            const stop = open[level][calendar]!.nextBreak(t)
            if (stop < end) next = Math.max(next, open[level][calendar]!.nextWorking(stop))
          }
          if (next >= 0) {
            if (next < soonest) soonest = next
            continue
          }
          let tight = board.timelines[r]!.freeSince(t)
          if (preferred !== null && preferred[d] === r) tight = never
          if (tight > tightness) {
            tightness = tight
            trial[d] = r
          }
        }
        if (tightness < 0) later = soonest
      }
      if (later < 0) {
        this.mode = m
        this.start = t
        this.end = end
        this.resources.set(trial)
        return true
      }
      t = later
    }
  }

  /** Durations depend on the choice: try combinations, the alternatives that are free soonest first. */
  private combine(
    i: number,
    m: number,
    mode: CompiledMode,
    from: number,
    level: 0 | 1,
    preferred: Int32Array | null,
    depth: number,
    budget: number,
  ): boolean {
    const { demands } = mode
    if (depth === demands.length) return this.tryChosen(i, m, mode, from, level)
    const { resources } = demands[depth]!
    const timelines = this.board.timelines
    let list = [...resources]
    const share = Math.max(1, Math.floor(budget ** (1 / (demands.length - depth))))
    if (list.length > share) {
      const free = (r: number): number =>
        preferred !== null && preferred[depth] === r ? -1 : timelines[r]!.conflict(from, from + 1, 1, -1)
      list = list
        .map((r) => [r, free(r)] as const)
        .sort((a, b) => a[1] - b[1])
        .slice(0, share)
        .map(([r]) => r)
    }
    let found = false
    for (const r of list) {
      this.trial[depth] = r
      found =
        this.combine(i, m, mode, from, level, preferred, depth + 1, Math.floor(budget / list.length)) || found
    }
    return found
  }

  private tryChosen(i: number, m: number, mode: CompiledMode, from: number, level: 0 | 1): boolean {
    const { compiled, board, trial } = this
    const { calendarOf, open, family } = compiled
    const { demands, work } = mode
    const breaks = compiled.breaks[i]!
    const used = [...trial.subarray(0, demands.length)]
    const needed = used.map((r) =>
      demands.reduce((sum, demand, d) => (used[d] === r ? sum + demand.units : sum), 0),
    )
    if (used.some((r, d) => needed[d]! > compiled.problem.resources[r]!.capacity)) return false
    const calendars = used.map((r) => calendarOf[r]!).filter((c) => c >= 0)
    const profile = compiled.effective(
      board.profileOf(i, m, used),
      breaks === 'pause' ? calendars : [],
      level,
    )
    let t = from
    for (;;) {
      let next = t
      if (breaks !== 'ignore' && work > 0)
        for (const c of calendars) next = Math.max(next, open[level][c]!.nextWorking(next))
      if (next > t) {
        t = next
        continue
      }
      if (t >= this.end) return false
      const end = profile.finish(t, work)
      if (end >= this.end) return false
      if (breaks === 'forbid' && work > 0) {
        for (const c of calendars) {
          const stop = open[level][c]!.nextBreak(t)
          if (stop < end) next = Math.max(next, stop)
        }
      }
      used.forEach(
        (r, d) => (next = Math.max(next, board.timelines[r]!.conflict(t, end, needed[d]!, family[i]!))),
      )
      if (next > t) {
        t = next
        continue
      }
      this.mode = m
      this.start = t
      this.end = end
      this.resources.set(trial)
      return true
    }
  }
}
