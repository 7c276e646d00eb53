import { likeliest, progressOf, reachedOf, wholeRange, cutIntoBins, type LagBin } from '../careful/bins.ts'
import { UNKNOWN_PLACE } from '../careful/place.ts'
import { MILESTONES } from '../sheet/data-sheet.ts'
import { rateAt, rateCurve, type RateCurve } from '../sheet/rate-curve.ts'
import { STALE_LIMIT_MINUTES, type Reading } from '../readings/reading.ts'
import { LINES, readingBand, type Line, type Triple } from '../readings/temperature-line.ts'
import type { BondHistory } from '../estimate/estimate.ts'
import { MINUTE_MS, START_MS } from '../testing.ts'

/**
 * The same estimate once more, as plainly as it can be said: half a minute after the other, the metal of every lag
 * bin led by the textbook's answer of a first-order lag to a ramp, cure added up by two points of Gauss a step. No arcs, no
 * closed integrals, no pieces, nothing kept from one reading to the next but where the metal and its progress stand.
 */
const STEP_MINUTES = 0.5

type Air = (minute: number) => Triple
type Bins = LagBin[]

/** Minutes after the start of the tests' histories. */
export const minuteOf = (ms: number): number => (ms - START_MS) / MINUTE_MS
const overHours = (table: readonly number[], minutes: number): number => {
  const hour = Math.min(24, minutes / 60)
  const below = Math.min(23, Math.floor(hour))
  return table[below]! * (below + 1 - hour) + table[below + 1]! * (hour - below)
}
const fall = (minutes: number) => overHours(UNKNOWN_PLACE.fallC, minutes)
const rise = (minutes: number) => overHours(UNKNOWN_PLACE.riseC, minutes)

class Stepwise {
  readonly curves: readonly (readonly RateCurve[])[]
  bins: Bins
  minute = 0
  /** Where all stood when the metal was last measured. */
  mark = { minute: 0, isMeasured: false, band: [0, 0, 0] as Triple, cold: [0], warm: [0] }
  coldestC = Infinity
  warmestC = -Infinity

  readonly history: BondHistory

  constructor(history: BondHistory) {
    this.history = history
    const { sheet, panelTauMinutes } = history
    this.curves = (['careful', 'expected', 'hasty'] as const).map((side) =>
      MILESTONES.map((milestone) => rateCurve(sheet, milestone, side)),
    )
    this.bins = [wholeRange(panelTauMinutes ?? null)]
  }

  cut(): void {
    this.bins = cutIntoBins(this.bins[0]!, this.history.panelTauMinutes ?? null)
  }

  /** Step by step to an instant; `onMetal` where the metal itself is given rather than its air. */
  lead(toMinute: number, given: Air, onMetal = false, stops: readonly number[] = []): void {
    const marks = [...stops, 0, toMinute].filter((at) => at > this.minute && at <= toMinute)
    for (const end of [...new Set(marks)].toSorted((a, b) => a - b)) {
      const steps = Math.max(1, Math.ceil((end - this.minute) / STEP_MINUTES))
      const start = this.minute
      for (let n = 0; n < steps; n++) {
        const [from, to] = [n, n + 1].map((k) => start + ((end - start) * k) / steps) as [number, number]
        // From within: where two stretches meet the air may jump.
        const inset = (to - from) * 1e-9
        const [a, b] = [given(from + inset), given(to - inset)]
        for (const bin of this.bins) this.step(bin, from, to, a, b, onMetal)
        for (const { panelC } of this.bins) {
          this.coldestC = Math.min(this.coldestC, panelC[0])
          this.warmestC = Math.max(this.warmestC, panelC[2])
        }
      }
      this.minute = end
    }
  }

