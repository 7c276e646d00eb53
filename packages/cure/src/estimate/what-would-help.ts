import { requireInRange, type Range } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C, type DataSheet, type Milestone } from '../sheet/data-sheet.ts'
import type { ReadyInstant } from './estimate-figures.ts'
import { conservativelyAt, estimateFrom } from './estimate.ts'
import type { ProgressState } from './progress.ts'
import { requireInstant, type ForecastPoint } from '../readings/reading.ts'

/** Warming the bay's air, which the panel follows, or the metal itself by a heat lamp. */
export type Warming = 'bay' | 'heatLamp'

export interface Wish {
  readonly state: ProgressState
  readonly nowMs: number
  /** The bay as it is forecast without any help. */
  readonly forecast: readonly ForecastPoint[]
  /** handlingStrength when not given. */
  readonly milestone?: Exclude<Milestone, 'workTime'>
  /**
   * Whether the joint is clamped already; while it may be open, heat takes work time away. False when not
   * given.
   */
  readonly isClosed?: boolean
  /** Wanted by this instant. */
  readonly byMs: number
  readonly warming: Warming
  /** How well the warmed temperature is held, degC, 0 to 20: counted against us. */
  readonly toleranceC: number
  /** What the bay's heater or the lamp can do, degC. */
  readonly warmestC?: number
  /** Sheets of other products on the vehicle that get warm as well. */
  readonly otherSheets?: readonly DataSheet[]
  /** Sheets of joints on the vehicle that may be open still: heat takes their work time away. */
  readonly openSheets?: readonly DataSheet[]
  /** The vehicle's own limit for its metal, degC, where it has one. */
  readonly vehicleLimitC?: number
}

/** What keeps the temperature from going any higher, degC. */
export interface WarmingLimit {
  readonly highestC: number
  readonly because: 'highestCure' | 'serviceRange' | 'otherProduct' | 'vehicle' | 'equipment' | 'workTime'
}

export interface Help {
  /** Conservative, if nothing is done. */
  readonly readyAt: ReadyInstant
  /**
   * `onTime`: nothing need be done. `warm`: hold `neededC` from now. `notPossible`: late even at the limit.
   */
  readonly verdict: 'onTime' | 'warm' | 'notPossible'
  /**
   * Temperature to hold from now until the wish, rounded up to a tenth, degC; null unless the verdict is
   * `warm`.
   */
  readonly neededC: number | null
  /** Conservative, with `neededC`, or at the limit when that is not enough. */
  readonly readyAtWithHelp: ReadyInstant
  readonly limit: WarmingLimit
  /**
   * Minutes that the conservative ready time gains from the whole forecast being 1 degC warmer; null when
   * either is unknown.
   */
  readonly minutesSavedPerDegreeC: number | null
}

/**
 * What must be done for a bond to be ready by a wished instant, at the least temperature that does it. Warmer
 * is never later, so the least is found by halving. No temperature is proposed that a product on the vehicle
 * forbids, nor, while the joint may still be open, above the application range.
 *
 * @throws RangeError naming the field at fault; a wish that is not after now.
 */
