import type { Interval, RateProfile } from '../model/problem.ts'

/** What `finish` and `next` answer when the work is never done. Far above any horizon, small enough to add to. */
export const never = 2 ** 31 - 2 ** 24

const bucketShift = 7

/**
 * G(t), the work done up to minute t, and its inverse, for one rate profile, calendar or mixture: the one look-up
 * behind shifts, temperature-dependent cure and constant durations. All values are whole numbers.
 */
export class Profile {
  /** Breakpoints, work done up to each, and the rate from each on. */
  readonly at: Int32Array
  readonly done: Float64Array
  readonly rate: Float64Array
  /** Rate 1 everywhere: answers need no look-up. */
  readonly isPlain: boolean
  /** Index of the piece that holds the first minute of each 128-minute bucket. */
  private readonly bucket: Int32Array

  constructor(points: readonly { atMinute: number; ratePerMinute: number }[], horizonMinutes: number) {
    const kept = points.filter((point, i) => i === 0 || point.ratePerMinute !== points[i - 1]!.ratePerMinute)
    this.at = new Int32Array(kept.map((point) => point.atMinute))
    this.rate = new Float64Array(kept.map((point) => point.ratePerMinute))
    this.done = new Float64Array(kept.length)
    for (let i = 1; i < kept.length; i++) {
      this.done[i] = this.done[i - 1]! + this.rate[i - 1]! * (this.at[i]! - this.at[i - 1]!)
    }
    this.isPlain = kept.length === 1 && kept[0]!.ratePerMinute === 1
    const buckets = Math.min((horizonMinutes >> bucketShift) + 2, 1 << 16)
    this.bucket = new Int32Array(buckets)
    let piece = 0
    for (let b = 0; b < buckets; b++) {
      while (piece + 1 < this.at.length && this.at[piece + 1]! <= b << bucketShift) piece++
      this.bucket[b] = piece
    }
  }

  pieceAt(minute: number): number {
    const { at, bucket } = this
    let piece = bucket[Math.min(minute >> bucketShift, bucket.length - 1)]!
    while (piece + 1 < at.length && at[piece + 1]! <= minute) piece++
    return piece
  }

  /** G(minute). */
  workBy(minute: number): number {
    if (this.isPlain) return minute
    const piece = this.pieceAt(minute)
    return this.done[piece]! + this.rate[piece]! * (minute - this.at[piece]!)
  }

  /** Least e with G(e) - G(start) >= work: when a task started then is done. */
  finish(start: number, work: number): number {
    if (this.isPlain) return start + work
    if (work === 0) return start
    const { at, done, rate } = this
    let piece = this.pieceAt(start)
    const target = done[piece]! + rate[piece]! * (start - at[piece]!) + work
    while (piece + 1 < at.length && done[piece + 1]! < target) piece++
    if (rate[piece] === 0) return never
    return Math.min(at[piece]! + Math.ceil((target - done[piece]!) / rate[piece]!), never)
  }

  /** Greatest s with finish(s, work) <= end: the latest start for a deadline; -1 when there is none. */
  latestStart(end: number, work: number): number {
    if (this.isPlain) return Math.max(end - work, -1)
    if (work === 0) return end
    const target = this.workBy(end) - work
    if (target < 0) return -1
    const { at, done, rate } = this
    let low = 0
    let high = at.length - 1
    while (low < high) {
      const mid = (low + high + 1) >> 1
      if (done[mid]! <= target) low = mid
      else high = mid - 1
    }
    const start = rate[low] === 0 ? end : at[low]! + Math.floor((target - done[low]!) / rate[low]!)
    return Math.min(start, end)
  }

  /** First minute from `minute` on with a rate above zero, or `never`. */
  nextWorking(minute: number): number {
    if (this.isPlain) return minute
    let piece = this.pieceAt(minute)
    if (this.rate[piece]! > 0) return minute
    while (++piece < this.at.length) if (this.rate[piece]! > 0) return this.at[piece]!
    return never
  }

  /** First minute from `minute` on with rate zero, or `never`. */
  nextBreak(minute: number): number {
    if (this.isPlain) return never
    let piece = this.pieceAt(minute)
    if (this.rate[piece] === 0) return minute
    while (++piece < this.at.length) if (this.rate[piece] === 0) return this.at[piece]!
    return never
  }
}

/** The plain profile: one unit of work a minute, always. */
export const plainProfile = new Profile([{ atMinute: 0, ratePerMinute: 1 }], 0)

/** Rate 1 inside the intervals (sorted or not, touching allowed), 0 outside. */
export function intervalsProfile(intervals: readonly Interval[], horizonMinutes: number): Profile {
  const points: { atMinute: number; ratePerMinute: number }[] = [{ atMinute: 0, ratePerMinute: 0 }]
  const set = (atMinute: number, ratePerMinute: number): void => {
    if (points.at(-1)!.atMinute === atMinute) points.pop()
    points.push({ atMinute, ratePerMinute })
  }
  for (const [from, until] of intervals.toSorted((a, b) => a[0] - b[0])) {
    set(from, 1)
    set(until, 0)
  }
  return new Profile(points, horizonMinutes)
}

/** Work goes on only where every profile does, at the product of the rates. */
export function product(profiles: readonly Profile[], horizonMinutes: number): Profile {
  const others = profiles.filter((profile) => !profile.isPlain)
  if (others.length <= 1) return others[0] ?? plainProfile
  const times = [...new Set(others.flatMap((profile) => [...profile.at]))].toSorted((a, b) => a - b)
  return new Profile(
    times.map((atMinute) => ({
      atMinute,
      ratePerMinute: others.reduce((rate, profile) => rate * profile.rate[profile.pieceAt(atMinute)]!, 1),
    })),
    horizonMinutes,
  )
}

export const compileProfile = (profile: RateProfile, horizonMinutes: number): Profile =>
  new Profile(profile.points, horizonMinutes)
