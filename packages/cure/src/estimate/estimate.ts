import { withDoubt } from './doubt.ts'
import type { BondEstimate, MilestoneEstimate, ReadyInstant } from './estimate-figures.ts'
import { ahead } from '../careful/air.ts'
import { cutIntoBins, progressOf, reachedOf } from '../careful/bins.ts'
import type { PlaceLimits } from '../careful/place.ts'
import type { RunningProgress, Sampler } from '../careful/state.ts'
import { walk } from '../careful/walk.ts'
import { MILESTONES, type DataSheet, type Milestone } from '../sheet/data-sheet.ts'
import type { EstimateNote } from '../readings/notes.ts'
import { addReadings, follow, runningFrom, sinceLast, startProgress, type ProgressState } from './progress.ts'
import { basisOver, weakerBasis, type Basis } from '../sheet/rate-curve.ts'
import { requireForecast, requireInstant, type ForecastPoint, type Reading } from '../readings/reading.ts'
import { slowerOf } from './several-sheets.ts'
import { LINES, type Line } from '../readings/temperature-line.ts'

/** All that is known of one bond. Instants in ms, temperatures in degC. */
export interface BondHistory {
  readonly sheet: DataSheet
  /** Further revisions of the sheet that count for this bond: of all of them the slower, and the shorter work time. */
  readonly alsoSheets?: readonly DataSheet[]
  /** When the adhesive left the nozzle: all three clocks start here. */
  readonly appliedAtMs: number
  /** Sorted by time, one for an instant. Those before the application tell where the panel started. */
  readonly readings: readonly Reading[]
  /** Bay air from `nowMs` on; may be empty. */
  readonly forecast: readonly ForecastPoint[]
  readonly nowMs: number
  /**
   * Time constant with which the panel follows bay air by its own figures, minutes: a lower bound, as braces and
   * clamps are not in it. The expected line starts from it; the outer lines hold for any lag that is plausible and
   * that no reading has ruled out.
   */
  readonly panelTauMinutes?: number
  /**
   * From when the careful line of handling strength and full cure counts, for a bond that was entered long after it is said
   * to have been made (`creditedFromMs`); the application when left out. Work time always runs from the application.
   */
  readonly countsFromMs?: number
  /** How far the air of the place may fall while nobody measures; that of a place nobody knows when not given. */
  readonly place?: PlaceLimits
}

/**
 * When a bond passes its milestones: the integral of 1/t(T) over the temperature it has had and is forecast
 * to have (maturity method, equivalent age of ASTM C1074, applied to adhesive). Deterministic; reads no
 * clock.
 *
 * Readings later than `nowMs` are left out, so a history can be replayed as it was known at any instant.
 *
 * @throws RangeError naming the field, the value and the fix.
 */
export function estimateBond({ alsoSheets = [], ...history }: BondHistory): BondEstimate {
  return alsoSheets.reduce(
    (slowest, sheet) => slowerOf(slowest, estimateByOne({ ...history, sheet })),
    estimateByOne(history),
  )
}

function estimateByOne(history: BondHistory): BondEstimate {
  const { countsFromMs = history.appliedAtMs, ...told } = history
  if (countsFromMs <= told.appliedAtMs) return estimateTold(told)
  const whole = estimateTold(told)
  const counted = estimateTold({ ...told, appliedAtMs: Math.min(countsFromMs, told.nowMs) })
  return {
    ...whole,
    handlingStrength: withCareful(whole.handlingStrength, counted.handlingStrength),
    fullCure: withCareful(whole.fullCure, counted.fullCure),
    notes: [...whole.notes, { kind: 'toldLate', appliedAtMs: told.appliedAtMs, countsFromMs }],
  }
}

/** The careful line of a shorter past: never ahead of the whole one. */
function withCareful(whole: MilestoneEstimate, counted: MilestoneEstimate): MilestoneEstimate {
  return {
    ...whole,
    progress: { ...whole.progress, conservative: counted.progress.conservative },
    readyAt: { ...whole.readyAt, conservative: counted.readyAt.conservative },
  }
}

function estimateTold(history: BondHistory): BondEstimate {
  const { sheet, appliedAtMs, readings, forecast, nowMs, panelTauMinutes, place } = history
  requireInstant('nowMs', nowMs)
  const known = readings.filter((reading) => !(reading.atMs > nowMs))
  const state = addReadings(startProgress(sheet, appliedAtMs, panelTauMinutes, place), known)
  const estimate = estimateFrom(state, { nowMs, forecast })
  const count = readings.length - known.length
  return count === 0
    ? estimate
    : { ...estimate, notes: [...estimate.notes, { kind: 'readingsAfterNow', count }] }
}

