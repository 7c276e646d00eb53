/**
 * What is booked on a resource. `conflict(from, until, ...)` answers -1 when the stay fits, otherwise the first later
 * start worth trying: every start before it would still overlap, because a later start never ends earlier.
 */
export interface Timeline {
  conflict(from: number, until: number, units: number, family: number): number
  /** First minute from `from` on after which `length` minutes are free, set-up and batches left aside. */
  gap(from: number, length: number, units: number): number
  add(from: number, until: number, units: number, family: number, owner: number): void
  remove(from: number, until: number, units: number, owner: number): void
  /** End of the last booking that ends by `minute`, 0 without one: how tight a stay from then on would fit. */
  freeSince(minute: number): number
  /** Owners of the bookings next to a minute, nearest first, at most `limit`, into `out`; returns how many. */
  around(minute: number, limit: number, out: Int32Array): number
  clear(): void
}

const grown = (array: Int32Array): Int32Array<ArrayBuffer> => {
  const result = new Int32Array(array.length * 2)
  result.set(array)
  return result
}

/** Sorted bookings of something that takes one stay at a time, with optional set-up between families. */
export class UnaryTimeline implements Timeline {
  size = 0
  from = new Int32Array(16)
  until = new Int32Array(16)
  owner = new Int32Array(16)
  family = new Int32Array(16)
  /** setup[a * families + b] minutes from family a to b; null when there is none. */
  private readonly setup: Int32Array | null
  private readonly families: number
  /** What `lastBefore` answered last: one search asks about the same gap again and again. */
  private near = -1

  constructor(setup: Int32Array | null, families: number) {
    this.setup = setup
    this.families = families
  }

  /** Index of the last booking that starts before `minute`, -1 without one. */
  private lastBefore(minute: number): number {
    const { from, size, near } = this
    if (near < size && (near < 0 || from[near]! < minute) && (near + 1 >= size || from[near + 1]! >= minute))
      return near
    let low = -1
    let high = size - 1
    while (low < high) {
      const mid = (low + high + 1) >> 1
      if (from[mid]! < minute) low = mid
      else high = mid - 1
    }
    this.near = low
    return low
  }

  private setupBetween(a: number, b: number): number {
    return a < 0 || b < 0 ? 0 : this.setup![a * this.families + b]!
  }

  conflict(from: number, until: number, _units: number, family: number): number {
    if (until <= from) return -1
    const last = this.lastBefore(until)
    if (last >= 0 && this.until[last]! > from) return this.until[last]!
    if (this.setup === null) return -1
    if (last >= 0) {
      const ready = this.until[last]! + this.setupBetween(this.family[last]!, family)
      if (ready > from) return ready
    }
    const next = last + 1
    if (next < this.size && until + this.setupBetween(family, this.family[next]!) > this.from[next]!)
      return this.until[next]!
    return -1
  }

  gap(from: number, length: number): number {
    const { size } = this
    const starts = this.from
    const ends = this.until
    let next = this.lastBefore(from + 1)
    let at = next >= 0 && ends[next]! > from ? ends[next]! : from
    for (next++; next < size && starts[next]! - at < length; next++) at = ends[next]!
    this.near = next - 1
    return at
  }

  add(from: number, until: number, _units: number, family: number, owner: number): void {
    if (until <= from) return
    if (this.size === this.from.length) {
      this.from = grown(this.from)
      this.until = grown(this.until)
      this.owner = grown(this.owner)
      this.family = grown(this.family)
    }
    const at = this.lastBefore(from) + 1
    const { size } = this
    this.from.copyWithin(at + 1, at, size)
    this.until.copyWithin(at + 1, at, size)
    this.owner.copyWithin(at + 1, at, size)
    this.family.copyWithin(at + 1, at, size)
    this.from[at] = from
    this.until[at] = until
    this.owner[at] = owner
    this.family[at] = family
    this.size++
  }

  remove(from: number, until: number, _units: number, owner: number): void {
    if (until <= from) return
    const at = this.lastBefore(from + 1)
    if (at < 0 || this.from[at] !== from || this.owner[at] !== owner)
      throw new Error('remove: no such booking')
    const { size } = this
    this.from.copyWithin(at, at + 1, size)
    this.until.copyWithin(at, at + 1, size)
    this.owner.copyWithin(at, at + 1, size)
    this.family.copyWithin(at, at + 1, size)
    this.size--
  }

  freeSince(minute: number): number {
    const at = this.lastBefore(minute)
    return at < 0 ? 0 : this.until[at]!
  }

  around(minute: number, limit: number, out: Int32Array): number {
    let low = this.lastBefore(minute)
    let high = low + 1
    let filled = 0
    while (filled < limit && (low >= 0 || high < this.size)) {
      if (low >= 0) out[filled++] = this.owner[low--]!
      if (filled < limit && high < this.size) out[filled++] = this.owner[high++]!
    }
    return filled
  }

