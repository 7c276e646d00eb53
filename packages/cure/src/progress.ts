import { celsiusToKelvin, MS_PER_MINUTE, requirePositive } from '@clampclock/quantities'
import { MILESTONES, type DataSheet } from './data-sheet.ts'
import {
  integrateArc,
  integrateLine,
  integrateStraight,
  minutesToReach,
  noAnchor,
  type AnchorRates,
} from './integrate.ts'
import { withInterval, type EstimateNote } from './notes.ts'
import { rateCurve, type RateCurve } from './rate-curve.ts'
import {
  requireInstant,
  isGoodReading,
  requireReading,
  STALE_LIMIT_MINUTES,
  type Reading,
} from './reading.ts'
import { mayPass, partsBeyond } from './arc-limits.ts'
import { arcC, type TemperatureArc } from './temperature-arc.ts'
import {
  joinReadings,
  leadIn,
  LINES,
  readingBand,
  type Line,
  type Stretch,
  type Triple,
} from './temperature-line.ts'

/** Nine figures: milestone by milestone, in each the cold, the expected and the warm line. */
export type PerMilestoneAndLine<T> = readonly T[]

/**
 * Where a bond stood at its last reading: plain data, so it can be stored and taken up again. Adding a
 * reading costs the same however long the bond has been curing.
 */
export interface ProgressState {
  readonly sheet: DataSheet
  readonly curves: readonly RateCurve[]
  readonly appliedAtMs: number
  readonly panelTauMinutes: number | null
  readonly lastReading: Reading | null
  readonly readings: number
  /** The panel at the last reading, on the three lines; what it follows bay air from. */
  readonly panelC: Triple
  /** Fraction of each milestone at the last reading. */
  readonly progress: PerMilestoneAndLine<number>
  /** When the fraction passed one, ms; null as long as it has not. */
  readonly reachedAtMs: PerMilestoneAndLine<number | null>
  /** Coldest and warmest temperature that has counted towards each, degC; null before any has. */
  readonly countedC: PerMilestoneAndLine<readonly [coldest: number, warmest: number] | null>
  readonly notes: readonly EstimateNote[]
  /**
   * The same bond with every suspect reading taken for true; null as long as there is none. Only the colder of the
   * two counts on the cold line, only the warmer on the warm one.
   */
  readonly doubted: ProgressState | null
}

const nine = <T>(value: T): T[] => Array.from({ length: MILESTONES.length * LINES.length }, () => value)

/**
 * The clock of a bond at the moment the adhesive leaves the nozzle.
 *
 * @throws RangeError for a faulty sheet, an instant that is no number, a time constant that is not above
 * zero.
 */
export function startProgress(
  sheet: DataSheet,
  appliedAtMs: number,
  panelTauMinutes?: number,
): ProgressState {
  requireInstant('appliedAtMs', appliedAtMs)
  if (panelTauMinutes !== undefined) {
    requirePositive('panelTauMinutes', panelTauMinutes, 'minutes', 'leave it out where it is not known')
  }
  const curves = MILESTONES.map((milestone) => rateCurve(sheet, milestone))
  const published = curves[0]!.sheetC
  return {
    sheet,
    curves,
    appliedAtMs,
    panelTauMinutes: panelTauMinutes ?? null,
    lastReading: null,
    readings: 0,
    panelC: [0, 0, 0],
    progress: nine(0),
    reachedAtMs: nine(null),
    countedC: nine(null),
    notes: published.length === 1 ? [{ kind: 'estimatedFromDoublingRule', publishedC: published[0]! }] : [],
    doubted: null,
  }
}

/**
 * The state with one more reading, which must be later than the last. The past is not computed again. @throws
 * RangeError
 */
export function addReading(state: ProgressState, reading: Reading): ProgressState {
  return addReadings(state, [reading])
}

/** As `addReading`, for many at once. @throws RangeError naming the first reading at fault. */
export function addReadings(state: ProgressState, readings: readonly Reading[]): ProgressState {
  const running = runningFrom(state)
  let doubted = state.doubted === null ? null : runningFrom(state.doubted)
  const scratch = newScratch()
  const doubtScratch = newScratch()
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i]!
    const previous = (doubted ?? running).lastReading ?? undefined
    // Names are only put together for a reading that is at fault: a week has thousands of good ones.
    if (!isGoodReading(reading, previous)) requireReading(reading, `readings[${i}]`, previous)
    if (reading.suspect) doubted ??= runningFrom(running)
    else take(running, reading, scratch)
    if (doubted !== null) take(doubted, reading, doubtScratch)
  }
  running.doubted = doubted
  return running
}

