import { withDoubt } from './doubt.ts'
import type { BondEstimate, MilestoneEstimate, ReadyInstant } from './estimate-figures.ts'
import { MILESTONES, type DataSheet, type Milestone } from './data-sheet.ts'
import type { EstimateNote } from './notes.ts'
import {
  addReadings,
  advance,
  runningFrom,
  startProgress,
  type LastKnown,
  type ProgressState,
  type RunningProgress,
} from './progress.ts'
import { basisOver, weakerBasis, type Basis } from './rate-curve.ts'
import { requireForecast, requireInstant, type ForecastPoint, type Reading } from './reading.ts'
import { alongForecast, LINES, trailOff, type Line, type Trail } from './temperature-line.ts'

/** All that is known of one bond. Instants in ms, temperatures in degC. */
export interface BondHistory {
  readonly sheet: DataSheet
  /** When the adhesive left the nozzle: all three clocks start here. */
  readonly appliedAtMs: number
  /** Sorted by time, one for an instant. Those before the application tell where the panel started. */
  readonly readings: readonly Reading[]
  /** Bay air from `nowMs` on; may be empty. */
  readonly forecast: readonly ForecastPoint[]
  readonly nowMs: number
  /**
   * Time constant with which the panel follows bay air, minutes; without it the panel is taken to be at bay
   * temperature.
   */
  readonly panelTauMinutes?: number
  /**
   * From when the careful line of handling strength and full cure counts, for a bond that was entered long after it is said
   * to have been made (`creditedFromMs`); the application when left out. Work time always runs from the application.
   */
  readonly countsFromMs?: number
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
export function estimateBond(history: BondHistory): BondEstimate {
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
  const { sheet, appliedAtMs, readings, forecast, nowMs, panelTauMinutes } = history
  requireInstant('nowMs', nowMs)
  const known = readings.filter((reading) => !(reading.atMs > nowMs))
  const state = addReadings(startProgress(sheet, appliedAtMs, panelTauMinutes), known)
  const estimate = estimateFrom(state, { nowMs, forecast })
  const count = readings.length - known.length
  return count === 0
    ? estimate
    : { ...estimate, notes: [...estimate.notes, { kind: 'readingsAfterNow', count }] }
}

/**
 * As `estimateBond`, from a state that was kept: costs only what lies after its last reading.
 *
 * @throws RangeError when `nowMs` is before the last reading, or for a faulty forecast.
 */
export function estimateFrom(
  state: ProgressState,
  { nowMs, forecast }: { readonly nowMs: number; readonly forecast: readonly ForecastPoint[] },
): BondEstimate {
  requireInstant('nowMs', nowMs)
  requireForecast(forecast)
  const estimate = believing(state, nowMs, forecast)
  return state.doubted === null
    ? estimate
    : withDoubt(estimate, believing(state.doubted, nowMs, forecast), state.doubted.readings - state.readings)
}

function believing(state: ProgressState, nowMs: number, forecast: readonly ForecastPoint[]): BondEstimate {
  const tau = state.panelTauMinutes ?? undefined
  const trail = upToNow(state, nowMs, forecast)
  if (trail === undefined) return nothingKnown()
  const running = runningFrom(state)
  for (const stretch of trail.stretches) advance(running, stretch)
  const atNow = [...running.progress]
  const lastMs = forecast.at(-1)?.atMs ?? -Infinity
  const reason = lastMs > nowMs ? 'beyondForecast' : 'noTemperature'
  for (const stretch of alongForecast(forecast, nowMs, trail.panelC, tau)) {
    if (running.reachedAtMs.every((at) => at !== null)) break
    advance(running, stretch)
  }
  const estimates = MILESTONES.map((_, m) => milestoneEstimate(running, m, atNow, reason))
  return {
    workTime: estimates[0]!,
    handlingStrength: estimates[1]!,
    fullCure: estimates[2]!,
    notes: [...running.notes, ...closingNotes(running, estimates, nowMs, lastMs)],
  }
}

/**
 * From the last reading to now. With none, a bond yet to be made may start at the forecast; for any other
 * nothing is known.
 */
export function upToNow(
  state: LastKnown,
  nowMs: number,
  forecast: readonly ForecastPoint[],
): Trail | undefined {
  const first = forecast[0]
  const { lastReading } = state
  if (lastReading === null) {
    if (first === undefined || state.appliedAtMs < nowMs) return undefined
    return { stretches: [], panelC: [first.lowC, first.expectedC, first.highC] }
  }
  if (nowMs < lastReading.atMs) {
    throw new RangeError(
      `nowMs is ${nowMs}, before the last reading (${lastReading.atMs}): start from an earlier state`,
    )
  }
  return trailOff(lastReading, state.panelC, nowMs, first, state.panelTauMinutes ?? undefined)
}

function milestoneEstimate(
  running: RunningProgress,
  m: number,
  atNow: readonly number[],
  reason: 'beyondForecast' | 'noTemperature',
): MilestoneEstimate {
  const at = (line: Line): number => m * LINES.length + line
  const readyAt = (line: Line): ReadyInstant => {
    const atMs = running.reachedAtMs[at(line)]!
    if (atMs !== null) return { kind: 'at', atMs }
    const stands = reason === 'beyondForecast' && running.progress[at(line)] === atNow[at(line)]
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
  const curve = running.curves[m]!
  let basis: Basis = 'dataSheet'
  for (const line of LINES) {
    const counted = running.countedC[m * LINES.length + line]
    if (counted) basis = weakerBasis(basis, basisOver(curve, ...counted))
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
    const published = running.curves[0]!.sheetC
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