  clear(): void {
    this.size = 0
  }
}

/** Usage as a step function, for a resource of several like units. */
export class CumulativeTimeline implements Timeline {
  private readonly capacity: number
  private size = 1
  private at = new Int32Array(16)
  private used = new Int32Array(16)

  constructor(capacity: number) {
    this.capacity = capacity
  }

  /** Index of the step that holds `minute`. */
  private step(minute: number): number {
    const { at } = this
    let low = 0
    let high = this.size - 1
    while (low < high) {
      const mid = (low + high + 1) >> 1
      if (at[mid]! <= minute) low = mid
      else high = mid - 1
    }
    return low
  }

  conflict(from: number, until: number, units: number, _family: number): number {
    if (until <= from) return -1
    const first = this.step(from)
    for (let i = this.step(until - 1); i >= first; i--) {
      if (this.used[i]! + units > this.capacity) return i + 1 < this.size ? this.at[i + 1]! : 2 ** 30
    }
    return -1
  }

  gap(from: number, length: number, units: number): number {
    const limit = this.capacity - units
    const { at, used, size } = this
    let free = from
    for (let i = this.step(from); i < size; i++) {
      if (at[i]! - free >= length) return free
      if (used[i]! > limit) free = i + 1 < size ? at[i + 1]! : 2 ** 30
    }
    return free
  }

  private split(minute: number): number {
    const i = this.step(minute)
    if (this.at[i] === minute) return i
    if (this.size === this.at.length) {
      this.at = grown(this.at)
      this.used = grown(this.used)
    }
    this.at.copyWithin(i + 2, i + 1, this.size)
    this.used.copyWithin(i + 1, i, this.size)
    this.at[i + 1] = minute
    this.size++
    return i + 1
  }

  private merge(i: number): void {
    if (i <= 0 || i >= this.size || this.used[i] !== this.used[i - 1]) return
    this.at.copyWithin(i, i + 1, this.size)
    this.used.copyWithin(i, i + 1, this.size)
    this.size--
  }

  add(from: number, until: number, units: number): void {
    if (until <= from) return
    const first = this.split(from)
    const last = this.split(until)
    for (let i = first; i < last; i++) this.used[i]! += units
    this.merge(last)
    this.merge(first)
  }

  remove(from: number, until: number, units: number): void {
    this.add(from, until, -units)
  }

  freeSince(): number {
    return 0
  }

  around(): number {
    return 0
  }

  clear(): void {
    this.size = 1
    this.at[0] = 0
    this.used[0] = 0
  }
}

/** A batching machine: stays overlap only as one batch, of one family, with one start and one end. */
export class BatchTimeline implements Timeline {
  private readonly capacity: number
  private stays: { from: number; until: number; units: number; family: number; owner: number }[] = []

  constructor(capacity: number) {
    this.capacity = capacity
  }

  conflict(from: number, until: number, units: number, family: number): number {
    if (until <= from) return -1
    let free = -1
    let room = this.capacity
    for (const stay of this.stays) {
      if (stay.until <= from || stay.from >= until) continue
      if (stay.from === from && stay.until === until && family >= 0 && stay.family === family)
        room -= stay.units
      else free = Math.max(free, stay.until)
    }
    if (free < 0 && room >= units) return -1
    if (free < 0) free = until
    // A batch of the family that starts in between may have room.
    for (const stay of this.stays) {
      if (
        family >= 0 &&
        stay.family === family &&
        stay.from > from &&
        stay.from < free &&
        this.room(stay.from) >= units
      )
        free = stay.from
    }
    return free
  }

  gap(from: number): number {
    return from
  }

  private room(start: number): number {
    return this.stays.reduce((room, stay) => (stay.from === start ? room - stay.units : room), this.capacity)
  }

  add(from: number, until: number, units: number, family: number, owner: number): void {
    if (until > from) this.stays.push({ from, until, units, family, owner })
  }

  remove(from: number, until: number, _units: number, owner: number): void {
    if (until <= from) return
    const at = this.stays.findIndex((stay) => stay.owner === owner && stay.from === from)
    if (at < 0) throw new Error('remove: no such booking')
    this.stays.splice(at, 1)
  }

  freeSince(minute: number): number {
    return this.stays.reduce(
      (latest, stay) => (stay.until <= minute ? Math.max(latest, stay.until) : latest),
      0,
    )
  }

  around(minute: number, limit: number, out: Int32Array): number {
    const near = this.stays
      .toSorted((a, b) => Math.abs(a.from - minute) - Math.abs(b.from - minute))
      .slice(0, limit)
    near.forEach((stay, i) => (out[i] = stay.owner))
    return near.length
  }

  clear(): void {
    this.stays = []
  }
}
