import { MS_PER_MINUTE, requirePositive } from '@clampclock/quantities'
import { before, between, since, type Pieces } from '../careful/air.ts'
import { copyOf, cutIntoBins, wholeRange, type LineCurves } from '../careful/bins.ts'
import { UNKNOWN_PLACE, type PlaceLimits } from '../careful/place.ts'
import { newScratch, plainStep, type Scratch } from '../careful/plain-step.ts'
import type { ProgressState, RunningProgress } from '../careful/state.ts'
import { markAt, noteOnce, walk } from '../careful/walk.ts'
import { MILESTONES, type DataSheet } from '../sheet/data-sheet.ts'
import { rateCurve } from '../sheet/rate-curve.ts'
import {
  isGoodReading,
  requireInstant,
  requireReading,
  STALE_LIMIT_MINUTES,
  type Reading,
} from '../readings/reading.ts'
import { LINES, readingBand, type Triple } from '../readings/temperature-line.ts'

/**
 * The clock of a bond at the moment the adhesive leaves the nozzle.
 *
 * @param panelTauMinutes by the panel's own figures: a lower bound, as braces and clamps are not in it.
 * @param place how far its air may fall while nobody measures; that of a place nobody knows when not given.
 * @throws RangeError for a faulty sheet, an instant that is no number, a time constant that is not above
 * zero.
 */
export function startProgress(
  sheet: DataSheet,
  appliedAtMs: number,
  panelTauMinutes?: number,
  place: PlaceLimits = UNKNOWN_PLACE,
): ProgressState {
  requireInstant('appliedAtMs', appliedAtMs)
  if (panelTauMinutes !== undefined) {
    requirePositive('panelTauMinutes', panelTauMinutes, 'minutes', 'leave it out where it is not known')
  }
  const curvesOf = (side: 'careful' | 'expected' | 'hasty') =>
    MILESTONES.map((milestone) => rateCurve(sheet, milestone, side))
  const curves: LineCurves = [curvesOf('careful'), curvesOf('expected'), curvesOf('hasty')]
  const published = curves[1][0]!.sheetC
  const tau = panelTauMinutes ?? null
  return {
    sheet,
    curves,
    appliedAtMs,
    panelTauMinutes: tau,
    place,
    lastReading: null,
    readings: 0,
    air: null,
    metal: null,
    atMs: null,
    pending: [],
    bins: [wholeRange(tau)],
    mark: null,
    epoch: 0,
    countedC: Array.from({ length: MILESTONES.length * LINES.length }, () => null),
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
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i]!
    const previous = (doubted ?? running).lastReading ?? undefined
    // Names are only put together for a reading that is at fault: a week has thousands of good ones.
    if (!isGoodReading(reading, previous)) requireReading(reading, `readings[${i}]`, previous)
    if (reading.suspect) doubted ??= runningFrom(running)
    else take(running, reading, scratch)
    if (doubted !== null) take(doubted, reading, scratch)
  }
  running.doubted = doubted
  return running
}

export function runningFrom(state: ProgressState): RunningProgress {
  return {
    ...state,
    bins: state.bins.map(copyOf),
    pending: [...state.pending],
    countedC: [...state.countedC],
    doubted: null,
  }
}

/** Adds one reading to a state in the making. */
export function take(running: RunningProgress, reading: Reading, scratch: Scratch): void {
  if (reading.suspect) running.pending.push(reading)
  else if (reading.source === 'bayAir') takeAir(running, reading)
  else if (running.air === null) takeMetalAlone(running, reading, scratch)
  else {
    running.pending.push(reading)
    // The air has been silent for too long to wait for it.
    const minutes = (reading.atMs - running.air.atMs) / MS_PER_MINUTE
    if (minutes > STALE_LIMIT_MINUTES.bayAir) {
      follow(running, since('air', running.air, reading.atMs, doubts(running), running.place, undefined))
    }
  }
  if (!reading.suspect && reading.source !== 'bayAir') running.metal = reading
  running.lastReading = reading
  running.readings += 1
}

/** Readings of the air that are in doubt and wait. */
function doubts(running: Pick<ProgressState, 'pending'>): readonly Reading[] {
  return running.pending.filter(({ suspect, source }) => suspect && source === 'bayAir')
}

/** Leads the bins through pieces, past the readings that wait, and notes what there is to note. */
export function follow(running: RunningProgress, { pieces, note }: Pieces): void {
  if (note !== undefined && (note as { toMs: number }).toMs > running.appliedAtMs)
    running.notes = [...running.notes, note]
  walk(running, pieces)
}

function takeAir(running: RunningProgress, reading: Reading): void {
  const { place } = running
  if (running.panelTauMinutes === null) noteOnce(running, { kind: 'panelLagUnknown' })
  if (running.atMs === null) startFromAir(running, reading)
  else if (running.air === null) {
    // The first of the air after the metal alone: what it was before, it can only have risen from.
    running.bins = cutIntoBins(running.bins[0]!, running.panelTauMinutes)
    running.epoch += 1
    const { pieces } = before('air', reading, running.atMs, readingBand(reading), place)
    running.pending = running.pending.filter(({ source }) => source !== 'bayAir')
    walk(running, pieces)
  } else follow(running, between('air', running.air, reading, doubts(running), place))
  running.pending = []
  running.air = reading
  running.atMs = reading.atMs
}

/** Nobody has measured the metal: it may be as cold as adhesive may be put on. */
function startFromAir(running: RunningProgress, reading: Reading): void {
  const { applicationRangeC } = running.sheet
  const [cold, expected, warm] = readingBand(reading)
  const start: Triple = [
    Math.min(cold, applicationRangeC.min),
    expected,
    Math.max(warm, applicationRangeC.max),
  ]
  noteOnce(running, { kind: 'panelStartAssumed', atMs: reading.atMs, temperatureC: reading.temperatureC })
  leadIn(running, reading, start)
  running.bins = cutIntoBins(running.bins[0]!, running.panelTauMinutes)
  running.epoch += 1
  markAt(running, reading.atMs, start, false)
}

function leadIn(running: RunningProgress, reading: Reading, band: Triple): void {
  running.pending = []
  running.atMs = running.appliedAtMs
  if (reading.atMs > running.appliedAtMs)
    follow(running, before('metal', reading, running.appliedAtMs, band, running.place))
  for (const bin of running.bins) bin.panelC = band
  running.atMs = reading.atMs
}

function takeMetalAlone(running: RunningProgress, reading: Reading, scratch: Scratch): void {
  const { metal } = running
  const band = readingBand(reading)
  if (metal === null || running.atMs === null) leadIn(running, reading, band)
  else if (!plainStep(running, metal, reading, scratch)) {
    follow(running, between('metal', metal, reading, running.pending, running.place))
    running.pending = []
    running.bins[0]!.panelC = band
    running.atMs = reading.atMs
  }
  markAt(running, reading.atMs, band, true)
}

/** What is made of the time from the last reading to now, with whatever waits. */
export function sinceLast(
  state: Pick<ProgressState, 'air' | 'metal' | 'pending' | 'place'>,
  nowMs: number,
  forecast: Parameters<typeof since>[5],
): Pieces | undefined {
  const { air, metal, pending, place } = state
  if (air !== null) return since('air', air, nowMs, doubts(state), place, forecast)
  if (metal !== null) return since('metal', metal, nowMs, pending, place, forecast)
  return undefined
}

export type { ProgressState }