/** A state in the making; `addReadings` and `estimateBond` work on their own copy. */
export interface RunningProgress extends ProgressState {
  lastReading: Reading | null
  readings: number
  panelC: Triple
  progress: number[]
  reachedAtMs: (number | null)[]
  countedC: (readonly [number, number] | null)[]
  notes: readonly EstimateNote[]
  doubted: ProgressState | null
}

export function runningFrom(state: ProgressState): RunningProgress {
  return {
    ...state,
    progress: [...state.progress],
    reachedAtMs: [...state.reachedAtMs],
    countedC: [...state.countedC],
  }
}

/** Room for the figures of one step, used again for the next: nothing is carried over in it. */
interface Scratch {
  readonly gained: number[]
  /** One for each line: it moves on only where the line passes into another kelvin. */
  readonly anchors: readonly [AnchorRates, AnchorRates, AnchorRates]
}

const newScratch = (): Scratch => ({ gained: nine(0), anchors: [noAnchor(), noAnchor(), noAnchor()] })

function take(running: RunningProgress, reading: Reading, scratch: Scratch): void {
  noteSource(running, reading)
  const { lastReading } = running
  if (lastReading === null) {
    for (const { stretch } of stretchesTo(running, reading)) advance(running, stretch)
    running.panelC = readingBand(reading)
  } else if (!plainStep(running, lastReading, reading, scratch)) {
    const followed = joinReadings(lastReading, running.panelC, reading, running.panelTauMinutes ?? undefined)
    advance(running, followed.stretch)
    running.panelC = followed.panelC
  }
  running.lastReading = reading
  running.readings += 1
}

/**
 * A step from reading to reading on which nothing happens that is worth a word: a straight line, no gap,
 * within all limits, no milestone passed. Nearly every step of a logged history is one, and this does without
 * the objects that the general way makes.
 *
 * @returns false, with nothing changed, for any other step.
 */
function plainStep(running: RunningProgress, previous: Reading, next: Reading, scratch: Scratch): boolean {
  const { panelC, progress, reachedAtMs, sheet, curves } = running
  const minutes = (next.atMs - previous.atMs) / MS_PER_MINUTE
  if (next.source === 'bayAir' && running.panelTauMinutes !== null) return false
  if (previous.atMs < running.appliedAtMs || minutes > STALE_LIMIT_MINUTES[previous.source]) return false
  if (next.source !== previous.source && minutes > STALE_LIMIT_MINUTES[next.source]) return false
  const to = readingBand(next)
  const coldest = Math.min(panelC[0], to[0])
  const warmest = Math.max(panelC[2], to[2])
  if (coldest < sheet.lowestCureC || coldest < sheet.serviceRangeC.min) return false
  if (warmest > sheet.highestCureC || warmest > sheet.serviceRangeC.max) return false
  const { gained, anchors } = scratch
  for (let line = 0; line < LINES.length; line++) {
    const aK = celsiusToKelvin(panelC[line]!)
    const bK = celsiusToKelvin(to[line]!)
    if (integrateStraight(curves, aK, bK, minutes, gained, line, LINES.length, anchors[line]!)) continue
    for (let m = 0; m < curves.length; m++)
      gained[m * LINES.length + line] = integrateLine(curves[m]!, aK, bK, minutes)
  }
  for (let i = 0; i < gained.length; i++)
    if (reachedAtMs[i] === null && progress[i]! + gained[i]! >= 1) return false
  for (let i = 0; i < gained.length; i++) progress[i]! += gained[i]!
  for (let line = 0; line < LINES.length; line++) {
    // What has not been reached has counted the same temperatures as full cure: one look is enough on most
    // steps.
    const full =
      reachedAtMs[FULL_CURE_COLD + line] === null ? running.countedC[FULL_CURE_COLD + line] : undefined
    const a = panelC[line]!
    const b = to[line]!
    if (full && a >= full[0] && a <= full[1] && b >= full[0] && b <= full[1]) continue
    for (let m = 0; m < MILESTONES.length; m++) {
      const i = m * LINES.length + line
      if (reachedAtMs[i] === null) count(running, i, a, b)
    }
  }
  running.panelC = to
  return true
}

function noteSource(running: RunningProgress, { source, atMs, temperatureC }: Reading): void {
  if (source !== 'bayAir') return
  if (running.panelTauMinutes === null) noteOnce(running, { kind: 'panelTakenAsBayAir' })
  else if (running.lastReading === null) noteOnce(running, { kind: 'panelStartAssumed', atMs, temperatureC })
}