  private step(bin: LagBin, from: number, to: number, a: Triple, b: Triple, onMetal: boolean): void {
    const ends = LINES.map((line) => {
      const c = bin.panelC[line]
      if (onMetal) return [a[line], b[line]] as const
      const warms = a[line] > c || (a[line] === c && b[line] > c)
      const tau =
        line === 1 ? bin.expectedMinutes : warms === (line === 0) ? bin.slowMinutes : bin.fastMinutes
      const ramp = (b[line] - a[line]) / (to - from)
      const end = b[line] - ramp * tau + (c - a[line] + ramp * tau) * Math.exp(-(to - from) / tau)
      // Metal that follows at once has been where its air is all along.
      return [tau < STEP_MINUTES / 10 ? a[line] : c, end] as const
    })
    if (from >= 0) LINES.forEach((line) => this.cure(bin, line, from, to, ...ends[line]!))
    bin.panelC = [ends[0]![1], ends[1]![1], ends[2]![1]]
  }

  private cure(bin: LagBin, line: Line, from: number, to: number, startC: number, endC: number): void {
    this.curves[line]!.forEach((curve, m) => {
      const i = m * LINES.length + line
      const gain = gained(curve, startC, endC) * (to - from)
      const before = bin.progress[i]!
      bin.progress[i] = before + gain
      if (bin.reachedAtMs[i] === null && before + gain >= 1)
        bin.reachedAtMs[i] = START_MS + (from + ((1 - before) / gain) * (to - from)) * MINUTE_MS
    })
  }

  markAt(band: Triple, isMeasured: boolean): void {
    const of = (line: Line) => MILESTONES.map((_, m) => progressOf(this.bins, m * LINES.length + line))
    this.mark = { minute: this.minute, isMeasured, band, cold: of(0), warm: of(2) }
    ;[this.coldestC, this.warmestC] = [band[0], band[2]]
  }

  /** The metal was measured while the air leads it. */
  measure(reading: Reading): void {
    let band = readingBand(reading)
    const { mark } = this
    if (mark.isMeasured && this.minute - mark.minute <= 10)
      band = [Math.min(band[0], mark.band[0]), band[1], Math.max(band[2], mark.band[2])]
    if (reading.suspect) {
      for (const bin of this.bins)
        bin.panelC = [Math.min(bin.panelC[0], band[0]), bin.panelC[1], Math.max(bin.panelC[2], band[2])]
      return
    }
    const sides = mark.isMeasured
      ? { cold: true, warm: true }
      : { cold: band[0] < this.outer()[0], warm: band[2] > this.outer()[2] }
    if (!mark.isMeasured) {
      if (sides.cold || sides.warm) this.contradicted(reading, band, sides)
      for (const bin of this.bins) bin.panelC = band
    } else {
      const agree = this.bins.filter(({ panelC }) => panelC[0] <= band[2] && panelC[2] >= band[0])
      if (agree.length === 0) this.contradicted(reading, band, sides)
      else this.bins = agree
      for (const bin of agree) {
        const [cold, expected, warm] = bin.panelC
        bin.misfit += ((band[1] - expected) / Math.max(0.5, (band[2] - band[0]) / 2)) ** 2
        const [low, high] = [Math.max(cold, band[0]), Math.min(warm, band[2])]
        bin.panelC = [low, Math.min(Math.max(band[1], low), high), high]
      }
    }
    this.markAt(this.outer(), true)
  }

  private outer(): Triple {
    const cold = Math.min(...this.bins.map(({ panelC }) => panelC[0]))
    const warm = Math.max(...this.bins.map(({ panelC }) => panelC[2]))
    return [cold, likeliest(this.bins).panelC[1], warm]
  }