/** What an estimate is made for. */
export interface Outlook {
  readonly nowMs: number
  readonly forecast: readonly ForecastPoint[]
  /** The forecast is of the metal itself, which a lamp holds, rather than of the air. */
  readonly ofMetal?: boolean
}

/**
 * As `estimateBond`, from a state that was kept: costs only what lies after its last reading.
 *
 * @throws RangeError when `nowMs` is before the last reading, or for a faulty forecast.
 */
export function estimateFrom(state: ProgressState, outlook: Outlook): BondEstimate {
  requireInstant('nowMs', outlook.nowMs)
  requireForecast(outlook.forecast)
  const estimate = believing(state, outlook)
  return state.doubted === null
    ? estimate
    : withDoubt(estimate, believing(state.doubted, outlook), state.doubted.readings - state.readings)
}

function believing(state: ProgressState, { nowMs, forecast, ofMetal }: Outlook): BondEstimate {
  const running = upToNow(state, nowMs, forecast)
  if (running === undefined) return nothingKnown()
  const atNow = MILESTONES.flatMap((_, m) =>
    LINES.map((line) => progressOf(running.bins, m * LINES.length + line)),
  )
  const lastMs = forecast.at(-1)?.atMs ?? -Infinity
  const reason = lastMs > nowMs ? 'beyondForecast' : 'noTemperature'
  goAhead(running, forecast, nowMs, ofMetal ? 'metal' : aheadKind(running))
  const estimates = MILESTONES.map((_, m) => milestoneEstimate(running, m, atNow, reason))
  return {
    workTime: estimates[0]!,
    handlingStrength: estimates[1]!,
    fullCure: estimates[2]!,
    notes: [...running.notes, ...closingNotes(running, estimates, nowMs, lastMs)],
  }
}

/**
 * The conservative instant of one milestone alone, at a fraction of the cost of an estimate.
 *
 * @throws RangeError as `estimateFrom`.
 */
export function conservativelyAt(
  state: ProgressState,
  outlook: Outlook,
  milestone: Exclude<Milestone, 'workTime'>,
): ReadyInstant {
  requireInstant('nowMs', outlook.nowMs)
  requireForecast(outlook.forecast)
  const trusted = coldInstant(state, outlook, milestone)
  return state.doubted === null ? trusted : later(trusted, coldInstant(state.doubted, outlook, milestone))
}

function later(a: ReadyInstant, b: ReadyInstant): ReadyInstant {
  if (a.kind === 'never' || b.kind === 'never') return a.kind === 'never' ? a : b
  return a.atMs >= b.atMs ? a : b
}

function coldInstant(
  state: ProgressState,
  { nowMs, forecast, ofMetal }: Outlook,
  milestone: Milestone,
): ReadyInstant {
  const running = upToNow(state, nowMs, forecast)
  if (running === undefined) return { kind: 'never', reason: 'noTemperature' }
  const i = MILESTONES.indexOf(milestone) * LINES.length
  const atNow = progressOf(running.bins, i)
  running.coldOnly = true
  for (const piece of ahead(ofMetal ? 'metal' : aheadKind(running), forecast, nowMs)) {
    const atMs = reachedOf(running.bins, i)
    if (atMs !== null) return { kind: 'at', atMs }
    walk(running, [piece])
  }
  const atMs = reachedOf(running.bins, i)
  if (atMs !== null) return { kind: 'at', atMs }
  if (!((forecast.at(-1)?.atMs ?? -Infinity) > nowMs)) return { kind: 'never', reason: 'noTemperature' }
  return { kind: 'never', reason: progressOf(running.bins, i) === atNow ? 'tooCold' : 'beyondForecast' }
}

/** Into the forecast until every milestone is passed on every line. */
function goAhead(
  running: RunningProgress,
  forecast: readonly ForecastPoint[],
  nowMs: number,
  kind: 'air' | 'metal',
): void {
  running.stopsAtOne = true
  for (const piece of ahead(kind, forecast, nowMs)) {
    if (running.bins.every(({ reachedAtMs }) => reachedAtMs.every((at) => at !== null))) return
    if (piece.toMs > nowMs) walk(running, [piece])
  }
}

