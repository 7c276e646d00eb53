import { MS_PER_MINUTE } from '@clampclock/quantities'
import { MILESTONES } from '../sheet/data-sheet.ts'
import type { EstimateNote } from '../readings/notes.ts'
import { rateAt } from '../sheet/rate-curve.ts'
import { STALE_LIMIT_MINUTES, type Reading } from '../readings/reading.ts'
import { arcC } from '../temperature/temperature-arc.ts'
import { LINES, readingBand, type Triple } from '../readings/temperature-line.ts'
import { partOf, type Piece } from './air.ts'
import {
  cutIntoBins,
  likeliest,
  minutesAfter,
  progressOf,
  reachedOf,
  wholeRange,
  type LagBin,
} from './bins.ts'
import { count, lead, leadCold, passed, type Guide } from './follow.ts'
import type { RunningProgress } from './state.ts'

const FULL_CURE_COLD = (MILESTONES.length - 1) * LINES.length
/** Two readings of the metal this close may be of two places of it, minutes. Common practice, no source. */
const TWO_PLACES_MINUTES = 10
/** A thermometer is not trusted to be better than this when guesses are weighed, degC. */
const LEAST_ACCURACY_C = 0.5

export function noteOnce(running: RunningProgress, note: EstimateNote): void {
  if (running.notes.some((other) => other.kind === note.kind)) return
  running.notes = [...running.notes, note]
}

/** Leads all bins through the pieces from where they stand, and past the metal readings that wait. */
export function walk(running: RunningProgress, pieces: readonly Piece[]): void {
  const guide: Guide = {
    curves: running.curves,
    appliedAtMs: running.appliedAtMs,
    countedC: running.countedC,
    stopsAtOne: running.stopsAtOne ?? false,
  }
  for (const whole of pieces) {
    let piece = partOf(whole, running.atMs!, Infinity)
    if (piece !== undefined) running.sampler?.take(running, piece.fromMs)
    while (piece !== undefined) {
      const stopMs = nextStop(running, piece)
      const part = partOf(piece, piece.fromMs, stopMs)
      if (part !== undefined) leadAll(running, part, guide)
      piece = partOf(piece, stopMs, piece.toMs)
      running.sampler?.take(running, stopMs)
      if (measureAt(running, stopMs)) running.sampler?.take(running, stopMs)
    }
  }
}

const isMetal = ({ source }: Reading): boolean => source !== 'bayAir'

function nextStop(running: RunningProgress, piece: Piece): number {
  let stopMs = piece.toMs
  if (running.air !== null) {
    for (const reading of running.pending) {
      if (isMetal(reading) && reading.atMs > piece.fromMs) stopMs = Math.min(stopMs, reading.atMs)
    }
  }
  if (running.sampler !== undefined) {
    const { stepMs } = running.sampler
    const steps = Math.floor((piece.fromMs - running.appliedAtMs) / stepMs) + 1
    const markMs = running.appliedAtMs + steps * stepMs
    if (markMs > piece.fromMs && markMs >= running.appliedAtMs) stopMs = Math.min(stopMs, markMs)
    if (piece.fromMs < running.appliedAtMs && running.appliedAtMs < stopMs) stopMs = running.appliedAtMs
  }
  return stopMs
}

function measureAt(running: RunningProgress, atMs: number): boolean {
  if (running.air === null) return false
  const due = running.pending.filter((reading) => isMetal(reading) && reading.atMs <= atMs)
  if (due.length === 0) return false
  running.pending = running.pending.filter((reading) => !due.includes(reading))
  for (const reading of due) measured(running, reading)
  return true
}

function leadAll(running: RunningProgress, piece: Piece, guide: Guide): void {
  if (running.coldOnly) {
    for (const bin of running.bins) leadCold(bin, piece, guide)
    running.atMs = piece.toMs
    return
  }
  const best = likeliest(running.bins)
  let { coldestC = Infinity, warmestC = -Infinity } = running.mark ?? {}
  for (const bin of running.bins) {
    const arcs = lead(bin, piece, guide)
    // Each arc only rises or only falls: its end is its extreme.
    for (const arc of arcs[0]!) coldestC = Math.min(coldestC, arcC(arc, arc.minutes))
    for (const arc of arcs[2]!) warmestC = Math.max(warmestC, arcC(arc, arc.minutes))
    if (bin !== best || piece.toMs <= guide.appliedAtMs) continue
    running.notes = passed(running.notes, arcs, piece, guide, {
      ...running.sheet,
      isFullyCured: bin.reachedAtMs[FULL_CURE_COLD] !== null,
    })
    noteService(running, piece.toMs, bin.panelC[2])
    noteService(running, piece.toMs, bin.panelC[0])
  }
  if (running.mark !== null) running.mark = { ...running.mark, coldestC, warmestC }
  running.atMs = piece.toMs
}

function noteService(running: RunningProgress, atMs: number, temperatureC: number): void {
  const { serviceRangeC } = running.sheet
  if (temperatureC >= serviceRangeC.min && temperatureC <= serviceRangeC.max) return
  noteOnce(running, { kind: 'outsideServiceRange', atMs, temperatureC, serviceRangeC })
}

/** Remembers where all stand at a reading of the metal, or at its assumed start. */
export function markAt(running: RunningProgress, atMs: number, band: Triple, isMeasured: boolean): void {
  running.mark = {
    atMs,
    isMeasured,
    lowC: band[0],
    highC: band[2],
    cold: MILESTONES.map((_, m) => progressOf(running.bins, m * LINES.length)),
    warm: MILESTONES.map((_, m) => progressOf(running.bins, m * LINES.length + 2)),
    coldestC: band[0],
    warmestC: band[2],
  }
}