  /** All since the last measurement at the coldest of everything, at the warmest on the warm line. */
  private contradicted(reading: Reading, band: Triple, sides: { cold: boolean; warm: boolean }): void {
    const { mark } = this
    const isNear = mark.isMeasured && this.minute - mark.minute <= STALE_LIMIT_MINUTES[reading.source]
    const coldest = Math.min(band[0], isNear ? mark.band[0] : this.coldestC)
    const warmest = Math.max(band[2], isNear ? mark.band[2] : this.warmestC)
    const minutes = Math.max(0, this.minute - Math.max(0, mark.minute))
    const fresh = wholeRange(this.history.panelTauMinutes ?? null)
    const nowMs = START_MS + this.minute * MINUTE_MS
    MILESTONES.forEach((_, m) => {
      const i = m * LINES.length
      const [was, expected, most] = LINES.map((line) => progressOf(this.bins, i + line)) as [
        number,
        number,
        number,
      ]
      const cold = sides.cold ? mark.cold[m]! + minutes * rateAt(this.curves[0]![m]!, coldest) : was
      const warm = sides.warm
        ? Math.max(most, mark.warm[m]! + minutes * rateAt(this.curves[2]![m]!, warmest))
        : most
      fresh.progress.splice(i, 3, cold, Math.min(Math.max(expected, cold), warm), warm)
      const [coldAt, at, warmAt] = LINES.map((line) => reachedOf(this.bins, i + line))
      const keeps = (side: boolean, before: number) => !side || before >= 1
      const reached = [
        keeps(sides.cold, mark.cold[m]!) ? coldAt! : nowMs,
        at ?? nowMs,
        keeps(sides.warm, mark.warm[m]!) && warmAt !== null ? warmAt! : START_MS + mark.minute * MINUTE_MS,
      ]
      LINES.forEach((line) => {
        if (fresh.progress[i + line]! >= 1) fresh.reachedAtMs[i + line] = reached[line] ?? nowMs
      })
    })
    fresh.panelC = band
    this.bins = [fresh]
    this.cut()
  }
}

/** Mean rate along a straight line between two temperatures, 1/min: two points of Gauss between the corners of a curve. */
function gained(curve: RateCurve, startC: number, endC: number): number {
  const corners = curve.edgesK
    .map((k) => (k - 273.15 - startC) / (endC - startC))
    .filter((share) => share > 0 && share < 1)
    .toSorted((a, b) => a - b)
  let sum = 0
  let from = 0
  for (const to of [...corners, 1]) {
    for (const side of [-1, 1]) {
      const share = (from + to) / 2 + (side * (to - from)) / (2 * Math.sqrt(3))
      sum += ((to - from) / 2) * rateAt(curve, startC + share * (endC - startC))
    }
    from = to
  }
  return sum
}

type Doubts = readonly Reading[]

/** Straight lines, pulled out by what is in doubt: the hull is what no chord between two of its points passes. */
function pulledOut(given: Air, from: number, to: number, doubts: Doubts): Air {
  const bands = doubts.map((reading) => [minuteOf(reading.atMs), readingBand(reading)] as const)
  const points = [[from, given(from)] as const, ...bands, [to, given(to)] as const]
  return (minute) => {
    let [low, expected, high] = given(minute)
    for (const [p, a] of points) {
      for (const [q, b] of points) {
        if (p > minute || q < minute || p === q) continue
        const share = (minute - p) / (q - p)
        low = Math.min(low, a[0] + share * (b[0] - a[0]))
        high = Math.max(high, a[2] + share * (b[2] - a[2]))
      }
    }
    return [low, expected, high]
  }
}

/** In a silence: from what is in doubt on no warmer than that, and on the warm line no colder. */
function heldBy(given: Air, doubts: Doubts): Air {
  return (minute) => {
    const [c, expected, h] = given(minute)
    const bands = doubts.filter(({ atMs }) => minuteOf(atMs) <= minute).map(readingBand)
    return [Math.min(c, ...bands.map(([low]) => low)), expected, Math.max(h, ...bands.map((each) => each[2]))]
  }
}