/** Metal that follows no air, because nobody has said how, is taken to go as the forecast does. */
export function aheadKind({ air, panelTauMinutes }: ProgressState): 'air' | 'metal' {
  return air === null && panelTauMinutes === null ? 'metal' : 'air'
}

/**
 * A copy of the state, led from the last reading to now. With none, a bond yet to be made may start at the forecast;
 * for any other nothing is known.
 */
export function upToNow(
  state: ProgressState,
  nowMs: number,
  forecast: readonly ForecastPoint[],
  sampler?: Sampler,
): RunningProgress | undefined {
  const running = runningFrom(state)
  if (sampler !== undefined) running.sampler = sampler
  const first = forecast[0]
  const { lastReading } = state
  if (lastReading !== null && nowMs < lastReading.atMs) {
    throw new RangeError(
      `nowMs is ${nowMs}, before the last reading (${lastReading.atMs}): start from an earlier state`,
    )
  }
  const pieces = sinceLast(state, nowMs, first)
  if (pieces !== undefined) {
    follow(running, pieces)
  } else {
    if (first === undefined || state.appliedAtMs < nowMs) return undefined
    for (const bin of running.bins) bin.panelC = [first.lowC, first.expectedC, first.highC]
  }
  running.atMs = nowMs
  // Whoever measured the metal alone goes by the bay's air from here on, with any lag that is plausible.
  if (running.air === null && first !== undefined && running.panelTauMinutes !== null) {
    running.bins = cutIntoBins(running.bins[0]!, running.panelTauMinutes)
    running.epoch += 1
  }
  return running
}

function milestoneEstimate(
  running: RunningProgress,
  m: number,
  atNow: readonly number[],
  reason: 'beyondForecast' | 'noTemperature',
): MilestoneEstimate {
  const at = (line: Line): number => m * LINES.length + line
  const readyAt = (line: Line): ReadyInstant => {
    const atMs = reachedOf(running.bins, at(line))
    if (atMs !== null) return { kind: 'at', atMs }
    const stands = reason === 'beyondForecast' && progressOf(running.bins, at(line)) === atNow[at(line)]
    return { kind: 'never', reason: stands ? 'tooCold' : reason }
  }
  return {
    milestone: MILESTONES[m]!,
    progress: { earliest: atNow[at(2)]!, expected: atNow[at(1)]!, conservative: atNow[at(0)]! },
    readyAt: { earliest: readyAt(2), expected: readyAt(1), conservative: readyAt(0) },
    basis: weakestBasis(running, m),
  }
}

function weakestBasis(running: RunningProgress, m: number): Basis {
  let basis: Basis = 'dataSheet'
  for (const line of LINES) {
    const counted = running.countedC[m * LINES.length + line]
    if (counted) basis = weakerBasis(basis, basisOver(running.curves[1][m]!, ...counted))
  }
  return basis
}

function closingNotes(
  running: RunningProgress,
  estimates: readonly MilestoneEstimate[],
  nowMs: number,
  lastMs: number,
): readonly EstimateNote[] {
  const notes: EstimateNote[] = []
  const open = estimates.filter((estimate) => estimate.readyAt.conservative.kind === 'never')
  if (open.length > 0 && !(lastMs > nowMs)) notes.push({ kind: 'noForecast', fromMs: nowMs })
  else if (open.length > 0) {
    notes.push({ kind: 'forecastEnds', toMs: lastMs, milestones: open.map((estimate) => estimate.milestone) })
  }
  const extrapolated = estimates.filter((estimate) => estimate.basis === 'extrapolated')
  if (extrapolated.length > 0) {
    const counted = running.countedC.filter((range) => range !== null)
    const published = running.curves[1][0]!.sheetC
    notes.push({
      kind: 'extrapolated',
      milestones: extrapolated.map((estimate) => estimate.milestone),
      countedC: { min: Math.min(...counted.map(([c]) => c)), max: Math.max(...counted.map(([, c]) => c)) },
      publishedC: { min: published[0]!, max: published.at(-1)! },
    })
  }
  return notes
}

function nothingKnown(): BondEstimate {
  const never = { kind: 'never', reason: 'noTemperature' } as const
  const of = (milestone: Milestone): MilestoneEstimate => ({
    milestone,
    progress: { earliest: 0, expected: 0, conservative: 0 },
    readyAt: { earliest: never, expected: never, conservative: never },
    basis: 'estimated',
  })
  return {
    workTime: of('workTime'),
    handlingStrength: of('handlingStrength'),
    fullCure: of('fullCure'),
    notes: [{ kind: 'noTemperature' }],
  }
}