/**
 * The metal was measured: each bin is left with what it and the reading have in common, and one that has nothing in
 * common with it was wrong. A reading in doubt only makes every bin less sure.
 */
function measured(running: RunningProgress, reading: Reading): void {
  const band = withOtherPlace(running, reading)
  if (reading.suspect) {
    for (const bin of running.bins) {
      const [cold, expected, warm] = bin.panelC
      bin.panelC = [Math.min(cold, band[0]), expected, Math.max(warm, band[2])]
    }
    return
  }
  if (running.mark?.isMeasured === false) firstMeasured(running, reading, band)
  else {
    const left = running.bins.filter(({ panelC }) => panelC[0] <= band[2] && panelC[2] >= band[0])
    if (left.length === 0) contradicted(running, reading, band)
    else {
      for (const bin of left) meet(bin, band)
      running.bins = left
    }
  }
  markAt(running, reading.atMs, outer(running), true)
}

/** Two readings close together may be of two places of the metal: the colder counts, on the warm line the warmer. */
function withOtherPlace({ mark }: RunningProgress, reading: Reading): Triple {
  const [low, expected, high] = readingBand(reading)
  const isClose = mark?.isMeasured && reading.atMs - mark.atMs <= TWO_PLACES_MINUTES * MS_PER_MINUTE
  return isClose ? [Math.min(low, mark.lowC), expected, Math.max(high, mark.highC)] : [low, expected, high]
}

function outer(running: RunningProgress): Triple {
  let [cold, warm] = [Infinity, -Infinity]
  for (const { panelC } of running.bins) {
    cold = Math.min(cold, panelC[0])
    warm = Math.max(warm, panelC[2])
  }
  return [cold, likeliest(running.bins).panelC[1], warm]
}

function meet(bin: LagBin, band: Triple): void {
  const [cold, expected, warm] = bin.panelC
  const accuracyC = Math.max(LEAST_ACCURACY_C, (band[2] - band[0]) / 2)
  bin.misfit += ((band[1] - expected) / accuracyC) ** 2
  const [low, high] = [Math.max(cold, band[0]), Math.min(warm, band[2])]
  bin.panelC = [low, Math.min(Math.max(band[1], low), high), high]
}

/** Nobody had measured it before: its start was assumed, and rules nothing out. */
function firstMeasured(running: RunningProgress, reading: Reading, band: Triple): void {
  const [cold, , warm] = outer(running)
  const sides = { cold: band[0] < cold, warm: band[2] > warm }
  if (sides.cold || sides.warm) contradicted(running, reading, band, sides)
  for (const bin of running.bins) bin.panelC = band
}

/**
 * No time constant explains the reading: something else warmed or cooled the metal. The time since it was last
 * measured is counted at the coldest of everything (on the warm line the warmest), and no guess is ruled out any
 * more.
 */
function contradicted(
  running: RunningProgress,
  reading: Reading,
  band: Triple,
  sides = { cold: true, warm: true },
): void {
  const { bins, curves, appliedAtMs } = running
  const mark = running.mark!
  const since = (reading.atMs - mark.atMs) / MS_PER_MINUTE
  // Readings of the metal this close speak for the time between them, whatever the air was.
  const isNear = mark.isMeasured && since <= STALE_LIMIT_MINUTES[reading.source]
  const coldestC = Math.min(isNear ? mark.lowC : mark.coldestC, band[0])
  const warmestC = Math.max(isNear ? mark.highC : mark.warmestC, band[2])
  const minutes = minutesAfter(appliedAtMs, mark.atMs, reading.atMs)
  const fresh = wholeRange(running.panelTauMinutes)
  for (let m = 0; m < MILESTONES.length; m++) {
    const i = m * LINES.length
    const cold = sides.cold ? mark.cold[m]! + minutes * rateAt(curves[0][m]!, coldestC) : progressOf(bins, i)
    const warm = sides.warm
      ? Math.max(progressOf(bins, i + 2), mark.warm[m]! + minutes * rateAt(curves[2][m]!, warmestC))
      : progressOf(bins, i + 2)
    const expected = Math.min(Math.max(progressOf(bins, i + 1), cold), warm)
    for (const [line, value] of [cold, expected, warm].entries()) {
      const reachedMs = reachedOf(bins, i + line)
      fresh.progress[i + line] = value
      if (value >= 1) {
        const before = line === 0 ? mark.cold[m]! : line === 2 ? mark.warm[m]! : 1
        const isKept = line === 0 ? !sides.cold : line === 2 ? !sides.warm : true
        const isOld = reachedMs !== null && (isKept || before >= 1)
        fresh.reachedAtMs[i + line] = isOld ? reachedMs : line === 2 ? mark.atMs : reading.atMs
      }
    }
    if (minutes > 0) {
      count(running.countedC, i, coldestC, coldestC)
      count(running.countedC, i + 2, warmestC, warmestC)
    }
  }
  fresh.panelC = band
  running.bins = cutIntoBins(fresh, running.panelTauMinutes)
  running.epoch += 1
  // A start that was only assumed contradicts nothing.
  if (!mark.isMeasured) return
  running.notes = [
    ...running.notes,
    { kind: 'metalNotFollowingAir', atMs: reading.atMs, temperatureC: reading.temperatureC },
  ]
}