export function whatWouldHelp(wish: Wish): Help {
  const { state, nowMs, forecast, milestone = 'handlingStrength', byMs, toleranceC } = wish
  requireInstant('byMs', byMs)
  if (byMs <= nowMs)
    throw new RangeError(`byMs is ${byMs}, not after now (${nowMs}): wish for a later instant`)
  requireInRange('toleranceC', toleranceC, { min: 0, max: 20 }, 'degC', 'give how well the heat is held')
  const unhelped = estimateFrom(state, { nowMs, forecast })
  const readyAt = unhelped[milestone].readyAt.conservative
  const warmer = conservativelyAt(state, { nowMs, forecast: shifted(forecast, 1) }, milestone)
  const limit = warmingLimit(wish, wish.isClosed !== true && unhelped.workTime.progress.earliest < 1)
  const isInTime = (ready: ReadyInstant): boolean => ready.kind === 'at' && ready.atMs <= byMs
  const helped = (c: number): ReadyInstant => readyWhenHeld(wish, milestone, c)
  const saved = readyAt.kind === 'at' && warmer.kind === 'at' ? (readyAt.atMs - warmer.atMs) / 60_000 : null
  const common = { readyAt, limit, minutesSavedPerDegreeC: saved }
  if (isInTime(readyAt)) return { ...common, verdict: 'onTime', neededC: null, readyAtWithHelp: readyAt }
  const atLimit = helped(limit.highestC)
  if (!isInTime(atLimit))
    return { ...common, verdict: 'notPossible', neededC: null, readyAtWithHelp: atLimit }
  let [low, high] = [PLAUSIBLE_TEMPERATURE_C.min, limit.highestC]
  while (high - low > 0.01) {
    const middle = (low + high) / 2
    if (isInTime(helped(middle))) high = middle
    else low = middle
  }
  const neededC = Math.min(limit.highestC, Math.ceil(high * 10 - 1e-9) / 10)
  return { ...common, verdict: 'warm', neededC, readyAtWithHelp: helped(neededC) }
}

function shifted(forecast: readonly ForecastPoint[], byC: number): readonly ForecastPoint[] {
  const { max } = PLAUSIBLE_TEMPERATURE_C
  const up = (c: number): number => Math.min(c + byC, max)
  return forecast.map((point) => ({
    atMs: point.atMs,
    lowC: up(point.lowC),
    expectedC: up(point.expectedC),
    highC: up(point.highC),
  }))
}

function readyWhenHeld(wish: Wish, milestone: Exclude<Milestone, 'workTime'>, c: number): ReadyInstant {
  const { nowMs, byMs, toleranceC, warming } = wish
  const { min, max } = PLAUSIBLE_TEMPERATURE_C
  const band = { lowC: Math.max(c - toleranceC, min), expectedC: c, highC: Math.min(c + toleranceC, max) }
  const forecast = [nowMs, byMs].map((atMs) => ({ atMs, ...band }))
  // A lamp warms the metal and is set by it: nothing is followed.
  const ofMetal = warming === 'heatLamp'
  return conservativelyAt(wish.state, { nowMs, forecast, ofMetal }, milestone)
}

/** The lowest of all that stands in the way, the temperature's tolerance counted against us. */
function warmingLimit(wish: Wish, mayBeOpen: boolean): WarmingLimit {
  const { state, toleranceC, warmestC, vehicleLimitC, otherSheets = [], openSheets = [] } = wish
  const open = mayBeOpen ? [state.sheet, ...openSheets] : openSheets
  const within = (range: Range): number => range.max - toleranceC
  const limits: WarmingLimit[] = [
    { highestC: state.sheet.highestCureC, because: 'highestCure' },
    { highestC: within(state.sheet.serviceRangeC), because: 'serviceRange' },
    ...otherSheets.map((sheet): WarmingLimit => ({
      highestC: within(sheet.serviceRangeC),
      because: 'otherProduct',
    })),
  ]
  if (vehicleLimitC !== undefined) {
    requireInRange(
      'vehicleLimitC',
      vehicleLimitC,
      PLAUSIBLE_TEMPERATURE_C,
      'degC',
      'as the vehicle maker says',
    )
    limits.push({ highestC: vehicleLimitC - toleranceC, because: 'vehicle' })
  }
  for (const sheet of open) limits.push({ highestC: within(sheet.applicationRangeC), because: 'workTime' })
  if (warmestC !== undefined) {
    requireInRange('warmestC', warmestC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'give what the heater can do')
    limits.push({ highestC: warmestC, because: 'equipment' })
  }
  return limits.reduce((lowest, limit) => (limit.highestC < lowest.highestC ? limit : lowest))
}