/** Between two good readings of one kind, by the rule of silence. */
function betweenTwo(first: Reading, second: Reading, startC: (band: Triple) => number, doubts: Doubts): Air {
  const [from, to] = [minuteOf(first.atMs), minuteOf(second.atMs)]
  const limit = Math.min(STALE_LIMIT_MINUTES[first.source], STALE_LIMIT_MINUTES[second.source])
  const [a, b] = [readingBand(first), readingBand(second)]
  const given: Air = (minute) => {
    const share = (minute - from) / (to - from)
    const straight = LINES.map((line) => a[line] * (1 - share) + b[line] * share) as [number, number, number]
    if (to - from <= limit) return straight
    const fallen = Math.max(startC(a) - fall(minute - from), b[0] - rise(to - minute))
    const risen = Math.min(a[2] + rise(minute - from), b[2] + fall(to - minute))
    return [Math.min(straight[0], fallen), straight[1], Math.max(straight[2], risen)]
  }
  return to - from <= limit ? pulledOut(given, from, to, doubts) : heldBy(given, doubts)
}

/** After the last good reading, until something else is known. */
function afterLast(last: Reading, startC: (band: Triple) => number, forecast?: Triple): Air {
  const band = readingBand(last)
  const limit = STALE_LIMIT_MINUTES[last.source]
  return (minute) => {
    const since = minute - minuteOf(last.atMs)
    const isFresh = since <= limit
    if (isFresh && last.source !== 'bayAir') return band
    const [low, high] = [startC(band) - fall(since), band[2] + rise(since)]
    if (isFresh || forecast === undefined) return [low, band[1], high]
    return [Math.min(low, forecast[0]), band[1], Math.max(high, forecast[2])]
  }
}

/** Before the first reading of its kind: it can only have risen, or fallen, to there. */
function beforeFirst(first: Reading, band: Triple): Air {
  return (minute) => {
    const until = minuteOf(first.atMs) - minute
    if (until <= STALE_LIMIT_MINUTES[first.source]) return band
    return [band[0] - rise(until), band[1], band[2] + fall(until)]
  }
}

const asItIs = (band: Triple): number => band[0]
/** Metal that was warmer than a heated shop may fall to that, whatever it was. */
const asAShop = (band: Triple): number => Math.min(band[0], 18)
/** The tables of a place have corners at whole hours from both ends, and there a reading goes stale. */
const cornersFrom = (...minutes: number[]): number[] =>
  minutes.flatMap((minute) =>
    Array.from({ length: 49 }, (_, k) => [minute + 60 * (k - 24), minute + 30, minute - 30]).flat(),
  )