/** As much of a state as the next stretch needs. */
export type LastKnown = Pick<ProgressState, 'lastReading' | 'panelC' | 'panelTauMinutes' | 'appliedAtMs'>

/** What the bond went through between the last reading and this one, and where the panel is now. */
export function stretchesTo(
  state: LastKnown,
  reading: Reading,
): readonly { stretch: Stretch; panelC: Triple }[] {
  if (state.lastReading !== null) {
    return [joinReadings(state.lastReading, state.panelC, reading, state.panelTauMinutes ?? undefined)]
  }
  if (reading.atMs <= state.appliedAtMs) return []
  return leadIn(state.appliedAtMs, reading).map((stretch) => ({ stretch, panelC: readingBand(reading) }))
}

function noteOnce(running: RunningProgress, note: EstimateNote): void {
  if (running.notes.some((other) => other.kind === note.kind)) return
  running.notes = [...running.notes, note]
}

/** Adds a stretch to all nine figures. What lies before the application does not count. */
export function advance(running: RunningProgress, stretch: Stretch): void {
  if (stretch.toMs <= running.appliedAtMs) return
  const from = Math.max(0, (running.appliedAtMs - stretch.fromMs) / MS_PER_MINUTE)
  for (const line of LINES) {
    const arc = stretch.arcs[line]
    for (const [m, curve] of running.curves.entries()) {
      const gained = integrateArc(curve, arc, from, arc.minutes)
      if (gained > 0) advanceOne(running, m, line, gained, arc, stretch.fromMs, from)
    }
  }
  advanceNotes(running, stretch, from)
}

function advanceOne(
  running: RunningProgress,
  m: number,
  line: Line,
  gained: number,
  arc: TemperatureArc,
  fromMs: number,
  from: number,
): void {
  const i = m * LINES.length + line
  const before = running.progress[i]!
  running.progress[i] = before + gained
  if (running.reachedAtMs[i] !== null) return
  const isReached = before + gained >= 1
  const to = isReached ? minutesToReach(running.curves[m]!, arc, from, arc.minutes, 1 - before) : arc.minutes
  // What comes after the milestone is no part of what its figure rests on.
  count(running, i, arcC(arc, from), arcC(arc, to))
  if (isReached) running.reachedAtMs[i] = Math.ceil(fromMs + to * MS_PER_MINUTE)
}

/** Widens the range of temperatures that have counted. */
function count(running: RunningProgress, i: number, a: number, b: number): void {
  const counted = running.countedC[i]
  if (counted && a >= counted[0] && a <= counted[1] && b >= counted[0] && b <= counted[1]) return
  running.countedC[i] = [Math.min(counted?.[0] ?? a, a, b), Math.max(counted?.[1] ?? a, a, b)]
}

/** Notes run until full cure is reached on the line they speak of. */
function advanceNotes(running: RunningProgress, stretch: Stretch, from: number): void {
  if (stretch.note !== undefined) running.notes = [...running.notes, stretch.note]
  const [cold, expected, warm] = stretch.arcs
  const { lowestCureC, highestCureC } = running.sheet
  if (mayPass(cold, from, lowestCureC, -1) && running.reachedAtMs[FULL_CURE_COLD] === null) {
    for (const [fromMs, toMs] of partsBeyond(cold, stretch.fromMs, from, lowestCureC, -1)) {
      running.notes = withInterval(running.notes, { kind: 'stalled', fromMs, toMs, lowestCureC })
    }
  }
  if (mayPass(expected, from, highestCureC, 1)) {
    for (const [fromMs, toMs] of partsBeyond(expected, stretch.fromMs, from, highestCureC, 1)) {
      running.notes = withInterval(running.notes, { kind: 'capped', fromMs, toMs, highestCureC })
    }
  }
  noteService(running, stretch.toMs, arcC(warm, warm.minutes))
  noteService(running, stretch.toMs, arcC(cold, cold.minutes))
}

const FULL_CURE_COLD = (MILESTONES.length - 1) * LINES.length

function noteService(running: RunningProgress, atMs: number, temperatureC: number): void {
  const { serviceRangeC } = running.sheet
  if (temperatureC >= serviceRangeC.min && temperatureC <= serviceRangeC.max) return
  noteOnce(running, { kind: 'outsideServiceRange', atMs, temperatureC, serviceRangeC })
}
