import { MS_PER_MINUTE, requirePositive } from '@clampclock/quantities'
import { MILESTONES, type DataSheet } from './data-sheet.ts'
import { integrateArc, minutesToReach } from './integrate.ts'
import { withInterval, type EstimateNote } from './notes.ts'
import { rateCurve, type RateCurve } from './rate-curve.ts'
import { requireInstant, requireReading, type Reading } from './reading.ts'
import { arcC, crossingOf, turningPoint, type TemperatureArc } from './temperature-arc.ts'
import { joinReadings, leadIn, LINES, readingBand, type Stretch, type Triple } from './temperature-line.ts'

/** Nine figures: milestone by milestone, in each the cold, the expected and the warm line. */
export type PerMilestoneAndLine<T> = readonly T[]

/**
 * Where a bond stood at its last reading: plain data, so it can be stored and taken up again. Adding a reading costs the same
 * however long the bond has been curing.
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
}

const nine = <T>(value: T): T[] => Array.from({ length: MILESTONES.length * LINES.length }, () => value)

/**
 * The clock of a bond at the moment the adhesive leaves the nozzle.
 *
 * @throws RangeError for a faulty sheet, an instant that is no number, a time constant that is not above zero.
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
  }
}

/** The state with one more reading, which must be later than the last. The past is not computed again. @throws RangeError */
export function addReading(state: ProgressState, reading: Reading): ProgressState {
  return addReadings(state, [reading])
}

/** As `addReading`, for many at once. @throws RangeError naming the first reading at fault. */
export function addReadings(state: ProgressState, readings: readonly Reading[]): ProgressState {
  const running = runningFrom(state)
  for (const [i, reading] of readings.entries()) {
    requireReading(reading, `readings[${i}]`, running.lastReading ?? undefined)
    take(running, reading)
  }
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
}

export function runningFrom(state: ProgressState): RunningProgress {
  return {
    ...state,
    progress: [...state.progress],
    reachedAtMs: [...state.reachedAtMs],
    countedC: [...state.countedC],
  }
}

function take(running: RunningProgress, reading: Reading): void {
  const tau = running.panelTauMinutes ?? undefined
  const stretches = stretchesTo(running, reading)
  if (reading.source === 'bayAir' && tau === undefined) noteOnce(running, { kind: 'panelTakenAsBayAir' })
  if (running.lastReading === null && reading.source === 'bayAir' && tau !== undefined) {
    const { atMs, temperatureC } = reading
    running.notes = [...running.notes, { kind: 'panelStartAssumed', atMs, temperatureC }]
  }
  for (const { stretch } of stretches) advance(running, stretch)
  running.panelC = stretches.at(-1)?.panelC ?? readingBand(reading)
  running.lastReading = reading
  running.readings += 1
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
  for (const [m, curve] of running.curves.entries()) {
    for (const line of LINES)
      advanceOne(running, m * LINES.length + line, curve, stretch.arcs[line], stretch.fromMs, from)
  }
  advanceNotes(running, stretch, from)
}

function advanceOne(
  running: RunningProgress,
  i: number,
  curve: RateCurve,
  arc: TemperatureArc,
  fromMs: number,
  from: number,
): void {
  const gained = integrateArc(curve, arc, from, arc.minutes)
  if (gained === 0) return
  const before = running.progress[i]!
  running.progress[i] = before + gained
  if (running.reachedAtMs[i] !== null) return
  const [a, b] = [arcC(arc, from), arcC(arc, arc.minutes)]
  const counted = running.countedC[i] ?? [Infinity, -Infinity]
  running.countedC[i] = [Math.min(counted[0], a, b), Math.max(counted[1], a, b)]
  if (before + gained < 1) return
  running.reachedAtMs[i] = Math.ceil(
    fromMs + minutesToReach(curve, arc, from, arc.minutes, 1 - before) * MS_PER_MINUTE,
  )
}

/** Notes run until full cure is reached on the line they speak of. */
function advanceNotes(running: RunningProgress, stretch: Stretch, from: number): void {
  if (stretch.note !== undefined) running.notes = [...running.notes, stretch.note]
  const { lowestCureC, highestCureC, serviceRangeC } = running.sheet
  const fullCure = (MILESTONES.length - 1) * LINES.length
  const [cold, expected] = stretch.arcs
  const at = (t: number): number => Math.round(stretch.fromMs + t * MS_PER_MINUTE)
  if (running.reachedAtMs[fullCure] === null) {
    for (const [a, b] of partsBeyond(cold, from, lowestCureC, -1)) {
      running.notes = withInterval(running.notes, {
        kind: 'stalled',
        fromMs: at(a),
        toMs: at(b),
        lowestCureC,
      })
    }
  }
  for (const [a, b] of partsBeyond(expected, from, highestCureC, 1)) {
    running.notes = withInterval(running.notes, { kind: 'capped', fromMs: at(a), toMs: at(b), highestCureC })
  }
  for (const temperatureC of [arcC(stretch.arcs[2], stretch.arcs[2].minutes), arcC(cold, cold.minutes)]) {
    if (temperatureC >= serviceRangeC.min && temperatureC <= serviceRangeC.max) continue
    noteOnce(running, { kind: 'outsideServiceRange', atMs: stretch.toMs, temperatureC, serviceRangeC })
  }
}

/** The parts of an arc that lie below (`side` -1) or above (1) a limit, minutes into it. */
function partsBeyond(
  arc: TemperatureArc,
  from: number,
  limitC: number,
  side: 1 | -1,
): readonly (readonly [number, number])[] {
  const turn = turningPoint(arc, from, arc.minutes)
  const cuts = turn === undefined ? [from, arc.minutes] : [from, turn, arc.minutes]
  const parts: (readonly [number, number])[] = []
  for (let i = 1; i < cuts.length; i++) {
    const [start, end] = [cuts[i - 1]!, cuts[i]!]
    const [a, b] = [side * (arcC(arc, start) - limitC), side * (arcC(arc, end) - limitC)]
    if (a <= 0 && b <= 0) continue
    if (a > 0 && b > 0) parts.push([start, end])
    else if (a > 0) parts.push([start, crossingOf(arc, start, end, limitC)])
    else parts.push([crossingOf(arc, start, end, limitC), end])
  }
  return parts
}