function stepwise(history: BondHistory): Found {
  const { readings, forecast, nowMs, sheet, panelTauMinutes } = history
  const bond = new Stepwise(history)
  let air: Reading | undefined
  let metal: Reading | undefined
  let isStarted = false
  let waiting: Reading[] = []
  /** What is in doubt since the last good one of what the metal is led by. */
  let doubts: Reading[] = []
  const corners = (...minutes: number[]) => [
    ...cornersFrom(...minutes),
    ...doubts.map(({ atMs }) => minuteOf(atMs)),
  ]
  /** Led by the air to an instant, past the readings of the metal that waited for it. */
  const leadByAir = (toMinute: number, given: Air, corners: readonly number[]) => {
    for (const reading of waiting.filter(({ atMs }) => minuteOf(atMs) <= toMinute)) {
      bond.lead(minuteOf(reading.atMs), given, false, corners)
      bond.measure(reading)
      waiting = waiting.filter((each) => each !== reading)
    }
    bond.lead(toMinute, given, false, corners)
  }
  const leadIn = (reading: Reading, band: Triple) => {
    const at = minuteOf(reading.atMs)
    if (at > 0) bond.lead(at, beforeFirst(reading, band), true, cornersFrom(at))
    for (const bin of bond.bins) bin.panelC = band
    bond.minute = at
    isStarted = true
  }
  for (const reading of readings) {
    const at = minuteOf(reading.atMs)
    const band = readingBand(reading)
    if (reading.suspect) {
      if (air === undefined || reading.source === 'bayAir') doubts.push(reading)
      else waiting.push(reading)
      continue
    }
    if (reading.source !== 'bayAir') {
      if (air !== undefined) {
        waiting.push(reading)
        const from = minuteOf(air.atMs)
        if (at - from > 60) leadByAir(at, heldBy(afterLast(air, asItIs), doubts), corners(from, at))
      } else {
        if (!isStarted) leadIn(reading, band)
        else {
          const from = minuteOf(metal!.atMs)
          bond.lead(at, betweenTwo(metal!, reading, asAShop, doubts), true, corners(from, at))
          bond.bins[0]!.panelC = band
        }
        doubts = []
        bond.markAt(band, true)
      }
      metal = reading
      continue
    }
    if (!isStarted) {
      const { min, max } = sheet.applicationRangeC
      const start: Triple = [Math.min(band[0], min), band[1], Math.max(band[2], max)]
      leadIn(reading, start)
      bond.cut()
      bond.markAt(start, false)
    } else if (air === undefined) {
      bond.cut()
      bond.lead(at, beforeFirst(reading, band), false, cornersFrom(bond.minute, at))
    } else {
      leadByAir(at, betweenTwo(air, reading, asItIs, doubts), corners(minuteOf(air.atMs), at))
    }
    ;[air, waiting, doubts] = [reading, [], []]
  }
  const now = minuteOf(nowMs)
  const [first] = forecast
  const ahead: Triple | undefined = first && [first.lowC, first.expectedC, first.highC]
  const last = air ?? metal!
  const given = heldBy(afterLast(last, air ? asItIs : asAShop, ahead), doubts)
  if (air) leadByAir(now, given, corners(minuteOf(last.atMs), now))
  else bond.lead(now, given, true, corners(minuteOf(last.atMs), now))
  if (!air && first && panelTauMinutes !== undefined) bond.cut()
  const progress = MILESTONES.map((_, m) =>
    LINES.map((line) => progressOf(bond.bins, m * LINES.length + line)),
  )
  const isOfMetal = !air && panelTauMinutes === undefined
  for (let i = 1; i < forecast.length; i++) {
    const [from, to] = [forecast[i - 1]!, forecast[i]!]
    bond.lead(
      minuteOf(to.atMs),
      (minute) => {
        const share = (minute - minuteOf(from.atMs)) / (minuteOf(to.atMs) - minuteOf(from.atMs))
        const mix = (a: number, b: number) => a + share * (b - a)
        return [mix(from.lowC, to.lowC), mix(from.expectedC, to.expectedC), mix(from.highC, to.highC)]
      },
      isOfMetal,
    )
  }
  const reached = MILESTONES.map((_, m) => LINES.map((line) => reachedOf(bond.bins, m * LINES.length + line)))
  return { progress, reached }
}

export interface Found {
  readonly progress: readonly (readonly number[])[]
  readonly reached: readonly (readonly (number | null)[])[]
}

/** What is in doubt never helps: of one that leaves it out and one that believes it, the less careful gives way. */
export function inSteps(history: BondHistory): Found {
  const trusted = stepwise({ ...history, readings: history.readings.filter(({ suspect }) => !suspect) })
  if (history.readings.every(({ suspect }) => !suspect)) return trusted
  const doubted = stepwise(history)
  const each = <T>(values: (found: Found) => readonly (readonly T[])[], of: readonly ((a: T, b: T) => T)[]) =>
    values(trusted).map((row, m) => row.map((value, line) => of[line]!(value, values(doubted)[m]![line]!)))
  const instant = (at: number | null) => at ?? Infinity
  const atOrNull = (at: number) => (at === Infinity ? null : at)
  return {
    progress: each(({ progress }) => progress, [Math.min, (a) => a, Math.max]),
    reached: each<number | null>(
      ({ reached }) => reached,
      [
        (a, b) => atOrNull(Math.max(instant(a), instant(b))),
        (a) => a,
        (a, b) => atOrNull(Math.min(instant(a), instant(b))),
      ],
    ),
  }
}
